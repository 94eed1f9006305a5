using Reckoner.Datapaths;
using Reckoner.Explaining;
using Reckoner.Marking;

namespace Reckoner.Documents.Marking;

/// <summary>How what was written into a place stands.</summary>
internal enum PlaceStanding
{
    Right,
    Wrong,
    Empty,

    /// <summary>It cannot be read, so a person looks at it.</summary>
    Unread,
}

/// <param name="Typed">As it was written.</param>
/// <param name="Should">What would be right; an example where more would.</param>
internal sealed record MarkedPlace(AnsweredField Field, string Typed, PlaceStanding Standing, string Should);

/// <summary>A table that is no walk, cell by cell.</summary>
/// <param name="Wrong">For each row the columns in which what was written is not right, or nothing was.</param>
internal sealed record MarkedCells(
    AnsweredTable Table,
    IReadOnlyList<IReadOnlyList<string>> Typed,
    IReadOnlyList<IReadOnlySet<int>> Wrong
);

/// <summary>A table of a walk, judged row by row.</summary>
/// <param name="Operands">Their bits.</param>
internal sealed record MarkedWalk(Datapath Datapath, ulong[] Operands, TableMark Mark);

/// <summary>Why a question waits for a person.</summary>
internal enum OpenReason
{
    /// <summary>It was worked on paper.</summary>
    OnPaper,

    /// <summary>There are cells that cannot be read.</summary>
    Unread,

    /// <summary>Its heading, a head of its table or what stands before its places is not in the file any more as it was handed out.</summary>
    NotFound,

    /// <summary>Other answers may be right than the expected one, and whether this is one cannot be found out.</summary>
    NotJudged,
}

/// <summary>A question of a sheet, marked, or with the reason why it waits for a person.</summary>
/// <param name="Credit">Null where it waits.</param>
internal sealed record MarkedQuestion(AskedForm Form, Credit? Credit)
{
    public OpenReason? Open { get; init; }

    public MarkedWalk? Walk { get; init; }

    public IReadOnlyList<MarkedCells> Cells { get; init; } = [];

    public IReadOnlyList<MarkedPlace> Places { get; init; } = [];

    public IReadOnlyList<UnreadCell> Unread { get; init; } = [];

    /// <summary>What was taken for granted when it was read.</summary>
    public IReadOnlyList<TableAssumption> Assumed { get; init; } = [];

    /// <summary>What it is worth: what was said, or as much as there is to fill in.</summary>
    public decimal Most => Form.Marks ?? Credit?.Most ?? 0;

    /// <summary>Null where it waits for a person.</summary>
    public decimal? Marks => Credit?.Of(Most);
}
