using System.Globalization;
using System.Numerics;
using Reckoner.Classroom;
using Reckoner.Datapaths;
using Reckoner.Explaining;
using Reckoner.Marking;
using Reckoner.Questions;
using Reckoner.Running;

namespace Reckoner.Documents.Marking;

/// <summary>Judges a walk that was filled in: its table row by row, with the results below it.</summary>
internal sealed class WalkJudge(MarkingKit kit, AnsweredQuestion answer, FilledSheet filled)
{
    private readonly List<UnreadCell> unread = [];
    private readonly HashSet<TableAssumption> assumed = [];

    /// <summary>Null where the table is none of a walk that is known.</summary>
    public MarkedQuestion? Judged(MarkScheme scheme)
    {
        if (
            kit.Ways is not { } ways
            || answer.Tables is not [var table]
            || OperandsOf(ways.Datapath) is not { } operands
            || Walk.Of(ways.Datapath, operands) is var walk && WalkColumns.Of(table, walk) is not { } columns
        )
        {
            return null;
        }
        var readings = Results(ways.Datapath);
        var rows = Rows(ways, table, walk, columns);
        var form = new TableForm(
            [.. columns.Rows.Select(r => OpenOf(table.Rows[r], columns))],
            answer.Fields.Any(f => ways.Datapath.Results.Any(r => r.Name == f.Name))
        );
        if (unread.Count > 0)
        {
            return new MarkedQuestion(kit.Form, null)
            {
                Open = OpenReason.Unread,
                Unread = unread,
                Assumed = [.. assumed.Order()],
            };
        }
        ulong[] bits = [.. operands.Select(o => (ulong)o)];
        // "101" is a hundred and one or five: what is right in one of the ways to read it is right.
        var ((mark, results), read) = FieldJudge
            .Combinations(readings)
            .Select(r => (Mark: TableMark.Of(ways, bits, new Seen(rows, r), form, scheme, WhyQuestion.MostCauses), r))
            .Select((m, i) => (m, i))
            .MinBy(m => (m.m.Mark.AreResultsWrong, m.m.Mark.AreResultsUnsupported, m.i));
        if (read > 0)
        {
            assumed.Add(TableAssumption.ZerosInFront);
        }
        return new MarkedQuestion(kit.Form, mark.Credit)
        {
            Walk = new MarkedWalk(ways.Datapath, bits, mark),
            Places = [.. answer.Fields.Select(f => Place(f, ways.Datapath, results, mark))],
            Assumed = [.. assumed.Order()],
        };
    }

    private List<BigInteger>? OperandsOf(Datapath datapath)
    {
        var bits = datapath
            .Operands.Select(o =>
                answer
                    .Operands.Where(a => a.Name == o.Name)
                    .Select(a => (BigInteger?)Numbers.Bits.Wrap(a.Number, o.Width))
                    .FirstOrDefault()
            )
            .ToList();
        return bits.Contains(null) ? null : [.. bits.Select(b => b!.Value)];
    }

    private static List<int> OpenOf(AnsweredRow row, WalkColumns columns) =>
        [
            .. Enumerable
                .Range(0, columns.Columns.Count)
                .Where(r => columns.Columns[r] >= 0 && row.Open.ContainsKey(columns.Columns[r])),
        ];

    /// <summary>What was written, and what was printed as it stands there; without rows at the end into which nothing was written.</summary>
    private List<SeenRow> Rows(Ways ways, AnsweredTable table, Walk walk, WalkColumns columns)
    {
        var (rows, last) = (new List<SeenRow>(), 0);
        for (var i = 0; i < columns.Rows.Count; i++)
        {
            var row = table.Rows[columns.Rows[i]];
            var isWritten = false;
            List<HandWord> words =
            [
                .. walk.Datapath.Registers.Select(register =>
                {
                    var column = columns.Columns[register.Index];
                    if (column < 0 || !row.Open.TryGetValue(column, out var place))
                    {
                        return HandWord.Whole(walk.Rows[i].Registers[register.Index], register.Width);
                    }
                    var word = Read(filled[place], register, columns.Bases[register.Index], i);
                    isWritten |= !word.Written.IsZero;
                    return word;
                }),
            ];
            rows.Add(SeenRow.Of(ways.Layout, words));
            last = isWritten || !row.Open.Keys.Any(columns.Columns.Contains) ? i : last;
        }
        rows.RemoveRange(last + 1, rows.Count - last - 1);
        return last + 1 == columns.Rows.Count ? [.. rows, .. Extra(ways, table, walk, columns)] : rows;
    }

    /// <summary>Rows that somebody added below the last.</summary>
    private IEnumerable<SeenRow> Extra(Ways ways, AnsweredTable table, Walk walk, WalkColumns columns)
    {
        var question = answer.Number.ToString(CultureInfo.InvariantCulture);
        for (var i = 0; i < walk.Cycles + 8; i++)
        {
            List<HandWord> words =
            [
                .. walk.Datapath.Registers.Select(register =>
                {
                    var column = columns.Columns[register.Index];
                    var text = column < 0 ? "" : filled[FilledSheet.Extra(question, table, i, column)];
                    return Read(text, register, column < 0 ? 2 : columns.Bases[register.Index], columns.Rows.Count + i);
                }),
            ];
            if (words.TrueForAll(w => w.Written.IsZero))
            {
                yield break;
            }
            yield return SeenRow.Of(ways.Layout, words);
        }
    }

    private HandWord Read(string cell, Register register, int digits, int row)
    {
        if (WalkColumns.Word(cell, register.Width, digits, assumed) is { } word)
        {
            return word;
        }
        unread.Add(new UnreadCell(row, register.Name, cell));
        return HandWord.Blank;
    }

    /// <summary>For each result what may have been meant; null where nothing was written.</summary>
    private List<IReadOnlyList<BigInteger?>> Results(Datapath datapath)
    {
        var results = new List<IReadOnlyList<BigInteger?>>();
        foreach (var result in datapath.Results)
        {
            var field = answer.Fields.FirstOrDefault(f => f.Name == result.Name);
            var typed = field is null ? "" : filled[$"{answer.Number}.{field.Name}"];
            List<BigInteger?> readings = [.. FieldJudge.Readings(typed, result.Width).Select(b => (BigInteger?)b)];
            if (typed.Length > 0 && readings.Count == 0)
            {
                unread.Add(new UnreadCell(0, result.Name, typed));
            }
            results.Add(readings.Count == 0 ? [null] : readings);
        }
        return results;
    }

    /// <summary>Results that follow from the last row are not wrong where they stand.</summary>
    private MarkedPlace Place(
        AnsweredField field,
        Datapath datapath,
        IReadOnlyList<BigInteger?> results,
        TableMark mark
    )
    {
        var typed = filled[$"{answer.Number}.{field.Name}"];
        var at = datapath.Results.ToList().FindIndex(r => r.Name == field.Name);
        var standing =
            typed.Length == 0 ? PlaceStanding.Empty
            : !mark.AreResultsWrong || at < 0 ? PlaceStanding.Right
            : FieldJudge.BitsOf(field.Expected, datapath.Results[at].Width) == results[at] ? PlaceStanding.Right
            : PlaceStanding.Wrong;
        return new MarkedPlace(field, typed, standing, field.Expected);
    }
}
