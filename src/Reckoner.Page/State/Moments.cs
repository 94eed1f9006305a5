using Reckoner.Datapaths;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Styles;
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

    /// <summary>The news of a cycle in one clause; where it has none, all that happens in it.</summary>
    public static string Told(Row row, Datapath datapath, Vocabulary words)
    {
        var speech = Speech.Of(datapath, words, HouseStyle.None);
        var news = Reasons.Of(row, speech);
        return string.Join("; ", news.Count > 0 ? news : Reasons.Of(row, speech with { Form = ReasonForm.Full }));
    }
}
