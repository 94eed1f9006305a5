using System.Numerics;
using Reckoner.Classroom;

namespace Reckoner.Explaining;

/// <summary>A row as it was written.</summary>
/// <param name="Bits">0 where nothing was written.</param>
/// <param name="Known">A 1 for every cell that holds something.</param>
internal readonly record struct SeenRow(UInt128 Bits, UInt128 Known)
{
    public bool Agrees(UInt128 row) => ((row ^ Bits) & Known) == UInt128.Zero;

    /// <summary>A row as it was worked out, with what was written over it.</summary>
    public UInt128 Over(UInt128 row) => (row & ~Known) | (Bits & Known);

    /// <summary>What was written into some of its bits alone.</summary>
    public SeenRow Within(UInt128 mask) => new(Bits & mask, Known & mask);

    public static SeenRow Of(RowLayout layout, IReadOnlyList<HandWord> words) =>
        new(layout.Row([.. words.Select(w => w.Bits & w.Written)]), layout.Row([.. words.Select(w => w.Written)]));
}

/// <summary>What somebody got: a table, some cells of one, results, or both.</summary>
/// <param name="Rows">The load, then a row for each cycle; empty where only results are known.</param>
/// <param name="Results">The bits of each result by its index, null where it was not said.</param>
internal sealed record Seen(IReadOnlyList<SeenRow> Rows, IReadOnlyList<BigInteger?> Results)
{
    /// <summary>Whether nothing is said of how many rows there are: only some were told.</summary>
    public bool IsPart { get; init; }

    /// <summary>What was taken for granted when the table was read.</summary>
    public IReadOnlyList<TableAssumption> Assumed { get; init; } = [];

    /// <summary>With what was told besides, cell by cell: it stands over what the table has there.</summary>
    public static IReadOnlyList<SeenRow> Over(IReadOnlyList<SeenRow> table, IReadOnlyList<SeenRow> told) =>
        [
            .. Enumerable
                .Range(0, Math.Max(table.Count, told.Count))
                .Select(i => (Table: table.ElementAtOrDefault(i), Told: told.ElementAtOrDefault(i)))
                .Select(r => new SeenRow(r.Told.Over(r.Table.Bits), r.Table.Known | r.Told.Known)),
        ];

    public bool Agrees(IReadOnlyList<ulong> results)
    {
        for (var i = 0; i < Results.Count; i++)
        {
            if (Results[i] is { } result && result != results[i])
            {
                return false;
            }
        }
        return true;
    }
}
