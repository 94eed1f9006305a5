using System.Numerics;
using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Measuring;

namespace Reckoner.Refining;

/// <summary>A version that costs less than the machine asked about and gives the same for every operand that was run.</summary>
public sealed record Proposal
{
    internal Proposal() { }

    /// <summary>From 1, by rank.</summary>
    public required int Number { get; init; }

    /// <summary>The moves that lead to it from the machine asked about.</summary>
    public IReadOnlyList<MoveKind> Moves => [.. Steps.Select(s => s.Move)];

    internal IReadOnlyList<RefiningStep> Steps { get; init; } = [];

    /// <summary>It, at the widths asked about; its machine has the text.</summary>
    public Datapath Datapath => Cost.Datapath;

    public required MachineCost Cost { get; init; }

    public required Hardware Hardware { get; init; }

    /// <summary>Each choice of widths at which every operand was run: its laws hold, and it gives what the first machine gives.</summary>
    public required IReadOnlyList<IReadOnlyList<(string Name, BigInteger Value)>> Widths { get; init; }

    /// <summary>Greater widths at which some operands were run, with equal results.</summary>
    internal IReadOnlyList<IReadOnlyList<(string Name, BigInteger Value)>> WidthsOfSome { get; init; } = [];

    /// <summary>Whether its laws are proved for every operand at every width; null where that was not asked.</summary>
    public bool? IsProved { get; init; }

    /// <summary>With what a proof of its laws came to, which the note in its text says too; null where that is not known.</summary>
    internal Proposal Judged(bool? isProved) =>
        ((isProved == true ? WhenProved() : null) ?? this) with
        {
            IsProved = isProved,
        };

    /// <summary>The same, its note saying that its laws are proved; null where that would not be read without remark.</summary>
    internal Func<Proposal?> WhenProved { get; init; } = () => null;

    /// <summary>Cycles on average where it may stop early, and those of the machine asked about; else null.</summary>
    public (double Now, double Before)? Mean { get; init; }

    /// <summary>The widths at which that is counted, over all operands.</summary>
    internal IReadOnlyList<(string Name, BigInteger Value)> MeanWidths { get; init; } = [];
}

/// <summary>What could be saved in a machine.</summary>
public sealed record Refined
{
    internal Refined() { }

    public required MachineCost Cost { get; init; }

    public required Hardware Hardware { get; init; }

    /// <summary>The machine asked about, at its widths.</summary>
    public Datapath Datapath => Cost.Datapath;

    /// <summary>The best first: by area times time, then by area.</summary>
    public required IReadOnlyList<Proposal> Proposals { get; init; }

    /// <summary>Whether whatever is beaten in area and in time at once was left out, and not only the next step taken.</summary>
    internal bool IsFrontier { get; init; }

    /// <summary>How many descriptions were made; <see cref="Tried"/> of them were run.</summary>
    public required int Made { get; init; }
    public required int Tried { get; init; }

    /// <summary>Whether everything was looked at that so many steps lead to; else it was ended before.</summary>
    public required bool IsComplete { get; init; }

    /// <summary>The same with one proposal alone; null where there is none of that number.</summary>
    public Refined? Only(int number) =>
        Proposals.FirstOrDefault(p => p.Number == number) is { } proposal ? this with { Proposals = [proposal] } : null;
}
