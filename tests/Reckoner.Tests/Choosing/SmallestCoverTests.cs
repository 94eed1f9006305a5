using System.Numerics;
using Reckoner.Choosing;
using Reckoner.Numbers;
using Xunit;

namespace Reckoner.Tests.Choosing;

/// <summary>The fewest columns against every set of columns there is, on random tables.</summary>
public class SmallestCoverTests
{
    private const int Tables = 400;
    private const long Enough = 1_000_000;

    [Fact]
    public void The_fewest_columns_are_found() =>
        OnRandomTables(
            (rows, columns, fewest) =>
            {
                var cover = SmallestCover.Of(rows, Enough);
                AssertMet(rows, cover.Columns);
                Assert.Equal((fewest, fewest), (cover.Columns.Count, cover.AtLeast));
                Assert.All(cover.Columns, c => Assert.InRange(c, 0, columns - 1));
            }
        );

    /// <summary>Not known is said, nothing wrong is: with too little effort the cover still is one, and the bound holds.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(20)]
    [InlineData(100)]
    public void With_little_effort_every_row_is_met_and_the_bound_is_right(long effort)
    {
        var open = 0;
        OnRandomTables(
            (rows, _, fewest) =>
            {
                var cover = SmallestCover.Of(rows, effort);
                AssertMet(rows, cover.Columns);
                Assert.InRange(cover.AtLeast, 1, fewest);
                Assert.InRange(fewest, 1, cover.Columns.Count);
                open += cover.AtLeast < cover.Columns.Count ? 1 : 0;
            }
        );
        // Else this would be the test above.
        Assert.True(effort > 1 || open > 0);
    }

    [Fact]
    public void No_rows_need_no_columns() => Assert.Equal((0, 0), Sizes(SmallestCover.Of([], Enough)));

    /// <summary>
    /// Greed takes the wide column first and needs three: the textbook's example of why it is not enough.
    /// </summary>
    [Fact]
    public void A_table_that_misleads_greed_is_covered_with_two()
    {
        // Columns: 0 = rows 0 to 2 and 3 to 5, less one each; 1 = the first half; 2 = the second.
        ulong[][] rows =
        [
            [0b010],
            [0b011],
            [0b011],
            [0b100],
            [0b101],
            [0b101],
        ];
        Assert.Equal([1, 2], SmallestCover.Of(rows, Enough).Columns);
    }

    [Fact]
    public void Of_columns_that_do_the_same_the_lowest_is_taken()
    {
        ulong[][] rows =
        [
            [0, 0b110],
            [0b1000, 0b100],
        ];
        Assert.Equal([66], SmallestCover.Of(rows, Enough).Columns);
        Assert.Equal(
            [0, 65],
            SmallestCover
                .Of(
                    [
                        [0b1, 0],
                        [0, 0b110],
                    ],
                    Enough
                )
                .Columns
        );
    }

    private static (int, int) Sizes(SmallestCover cover) => (cover.Columns.Count, cover.AtLeast);

    private static void AssertMet(ulong[][] rows, IReadOnlyList<int> columns) =>
        Assert.All(rows, row => Assert.Contains(columns, c => BitSets.Has(row, c)));

    private static void OnRandomTables(Action<ulong[][], int, int> check)
    {
        var seed = Seeds.Next();
        var random = new Random(seed);
        for (var table = 0; table < Tables; table++)
        {
            var columns = random.Next(1, 13);
            var share = random.NextDouble();
            var rows = Enumerable.Range(0, random.Next(1, 16)).Select(_ => Row(random, columns, share)).ToArray();
            var shown = string.Join(' ', rows.Select(r => Convert.ToString((long)r[0], 2)));
            Seeds.Told(seed, $"{columns} columns, rows {shown}", () => check(rows, columns, Fewest(rows, columns)));
        }
    }

    /// <summary>A row that some column meets.</summary>
    private static ulong[] Row(Random random, int columns, double share)
    {
        var row = 1UL << random.Next(columns);
        for (var column = 0; column < columns; column++)
        {
            row |= random.NextDouble() < share ? 1UL << column : 0;
        }
        return [row];
    }

    /// <summary>The slow, obvious twin: all sets of columns.</summary>
    private static int Fewest(ulong[][] rows, int columns) =>
        Enumerable
            .Range(0, 1 << columns)
            .Where(set => Array.TrueForAll(rows, row => (row[0] & (ulong)set) != 0))
            .Min(set => BitOperations.PopCount((uint)set));
}
