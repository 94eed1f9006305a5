using Reckoner.Datapaths;

namespace Reckoner.Explaining;

/// <summary>What is known of why something came out as it did.</summary>
public enum VerdictKind
{
    /// <summary>It is right.</summary>
    Right,

    /// <summary>It is right, worked another way than the machine does.</summary>
    OtherWay,

    /// <summary>Causes give just this, and it would take far more to say it without them.</summary>
    Surely,

    /// <summary>Likewise, by less.</summary>
    Probably,

    /// <summary>Causes give just this; too little was seen to say how likely they are.</summary>
    Perhaps,

    /// <summary>Rows are wrong, and to say which says as much as any cause would.</summary>
    Described,

    /// <summary>Nothing that was tried gives it.</summary>
    Unexplained,
}

/// <summary>Why somebody got what they got.</summary>
/// <param name="Explanations">
/// Of the fewest causes, the likeliest first, of those that are the same in other words one; empty where there are none.
/// </param>
/// <param name="MostCauses">So many causes together were tried.</param>
public sealed record Verdict(VerdictKind Kind, IReadOnlyList<Explanation> Explanations, int MostCauses)
{
    internal Verdict(
        Ways ways,
        ulong[] operands,
        Seen seen,
        VerdictKind kind,
        IReadOnlyList<Explanation> found,
        int most
    )
        : this(kind, found, most)
    {
        Ways = ways;
        Operands = operands;
        Seen = seen;
    }

    /// <summary>The machine that was asked about.</summary>
    public Datapath Datapath => Ways.Datapath;

    /// <summary>The rows, by their number, that do not follow from the row above as it was written; the load is 0.</summary>
    public IReadOnlyList<int> WrongRows =>
        Rows is { } rows ? [.. rows.Rows.Where(r => r.Standing == Classroom.RowStanding.Wrong).Select(r => r.Row)] : [];

    internal Ways Ways { get; } = null!;

    /// <summary>Their bits.</summary>
    internal ulong[] Operands { get; } = [];

    internal Seen Seen { get; } = null!;

    /// <summary>The table row by row; null where no whole table is known.</summary>
    internal FollowThrough? Rows { get; init; }

    /// <summary>Operands for which the first two explanations give different results; null where there are none.</summary>
    internal ulong[]? TellingApart { get; init; }

    /// <summary>
    /// How many causes are counted: where they are named the fewest that give it; else the rows that are wrong, if those are fewer,
    /// and one at least.
    /// </summary>
    public int Causes =>
        Kind switch
        {
            VerdictKind.Right or VerdictKind.OtherWay => 0,
            VerdictKind.Surely or VerdictKind.Probably or VerdictKind.Perhaps => Explanations[0].Causes,
            VerdictKind.Described => Math.Clamp(Rows?.Wrong ?? 1, 1, Explanations[0].Causes),
            VerdictKind.Unexplained => Math.Max(1, Rows?.Wrong ?? 1),
        };
}
