using System.Numerics;
using Reckoner.Binding;
using Reckoner.Checking;
using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Measuring;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Words;

namespace Reckoner.Refining;

/// <summary>
/// From a version to a proposal: it is written as a description of its own, read again, and run as that with every operand against
/// its laws and the machine it follows, and with some at greater widths. What then fails for any operand, or is not read without
/// remark, is no proposal.
/// </summary>
/// <param name="first">The machine it begins from, at the widths at which costs are compared.</param>
internal sealed class Proposing(Datapath first, IPlaneEngine engine, Vocabulary words)
{
    private readonly IReadOnlyDictionary<string, BigInteger> widths = first.Widths.ToDictionary(
        w => w.Name,
        w => w.Value
    );
    private readonly Lazy<Beyond> beyond = new(() => Beyond.Of(first));

    /// <summary>Null where it is none.</summary>
    public Proposal? Of(Version version, int number)
    {
        if (
            Written(version, number, []) is not { } bound
            || !beyond.Value.IsSame(bound.Machine)
            || Exhausted.Of(bound.Machine, first.Machine, engine) is not { Fails: null, Widths: { Count: > 0 } run }
        )
        {
            return null;
        }
        var all = run.Select(WidthText.Of).ToHashSet();
        var some = beyond.Value.Widths.Where(w => !all.Contains(WidthText.Of(w))).ToList();
        return Noted(some.Count > 0 ? ReasonWords.Rest.Open : ReasonWords.Rest.None);

        Proposal? Noted(ReasonWords.Rest rest) =>
            Written(version, number, [w => ReasonWords.Run(first.Machine, run, rest, w)]) is { } noted
                ? new Proposal
                {
                    Number = number,
                    Steps = version.Steps,
                    Cost = Costs.Of(noted, AdderKind.Ripple),
                    Hardware = Hardware.Of(noted),
                    Widths = run,
                    WidthsOfSome = some,
                    Mean = version.Mean is { } mean ? (mean.Now, mean.First) : null,
                    MeanWidths = version.Mean?.Widths ?? [],
                    WhenProved = () => Noted(ReasonWords.Rest.Proved),
                }
                : null;
    }

    /// <summary>The versions on the way to one, the first left out; null where one of them is none.</summary>
    public IReadOnlyList<Proposal>? Steps(Version version)
    {
        var steps = new List<Proposal>();
        for (var on = version; on.Before is not null; on = on.Before)
        {
            if (Of(on, on.Depth) is not { } proposal)
            {
                return null;
            }
            steps.Insert(0, proposal);
        }
        return steps;
    }

    /// <summary>A version as a text that is read again; null where anything is remarked about it.</summary>
    /// <param name="notes">Besides its reasons.</param>
    private Datapath? Written(Version version, int number, IReadOnlyList<Func<Vocabulary, string>> notes)
    {
        var described = ReasonWords.Described(version, first.Machine, number, notes, words);
        var text = Printer.Text(described);
        var read = Machine.Read(
            new Source($"{described.Name}.machine", text),
            name => name == first.Machine.Name ? new Source($"{name}.machine", Alone(first.Machine)) : null
        );
        var (datapath, found) = read.At(widths);
        return found.Any(d => d.Severity != Severity.Hint) ? null : datapath;
    }

    /// <summary>A machine's text without the one that it follows itself.</summary>
    private static string Alone(IMachine machine) =>
        Printer.Text(
            machine.Description with
            {
                Declarations = [.. machine.Description.Declarations.Where(d => d is not FollowsLine)],
            }
        );
}
