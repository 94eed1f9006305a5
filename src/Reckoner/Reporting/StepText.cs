using Reckoner.Datapaths;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>A step as tables of states call it.</summary>
internal static class StepText
{
    /// <summary>The step's own name; of a round without one "round", with its number among those without a name if there are several.</summary>
    public static string Of(Step step, Datapath datapath, Vocabulary words)
    {
        if (step.In(words.Language) is { } name)
        {
            return name;
        }
        var segment = datapath.Schedule.First(s => s.Steps.Contains(step));
        var key = segment.IsLoop ? "walk.round" : "walk.cycle";
        var nameless = datapath.Steps.Where(s => s.Name is null).ToList();
        return nameless.Count == 1 ? words.Say(key) : $"{words.Say(key)} {nameless.IndexOf(step) + 1}";
    }
}
