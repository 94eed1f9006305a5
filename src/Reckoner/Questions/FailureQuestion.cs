using Reckoner.Datapaths;
using Reckoner.Slips;

namespace Reckoner.Questions;

/// <summary>For which operands exactly does a wrong machine break its laws?</summary>
internal sealed record FailureQuestion(AskedMachine Machine)
{
    /// <summary>A machine that is thought to keep the laws of this one, to say it in its words; null where none is known.</summary>
    public IMachine? Model { get; init; }

    public Answer<FailureSearch> Ask(Means means)
    {
        var found = new Findings();
        if (Machine.Bound(0, found) is not { } datapath)
        {
            return found.Refused<FailureSearch>();
        }
        var own = Model?.Widths.Select(w => w.Name.Text).ToHashSet() ?? [];
        var model = Model?.At(datapath.Widths.Where(w => own.Contains(w.Name)).ToDictionary(w => w.Name, w => w.Value));
        return found.Given(new FailureSearch(datapath, FailureCondition.Of(datapath, model?.Datapath, means.Engine)));
    }
}

/// <summary>What came of the search for the operands that break a law.</summary>
/// <param name="Found">Null where nothing was searched: there are too many operands to try, or the laws cannot become gates.</param>
internal sealed record FailureSearch(Datapath Datapath, FailureCondition? Found);
