using System.Globalization;
using Reckoner.Datapaths;
using Reckoner.Drawing;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>The rows of a walk as a lesson shows them: a label, the registers' digits, the reasons in words.</summary>
internal static class WalkSteps
{
    /// <summary>"load", or the cycle's number.</summary>
    public static string Label(Row row, Vocabulary words) =>
        row.Cycle == 0 ? words.Say("walk.load") : row.Cycle.ToString(CultureInfo.InvariantCulture);

    public static IReadOnlyList<string> Digits(Row row, Datapath datapath) =>
        [.. datapath.Registers.Select(r => Columns.Text(r, row.Registers[r.Index]))];

    /// <summary>What is said of a row, moment after moment.</summary>
    public static string Reasons(Row row, Walk walk, HouseStyle style, Vocabulary words) =>
        string.Join(
            words.Say("lesson.between-moments"),
            Reporting.Reasons.Of(row, Speech.Of(walk.Datapath, words, style))
        );

    /// <summary>"cycle 3: ..." for each cycle in which something is said.</summary>
    public static IEnumerable<(int Cycle, string Sentence)> Sentences(Figure figure) =>
        figure
            .Walk.Rows.Where(r => r.Cycle >= figure.From && r.Cycle <= figure.To && r.Cycle > 0)
            .Select(r => (r.Cycle, Reasons(r, figure.Walk, figure.Style, figure.Words)))
            .Where(r => r.Item2.Length > 0)
            .Select(r => (r.Cycle, figure.Words.Say("lesson.in-cycle", ("cycle", r.Cycle), ("sentence", r.Item2))));

    public static string Operands(Walk walk, Vocabulary words) =>
        string.Join(
            ", ",
            walk.Datapath.Operands.Select(o => $"{o.In(words.Language)} = {o.Number(walk.Operands[o.Index])}")
        );

    public static string Title(Datapath datapath, Vocabulary words) =>
        datapath.Machine.Title?.In(words.Language) ?? datapath.Machine.Name;

    /// <summary>The machine, its widths and the operands, as the caption of a table.</summary>
    public static string Caption(Walk walk, Vocabulary words) =>
        words.Say(
            "lesson.caption",
            ("machine", Title(walk.Datapath, words)),
            ("widths", Names.Widths(walk.Datapath, words)),
            ("operands", Operands(walk, words))
        );
}
