using System.Globalization;
using System.Numerics;
using Reckoner.Classroom;
using Reckoner.Datapaths;
using Reckoner.Explaining;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Documents.Marking;

/// <summary>
/// Which columns and rows of a table on a sheet are the registers of a walk after its cycles, and in which base they are written.
/// What belongs there shows it: columns in which it is not what the registers hold are none of theirs.
/// </summary>
/// <param name="Columns">For each register its column; -1 for one that is not shown and never changes.</param>
/// <param name="Bases">For each register the base of its digits.</param>
/// <param name="Rows">For each cycle, the load first, the row of the table that stands for it.</param>
internal sealed record WalkColumns(IReadOnlyList<int> Columns, IReadOnlyList<int> Bases, IReadOnlyList<int> Rows)
{
    private static readonly int[] KnownBases = [2, 16, 8, 10];

    /// <summary>Null where the table does not show all of the walk.</summary>
    public static WalkColumns? Of(AnsweredTable table, Walk walk)
    {
        List<int> rows = [.. walk.Rows.Select(r => table.Rows.ToList().FindLastIndex(t => t.Cycle == r.Cycle))];
        if (rows.Contains(-1))
        {
            return null;
        }
        var (columns, bases) = (new List<int>(), new List<int>());
        foreach (var register in walk.Datapath.Registers)
        {
            var column = table.Columns.ToList().IndexOf(register.Name);
            var digits = KnownBases.FirstOrDefault(b =>
                column >= 0
                && walk.Rows.All(r =>
                    Word(table.Rows[rows[r.Cycle]].Cells[column], register.Width, b, []) is { } word
                    && word == HandWord.Whole(r.Registers[register.Index], register.Width)
                )
            );
            if (digits == 0 && (column >= 0 || Changes(walk, register)))
            {
                return null;
            }
            columns.Add(column);
            bases.Add(digits);
        }
        return columns.TrueForAll(c => c < 0) ? null : new WalkColumns(columns, bases, rows);
    }

    private static bool Changes(Walk walk, Register register) =>
        walk.Rows.Select(r => r.Registers[register.Index]).Distinct().Count() > 1;

    /// <summary>What was written into a cell; null where it cannot be read.</summary>
    public static HandWord? Word(string cell, int width, int digits, HashSet<TableAssumption> assumed)
    {
        var text = string.Concat(cell.Where(c => !char.IsWhiteSpace(c) && c is not '_'));
        if (digits == 2 || text.Length == 0 || text.StartsWith("0b", StringComparison.OrdinalIgnoreCase))
        {
            return HandCell.Of(cell, width, assumed);
        }
        if (digits == 10)
        {
            return
                OperandReader.Number(text.Replace('\u2212', '-')) is { } number
                && (Bits.Fits(number, width, isSigned: false) || Bits.Fits(number, width, isSigned: true))
                ? HandWord.Whole(Bits.Wrap(number, width), width)
                : null;
        }
        var prefix = digits == 16 ? "0x" : "0o";
        var plain = text.StartsWith(prefix, StringComparison.OrdinalIgnoreCase) ? text[2..] : text;
        if (plain.Any(c => c is 'O' or 'o' or 'l' or 'I'))
        {
            assumed.Add(TableAssumption.LettersAsDigits);
            plain = plain.Replace('O', '0').Replace('o', '0').Replace('l', '1').Replace('I', '1');
        }
        var bits = BigInteger.Zero;
        foreach (var sign in plain)
        {
            var value = char.IsAsciiHexDigit(sign)
                ? int.Parse([sign], NumberStyles.HexNumber, CultureInfo.InvariantCulture)
                : digits;
            if (value >= digits || plain.Length > width)
            {
                return null;
            }
            bits = bits * digits + value;
        }
        return plain.Length > 0 && Bits.Fits(bits, width, isSigned: false) ? HandWord.Whole(bits, width) : null;
    }
}
