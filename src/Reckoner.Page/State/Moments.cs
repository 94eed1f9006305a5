using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Words;

namespace Reckoner.Page.State;

/// <summary>Moments in words.</summary>
public static class Moments
{
    /// <summary>"cycle 3 of 6", "load" or "results".</summary>
    public static string Spoken(Desk desk, Vocabulary words) =>
        desk.Walk is not { } walk || desk.Moment == 0 ? words.Say("walk.load")
        : desk.Moment > walk.Cycles ? words.Say("page.results")
        : words.Say("page.cycle", ("cycle", desk.Moment), ("cycles", walk.Cycles));

    /// <summary>What happens in a cycle, moment after moment.</summary>
    public static string Told(Row row, Vocabulary words)
    {
        var said = row.Moments.Select(m => Sentences.Of(m.Happenings, words)).Where(s => s.Length > 0).ToList();
        return said.Count == 0
            ? words.Say("walk.nothing")
            : string.Join(
                "; ",
                said.Select((sentence, i) => i == 0 ? sentence : words.Say("walk.then", ("sentence", sentence)))
            );
    }
}
