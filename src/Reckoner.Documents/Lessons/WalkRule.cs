using Reckoner.Datapaths;
using Reckoner.Reporting;
using Reckoner.Structure;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>What a machine does in each cycle, as its table of states has it: the rule by which a walk is filled in.</summary>
internal static class WalkRule
{
    public static TextWork? Of(Datapath datapath, HouseStyle style, Vocabulary words)
    {
        var signals = StatesDocument.Of(ControlStates.Of(datapath), style, words).Grids.Last();
        var always = words.Say("states.always");
        var isOne = datapath.Steps.Count() == 1;
        var hasMoments = signals.Columns.Count > 3;
        var lines = new List<(string Lead, string Done)>();
        var before = ("", "");
        foreach (var row in signals.Rows)
        {
            var (state, moment) = (isOne ? "" : $"{row.Cells[0]}", hasMoments ? $"{row.Cells[1]}" : "1");
            var lead =
                state != before.Item1 ? state
                : moment != before.Item2 && before.Item2.Length > 0 ? words.Say("question.rule-then")
                : "";
            var when = $"{row.Cells[^2]}";
            var condition = when == always ? "" : words.Say("question.rule-when", ("when", when)) + " ";
            foreach (var done in row.Cells[^1].Lines)
            {
                lines.Add((lead, $"{condition}{done}"));
                lead = "";
            }
            before = (state, moment);
        }
        if (lines.Count == 0)
        {
            return null;
        }
        var wide = lines.Max(l => l.Lead.Length);
        return new TextWork([.. lines.Select(l => $"{l.Lead.PadRight(wide)}  {l.Done}".TrimEnd())]) { IsRule = true };
    }
}
