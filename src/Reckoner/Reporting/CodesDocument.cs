using System.Globalization;
using Reckoner.Classroom;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>What the codes say that a class handed in for a task: who did what, and which codes do not fit.</summary>
internal static class CodesDocument
{
    public static Document Of(AssignedSums task, IReadOnlyList<string> codes, Vocabulary words)
    {
        var read = codes.Select(c => (Code: c, Read: TaskCode.Read(task, c))).ToList();
        var misfits = read.Where(r => r.Read.Sums is null).Select(r => r.Code).ToList();
        var fitting = read.Select(r => r.Read).Where(r => r.Sums is not null).ToList();
        var doubles = fitting.GroupBy(r => r.Number).Where(g => g.Count() > 1).Select(g => g.Key).ToList();
        List<Block> blocks = [Table(task, read, words)];
        Add("codes.misfits", misfits);
        Add("codes.doubles", doubles);
        blocks.Add(new Paragraph(Content.Text(words.Say("codes.no-proof")), ParagraphRole.Note));
        return new Document("codes", words.Language, words.Say("codes.title"), Names.Of(task.Datapath, words), blocks);

        void Add(string key, List<string> which)
        {
            if (which.Count > 0)
            {
                blocks.Add(
                    new Paragraph(
                        Content.Text(words.Say(key, ("count", which.Count), ("which", string.Join(", ", which))))
                    )
                );
            }
        }
    }

    private static Grid Table(AssignedSums task, IReadOnlyList<(string Code, ReadCode Read)> read, Vocabulary words) =>
        new(
            "codes",
            words.Say("codes.title"),
            [
                new GridColumn(words.Say("codes.number"), ColumnRole.Label, IsGroup: true),
                .. task.Datapath.Operands.Select(o => new GridColumn(o.In(words.Language), ColumnRole.Numbers)),
                new GridColumn(words.Say("codes.rows"), ColumnRole.Numbers),
                new GridColumn(words.Say("codes.right"), ColumnRole.Numbers),
                new GridColumn(words.Say("codes.decisions"), ColumnRole.Numbers),
                new GridColumn(words.Say("codes.hints"), ColumnRole.Numbers),
                new GridColumn(words.Say("codes.most"), ColumnRole.Short),
            ],
            [.. read.SelectMany(r => r.Read.Sums is null ? [Misfit(task, r.Code, words)] : Rows(task, r.Read, words))]
        );

    private static GridRow Misfit(AssignedSums task, string code, Vocabulary words) =>
        new([
            Cell.Of(code),
            .. Enumerable.Repeat(Cell.Of("-"), task.Datapath.Operands.Count + 4),
            Cell.Of(words.Say("codes.fits-not")),
        ]);

    private static IEnumerable<GridRow> Rows(AssignedSums task, ReadCode read, Vocabulary words)
    {
        var operands = task.For(read.Number);
        for (var i = 0; i < read.Sums!.Count; i++)
        {
            var (sum, walk) = (read.Sums[i], operands is null ? null : Walk.Of(task.Datapath, operands[i]));
            yield return new GridRow([
                Cell.Of(read.Number),
                .. task.Datapath.Operands.Select(o =>
                    Cell.Of(walk is null ? "" : Bits.Text(o.Number(walk.Operands[o.Index])))
                ),
                Number(walk?.Cycles ?? 0),
                Number(Math.Max(0, (walk?.Cycles ?? 0) - sum.Wrong)),
                Number(sum.Missed),
                Number(sum.Hints),
                Cell.Of(sum.Most is { } most ? words.Say(Cause(most)) : ""),
            ]);
        }
    }

    private static string Cause(CauseKind cause) =>
        cause switch
        {
            CauseKind.Decision => "codes.cause-decision",
            CauseKind.Slip => "codes.cause-slip",
            CauseKind.NotWritten => "codes.cause-not-written",
            CauseKind.Moved => "codes.cause-moved",
            CauseKind.OneBit => "codes.cause-one-bit",
            CauseKind.Bits => "codes.cause-bits",
        };

    private static Cell Number(int number) => Cell.Of(number.ToString(CultureInfo.InvariantCulture));
}
