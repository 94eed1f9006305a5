using Reckoner.Datapaths;
using Reckoner.Slips;

namespace Reckoner.Questions;

/// <summary>For which operands exactly does a wrong machine break its laws?</summary>
internal sealed record FailureQuestion(AskedMachine Machine)
{
    /// <summary>A machine that is thought to keep the laws of this one, to say it in its words; null where none is known.</summary>
    public IMachine? Model { get; init; }

    /// <summary>The answer has no condition where no short one fits, and none at all where there are too many operands to try.</summary>
    public Answer<FailureCondition> Ask(Means means)
    {
        var found = new Findings();
        if (Machine.Bound(0, found) is not { } datapath)
        {
            return found.Refused<FailureCondition>();
        }
        var own = Model?.Widths.Select(w => w.Name.Text).ToHashSet() ?? [];
        var model = Model?.At(datapath.Widths.Where(w => own.Contains(w.Name)).ToDictionary(w => w.Name, w => w.Value));
        return FailureCondition.Of(datapath, model?.Datapath, means.Engine) is { } condition
            ? found.Given(condition)
            : found.Refused<FailureCondition>();
    }
}
