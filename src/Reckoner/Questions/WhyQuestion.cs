using System.Numerics;
using Reckoner.Catalogue;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Explaining;
using Reckoner.Running;

namespace Reckoner.Questions;

/// <summary>Why did somebody get this?</summary>
public sealed record WhyQuestion(AskedMachine Machine)
{
    /// <summary>So many causes together are tried.</summary>
    internal const int MostCauses = 2;

    /// <summary>By name, or in the order of the text.</summary>
    public IReadOnlyList<AskedOperand> Operands { get; init; } = [];

    /// <summary>
    /// Results as numbers, "quotient=4 remainder=5", or registers as bits in a cycle, "cycle 3: R=00101 Q=01100"; null where a table
    /// says it all.
    /// </summary>
    public string? Got { get; init; }

    /// <summary>
    /// A table of all rows as text: what a spreadsheet writes, or columns parted by blanks. Registers that are told besides stand over
    /// its cells. Null for none.
    /// </summary>
    public string? Table { get; init; }

    internal Answer<Verdict> Ask()
    {
        var found = new Findings();
        return Machine.Bound(0, found) is { } datapath && OperandBits.Given(datapath, Operands, found) is { } operands
            ? Asked(datapath, operands, found)
            : found.Refused<Verdict>();
    }

    private Answer<Verdict> Asked(Datapath datapath, IReadOnlyList<BigInteger> operands, Findings found)
    {
        if (RowLayout.Of(datapath) is null)
        {
            found.Add(Id.ExplainingTooWide, AskedPart.Widths, 0, ("most", RowLayout.MostBits));
            return found.Refused<Verdict>();
        }
        if (Seen(datapath, operands, found) is not { } seen)
        {
            return found.Refused<Verdict>();
        }
        if (Ways.Of(datapath, Others(datapath)) is not { } ways)
        {
            found.Add(Id.ExplainingTooWide, AskedPart.Widths, 0, ("most", RowLayout.MostBits));
            return found.Refused<Verdict>();
        }
        return found.Given(Explainer.Of(ways, [.. operands.Select(o => (ulong)o)], seen, MostCauses));
    }

    /// <summary>
    /// The machines of the catalogue that may have been meant. Only those are read whose text has the operands' names in it: to read
    /// all takes longer than to explain a table.
    /// </summary>
    internal static IEnumerable<IMachine> Others(Datapath datapath) =>
        from entry in MachineCatalogue.Entries
        where datapath.Operands.All(o => entry.Source.Text.Contains($"operand {o.Name} ", StringComparison.Ordinal))
        select Binding.Machine.Read(entry.Source, MachineCatalogue.Find);

    private Seen? Seen(Datapath datapath, IReadOnlyList<BigInteger> operands, Findings found)
    {
        var seen = new Seen([], [.. datapath.Results.Select(_ => (BigInteger?)null)]);
        if (Got is null && Table is null)
        {
            found.Add(Id.GotMissing, AskedPart.Whole, 0, ("machine", datapath.Machine.Name));
            return null;
        }
        if (Got is not null)
        {
            var report = new Report(null);
            var read = GotReader.Of(datapath, Got, Walk.Of(datapath, operands).Cycles, report);
            found.AddRange(report.InOrder().Select(d => new Finding(d, AskedPart.Got)));
            if (read is null)
            {
                return null;
            }
            seen = read;
        }
        return Table is null ? seen : WithTable(datapath, seen, found);
    }

    private Seen? WithTable(Datapath datapath, Seen seen, Findings found)
    {
        var table = HandTable.Of(datapath, Table!);
        if (table.Unread.Count > 0)
        {
            var cell = table.Unread[0];
            found.Add(
                Id.TableCell,
                AskedPart.Table,
                0,
                ("row", cell.Row),
                ("column", cell.Column),
                ("text", Excerpt.Of(cell.Text)),
                ("count", table.Unread.Count)
            );
            return null;
        }
        if (table.Rows.All(r => r.All(w => w.Written.IsZero)))
        {
            found.Add(
                Id.TableEmpty,
                AskedPart.Table,
                0,
                ("registers", datapath.Registers.Select(r => r.Name).ToList())
            );
            return null;
        }
        var layout = RowLayout.Of(datapath)!;
        return seen with
        {
            Rows = Explaining.Seen.Over([.. table.Rows.Select(r => SeenRow.Of(layout, r))], seen.Rows),
            IsPart = false,
            Assumed = table.Assumed,
        };
    }
}
