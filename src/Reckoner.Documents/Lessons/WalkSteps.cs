using System.Globalization;
using Reckoner.Datapaths;
using Reckoner.Reporting;
using Reckoner.Running;
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

    /// <summary>A sentence for every moment in which something is said.</summary>
    public static string Reasons(Row row, Vocabulary words)
    {
        var said = row
            .Moments.Select(m => Reporting.Sentences.Of(m.Happenings, words))
            .Where(s => s.Length > 0)
            .ToList();
        if (said.Count == 0)
        {
            return row.Cycle == 0 ? "" : words.Say("walk.nothing");
        }
        return string.Join(
            words.Say("lesson.between-moments"),
            said.Select((s, i) => i == 0 ? s : words.Say("walk.then", ("sentence", s)))
        );
    }

    /// <summary>"cycle 3: ..." for each cycle in which something is said.</summary>
    public static IEnumerable<(int Cycle, string Sentence)> Sentences(Walk walk, Vocabulary words, int from, int to) =>
        walk
            .Rows.Where(r => r.Cycle >= from && r.Cycle <= to && r.Cycle > 0)
            .Select(r => (r.Cycle, words.Say("lesson.in-cycle", ("cycle", r.Cycle), ("sentence", Reasons(r, words)))));

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
