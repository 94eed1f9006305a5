using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Proving;
using Reckoner.Refining;
using Reckoner.Words;

namespace Reckoner.Questions;

/// <summary>What could be saved in a machine, and how is it then described?</summary>
public sealed record RefineQuestion(AskedMachine Machine)
{
    /// <summary>The most steps from the machine asked about.</summary>
    public const int MostSteps = 8;

    /// <summary>The most proposals that are numbered.</summary>
    internal const int MostProposals = 9999;

    /// <summary>As many steps as find what is found at all in most machines.</summary>
    internal const int AllSteps = 4;

    /// <summary>How many steps are taken from the machine: 1 for the next version.</summary>
    public int Steps
    {
        get;
        init
        {
            ArgumentOutOfRangeException.ThrowIfLessThan(value, 1);
            ArgumentOutOfRangeException.ThrowIfGreaterThan(value, MostSteps);
            field = value;
        }
    } = 1;

    /// <summary>Whether only versions count that no other one beats in area and in time at once.</summary>
    public bool IsFrontier { get; init; }

    /// <summary>Whether the laws of each proposal are proved for every width, as far as that succeeds within <see cref="MostOfProof"/>.</summary>
    public bool Proves { get; init; }

    /// <summary>The only proposal that is proved, by its number; null for all.</summary>
    internal int? Taken { get; init; }

    /// <summary>How long the proof of one proposal may take.</summary>
    internal static readonly TimeSpan MostOfProof = TimeSpan.FromSeconds(10);

    /// <summary>How long it may take; what was found by then is the answer, and says that it is not all.</summary>
    public TimeSpan Most { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>The language of titles, notes and new names.</summary>
    public Vocabulary Words { get; init; } = Vocabulary.English;

    public Answer<Refined> Ask(Means means)
    {
        return means.Watched(1, 0, Steps, _ => Answered(means));
    }

    private Answer<Refined> Answered(Means means)
    {
        var found = new Findings();
        if (Machine.Bound(0, found) is not { } datapath || !CanBegin(datapath, means, found))
        {
            return found.Refused<Refined>();
        }
        var begin = means.Clock();
        var refined = Refinery.Of(
            datapath,
            Steps,
            IsFrontier,
            means.Engine,
            Words,
            () => means.Clock() - begin > Most || means.Stop.IsCancellationRequested
        );
        return found.Given(Proves ? Proved(refined, means) : refined);
    }

    /// <summary>
    /// With what is proved of each, those that are not behind the others. One for which the proof comes upon operands that break a
    /// law is no proposal, and of one that there was no time for nothing is said.
    /// </summary>
    private Refined Proved(Refined refined, Means means)
    {
        var proposals = new List<Refining.Proposal>();
        foreach (var proposal in refined.Proposals)
        {
            if (Taken is { } taken && proposal.Number != taken)
            {
                proposals.Add(proposal);
                continue;
            }
            var begin = means.Clock();
            var report = means.Stop.IsCancellationRequested
                ? null
                : ProofReport.Of(
                    proposal.Datapath.Machine,
                    proposal.Datapath,
                    () => means.Clock() - begin > MostOfProof || means.Stop.IsCancellationRequested
                );
            if (report?.IsWrong != true)
            {
                var isKnown = report is not null && (report.IsWhole || !means.Stop.IsCancellationRequested);
                proposals.Add(proposal.Judged(isKnown ? report!.IsWhole : null));
            }
        }
        return refined with
        {
            Proposals = [.. proposals.OrderBy(p => p.IsProved == false)],
            IsComplete = refined.IsComplete && !means.Stop.IsCancellationRequested,
        };
    }

    /// <summary>Operands of at most so many bits together are all run, before versions are looked for.</summary>
    private const int MostBits = 16;

    /// <summary>Whether there is anything to compare versions with: a machine of its own that keeps its laws.</summary>
    internal static bool CanBegin(Datapath datapath, Means means, Findings found)
    {
        var machine = datapath.Machine;
        if (machine.Description.Declarations.OfType<CoreBlock>().FirstOrDefault() is { } core)
        {
            found.Add(Id.RefineCore, AskedPart.Machine, 0, ("machine", machine.Name), ("core", core.Machine.Text));
            return false;
        }
        var run = Exhausted.Of(machine, null, means.Engine, MostBits);
        if (run.Widths.Count == 0)
        {
            found.Add(Id.RefineTooWide, AskedPart.Machine, 0, ("machine", machine.Name), ("bits", MostBits));
            return false;
        }
        if (run.Fails is var (failing, operands))
        {
            AddBroken(found, 0, failing, operands);
            return false;
        }
        return true;
    }

    /// <summary>That a machine does not keep its own laws.</summary>
    internal static void AddBroken(
        Findings found,
        int index,
        Datapath failing,
        IReadOnlyList<System.Numerics.BigInteger> operands
    ) =>
        found.Add(
            Id.RefineBroken,
            AskedPart.Machine,
            index,
            ("machine", failing.Machine.Name),
            ("widths", WidthText.Of(failing.Widths)),
            ("operands", string.Join(", ", failing.Operands.Select(o => $"{o.Name} = {o.Number(operands[o.Index])}"))),
            ("check", AskedWord.Check)
        );
}
