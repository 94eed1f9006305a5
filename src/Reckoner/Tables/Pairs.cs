using Reckoner.Words;

namespace Reckoner.Tables;

internal enum PairsForm
{
    /// <summary>Short names: what is said of them stands beside them.</summary>
    Beside,

    /// <summary>Names as long as a line can be: what is said of them stands under them.</summary>
    Under,
}

/// <summary>Names and what is said of each.</summary>
internal sealed record Pairs(IReadOnlyList<Pair> Rows, PairsForm Form = PairsForm.Beside) : Block
{
    /// <summary>What they are, where nothing above them says it.</summary>
    public Content? Caption { get; init; }

    public override T Match<T>(
        Func<Paragraph, T> paragraph,
        Func<Pairs, T> pairs,
        Func<Items, T> items,
        Func<Grid, T> grid
    ) => pairs(this);
}

/// <summary>A name and what is said of it, in one sentence or several.</summary>
internal sealed record Pair(Content Name, IReadOnlyList<Content> Said)
{
    public Pair(Content name, Content said)
        : this(name, [said]) { }

    /// <summary>Whether it is a part of what the pair above is about.</summary>
    public bool IsPart { get; init; }

    /// <summary>What is said, in one line: what ends in no full stop is parted from the next by a semicolon.</summary>
    public Content SaidTogether =>
        Said.Aggregate(
            Content.Empty,
            (before, next) =>
                before.IsEmpty ? next
                : before.ToString()[^1] is '.' or ':' ? before + Content.Text(" ") + next
                : before + Content.Text("; ") + next
        );
}
