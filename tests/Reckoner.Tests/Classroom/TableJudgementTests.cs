using System.Numerics;
using Reckoner.Classroom;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Tests.Classroom;

/// <summary>Tables made by hand, over the catalogue: what is right, what is wrong, and what follows from what was wrong.</summary>
public class TableJudgementTests
{
    public static TheoryData<string> Catalogue => [.. Machines.Catalogue];

    private static Datapath At(string name)
    {
        var machine = Machines.Named(name);
        return Machines.Bound(machine, Machines.Widths(machine, 5).Last());
    }

    private static CycleAddress At(Row row) => new(row.Repeat, row.Round, row.Step!.Number);

    private static List<IReadOnlyList<HandWord>> Copied(Walk walk) =>
        [.. walk.Rows.Select(r => Copied(walk.Datapath, r.Registers))];

    private static IReadOnlyList<HandWord> Copied(Datapath datapath, IReadOnlyList<BigInteger> registers) =>
        [.. datapath.Registers.Select(r => HandWord.Whole(registers[r.Index], r.Width))];

    private static IEnumerable<Walk> Walks(Datapath datapath, int count) =>
        SampleOperands.Of(datapath, new Random(5)).Take(count).Select(o => Walk.Of(datapath, o));

    [Theory]
    [MemberData(nameof(Catalogue))]
    public void A_right_table_is_right_in_every_row(string name)
    {
        var datapath = At(name);
        foreach (var walk in Walks(datapath, 3))
        {
            var judged = TableJudgement.Of(datapath, walk.Operands, Copied(walk));
            Assert.All(judged.Rows, r => Assert.Equal(RowStanding.Right, r.Standing));
            Assert.Equal((walk.Rows.Count, 0, 0), (judged.Rows.Count, judged.TooMany, judged.TooFew));
            Assert.Equal(walk.Results, judged.Results);
        }
    }

    [Theory]
    [MemberData(nameof(Catalogue))]
    public void Every_single_wrong_bit_is_found_and_no_other(string name)
    {
        var datapath = At(name);
        var walk = Walks(datapath, 1).First();
        foreach (var row in walk.Rows.Skip(1))
        {
            var put = PutRow.Of(datapath, row.Before, At(row));
            foreach (var register in put.Asked)
            {
                for (var bit = 0; bit < register.Width; bit++)
                {
                    var words = Copied(datapath, row.Registers).ToArray();
                    words[register.Index] = words[register.Index].With(bit, words[register.Index][bit] != true);
                    var judged = put.Judge(words);
                    var wrong = Assert.Single(judged.Words, w => !w.Wrong.IsZero);
                    Assert.Equal((register, BigInteger.One << bit), (wrong.Register, wrong.Wrong));
                }
            }
        }
    }

    /// <summary>One bit is wrong in one row, and whoever wrote it goes on without any further mistake.</summary>
    [Theory]
    [MemberData(nameof(Catalogue))]
    public void What_follows_rightly_from_a_wrong_row_is_not_wrong_again(string name)
    {
        var seed = Seeds.Next();
        var random = new Random(seed);
        var datapath = At(name);
        foreach (var walk in Walks(datapath, 3).Where(w => w.Cycles > 0))
        {
            var at = random.Next(1, walk.Rows.Count);
            var (table, isSpoiled) = Spoiled(walk, at, random);
            if (!isSpoiled)
            {
                continue;
            }
            var judged = TableJudgement.Of(datapath, walk.Operands, table);
            Seeds.Told(
                seed,
                $"{name}, row {at}",
                () =>
                {
                    Assert.Equal(RowStanding.Wrong, judged.Rows[at].Standing);
                    Assert.DoesNotContain(
                        judged.Rows.Where((_, i) => i != at),
                        r => r.Standing is RowStanding.Wrong or RowStanding.Unfinished
                    );
                    Assert.Equal((table.Count, 0, 0), (judged.Rows.Count, judged.TooMany, judged.TooFew));
                    var asWalked = judged.Rows.Skip(at).Skip(1).Zip(walk.Rows.Skip(at + 1));
                    Assert.All(
                        asWalked,
                        p =>
                            Assert.Equal(
                                p.First.Judgement!.Own.SequenceEqual(p.Second.Registers),
                                p.First.Standing == RowStanding.Right
                            )
                    );
                }
            );
        }
    }

    /// <summary>The table of somebody who writes one bit of a row wrongly and everything after it as it follows from that.</summary>
    private static (List<IReadOnlyList<HandWord>> Table, bool IsSpoiled) Spoiled(Walk walk, int at, Random random)
    {
        var datapath = walk.Datapath;
        var table = Copied(walk).Take(at).ToList();
        var own = walk.Rows[at].Registers.ToArray();
        var step = walk.Rows[at].Step!;
        var written = datapath
            .Registers.Where(r =>
                step.Moments.SelectMany(m => m).SelectMany(a => a.All).Any(a => a.Writes.Any(w => w.Register == r))
            )
            .ToList();
        if (written.Count == 0)
        {
            return (table, false);
        }
        var register = written[random.Next(written.Count)];
        own[register.Index] ^= BigInteger.One << random.Next(register.Width);
        table.Add(Copied(datapath, own));
        Segment? left = null;
        foreach (var cycle in Cycle.Of(datapath).SkipWhile(c => c.Address != At(walk.Rows[at])).Skip(1))
        {
            if (cycle.AsksFirst && !SingleStep.GoesOn(datapath, own, cycle.Address))
            {
                left = cycle.Segment;
            }
            if (cycle.Segment != left)
            {
                own = [.. SingleStep.Of(datapath, own, cycle.Address).Registers];
                table.Add(Copied(datapath, own));
            }
        }
        return (table, true);
    }

    [Fact]
    public void Empty_cells_are_missing_and_not_wrong_and_the_next_row_goes_on_from_what_they_rightly_hold()
    {
        var walk = Walk.Of(Tests.Walks.At("divide-still-divisor", 4), [13, 4]);
        var table = Copied(walk);
        table[2] = [.. table[2].Select(w => w.With(0, null))];
        table[3] = [HandWord.Blank, HandWord.Blank, HandWord.Blank];
        var judged = TableJudgement.Of(walk.Datapath, walk.Operands, table);
        Assert.Equal(
            [
                RowStanding.Right,
                RowStanding.Right,
                RowStanding.Unfinished,
                RowStanding.Unfinished,
                RowStanding.Right,
                RowStanding.Right,
            ],
            judged.Rows.Select(r => r.Standing)
        );
        Assert.Equal((false, true), (judged.Rows[2].Judgement!.IsBlank, judged.Rows[3].Judgement!.IsBlank));
    }

    [Fact]
    public void Rows_too_few_and_too_many_are_counted_and_a_wrong_load_is_seen()
    {
        var walk = Walk.Of(Tests.Walks.At("divide-still-divisor", 4), [13, 4]);
        var table = Copied(walk);
        var few = TableJudgement.Of(walk.Datapath, walk.Operands, table[..4]);
        Assert.Equal((4, 0, 2), (few.Rows.Count, few.TooMany, few.TooFew));
        Assert.Equal(walk.Results, few.Results);
        var many = TableJudgement.Of(walk.Datapath, walk.Operands, [.. table, table[^1], table[^1]]);
        Assert.Equal((6, 2, 0), (many.Rows.Count, many.TooMany, many.TooFew));
        table[0] = [table[0][0].With(7, true), .. table[0].Skip(1)];
        Assert.Equal(
            (RowStanding.Wrong, RowStanding.Wrong),
            (
                TableJudgement.Of(walk.Datapath, walk.Operands, table).Rows[0].Standing,
                TableJudgement.Of(walk.Datapath, walk.Operands, table).Rows[1].Standing
            )
        );
    }

    /// <summary>In 4 bits 13 by 4: the row of cycle 3 has its one difference dropped, and the rest follows from that.</summary>
    [Fact]
    public void By_hand()
    {
        var datapath = Tests.Walks.At("divide-still-divisor", 4);
        string[] rows =
        [
            "00001101 0100 0000",
            "00011010 0100 0000",
            "00110100 0100 0000",
            "01101000 0100 0000",
            "11010000 0100 0000", // 0110 is at least 0100, and the difference was not taken
            "10010000 0100 0001", // from 1101 as it stands: 1101 - 0100 = 1001
        ];
        var judged = TableJudgement.Of(datapath, [13, 4], [.. rows.Select(r => r.Split(' ').Select(Word).ToList())]);
        Assert.Equal("Right Right Right Right Wrong Follows", string.Join(' ', judged.Rows.Select(r => r.Standing)));
        Assert.Equal([1, 9], judged.Results.Select(r => (int)r));

        static HandWord Word(string bits) =>
            HandWord.Whole(bits.Aggregate(BigInteger.Zero, (word, bit) => 2 * word + (bit - '0')), bits.Length);
    }
}
