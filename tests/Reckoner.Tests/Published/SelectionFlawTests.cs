using System.Globalization;
using System.Numerics;
using Reckoner.Numbers;
using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// The division flaw of 1994: a table of digits with five cells empty. Everything that was published of it must come out of two
/// descriptions, one with all its cells and one without the five. Lists with their sources are in tests/cases/published.
/// </summary>
public class SelectionFlawTests
{
    private static string Bits(double number) =>
        BitConverter.DoubleToInt64Bits(number).ToString("X16", CultureInfo.InvariantCulture);

    private static SelectionRun Sound(Mantissa dividend, Mantissa divisor) =>
        SelectionRun.Of(SelectionRun.Sound, dividend, divisor);

    private static SelectionRun Faulty(Mantissa dividend, Mantissa divisor) =>
        SelectionRun.Of(SelectionRun.Faulty, dividend, divisor);

    private static SelectionRun Sound(long dividend, long divisor) =>
        Sound(Mantissa.Of(dividend), Mantissa.Of(divisor));

    private static SelectionRun Faulty(long dividend, long divisor) =>
        Faulty(Mantissa.Of(dividend), Mantissa.Of(divisor));

    // ---- the table

    /// <summary>
    /// The rows of 3.2-selection.list: where +1, +2 and "outside" begin going up, -1 and -2 going down. The five empty cells are the
    /// last ones inside, in the columns where the edge of the region falls on a row.
    /// </summary>
    [Fact]
    public void The_table_by_rule_has_its_digits_where_they_were_found()
    {
        var sound = Digits(SelectionRun.Sound);
        var faulty = Digits(SelectionRun.Faulty);
        var empty = new List<(int, int)>();
        foreach (var row in PublishedList.Rows("3.2-selection"))
        {
            var column = int.Parse(row[0].Split('/')[0]) - 16;
            int At(int r) => sound(r, column);
            var up = Enumerable.Range(0, 64).ToList();
            var down = Enumerable.Range(1, 64).Select(r => -r).ToList();
            string[] found =
            [
                $"{up.First(r => At(r) == 1)}",
                $"{up.First(r => At(r) == 2)}",
                $"{up.First(r => r > 8 && At(r) == 0)}",
                $"{down.First(r => At(r) == -1)}",
                $"{down.First(r => At(r) == -2)}",
            ];
            Assert.Equal(row.Skip(1).Take(5), found);
            var differing = up.Concat(down).Where(r => At(r) != faulty(r, column)).ToList();
            Assert.Equal(row[6] == "." ? [] : [int.Parse(row[6])], differing);
            Assert.All(differing, r => Assert.Equal((2, 0), (At(r), faulty(r, column))));
            Assert.Equal(differing.Count == 1, (column + 17) % 3 == 0);
            empty.AddRange(differing.Select(r => (r, column)));
        }
        Assert.Equal([(23, 1), (27, 4), (31, 7), (35, 10), (39, 13)], empty);
    }

    private static Func<int, int, int> Digits(string machine)
    {
        var walk = Walks.Of(Walks.At(machine, 8), 128, 128);
        var table = walk.Rows[1].Moments[^1].Values.Single(v => v.Wire.Name == "q").Wire.Value.Table!;
        return (row, column) => (int)Numbers.Bits.AsSigned(table.Cells[(row & 127) * 16 + column], table.Width);
    }

    // ---- wrong quotients

    /// <summary>
    /// 4195835/3145727: Nicely's questions and answers (19 August 2011), from Coe; 5506153/294911: Deley 1995, chapter 4; 5505001/294911:
    /// from memory; 5244795/3932159: Coe, 21 November 1994 (the residual); 14909255/11009918: Edelman 1997, p. 66 (the difference);
    /// 1/824633702441: Nicely 1994 (the value from memory). All recomputed.
    /// </summary>
    [Theory]
    [InlineData(4195835, 3145727, "3FF557541C7C6B43", "3FF556FEC7254ED1", 256)]
    [InlineData(5506153, 294911, "4032ABA9B45E99DC", "4032AB7F09AA73ED", 192)]
    [InlineData(5505001, 294911, "4032AAA9B425B641", "4032AA7F09719052", null)]
    [InlineData(5244795, 3932159, "3FF557545B0E34B8", "3FF5571016C8CD2E", 256)]
    [InlineData(14909255, 11009918, "3FF5AAA9D0405B0D", "3FF5AA790D0E6EAD", 512)]
    [InlineData(1, 824633702441, "3D7555555D50C71F", "3D7555555BFB71CA", null)]
    public void A_published_pair_gives_the_right_and_the_wrong_quotient(
        long dividend,
        long divisor,
        string right,
        string wrong,
        int? residual
    )
    {
        Assert.Equal(right, Bits(Sound(dividend, divisor).Double()));
        Assert.Equal(right, Bits((double)dividend / divisor));
        var quotient = Faulty(dividend, divisor).Double();
        Assert.Equal(wrong, Bits(quotient));
        if (residual is { } left)
        {
            Assert.Equal(left, dividend - quotient * divisor);
            Assert.Equal(0, dividend - (double)dividend / divisor * divisor);
        }
    }

    /// <summary>The digits that were printed, where the words above give only bits.</summary>
    [Theory]
    [InlineData(4195835, 3145727, "1.3338204491362410025", "1.3337390689020375894", 19)]
    [InlineData(5506153, 294911, "18.67055823621364", "18.66990719233938", 14)]
    [InlineData(5505001, 294911, "18.66665197", "18.66600093", 8)]
    [InlineData(14909255, 11009918, "1.354165853006353", "1.354119349481077", 15)]
    public void To_the_published_digits(long dividend, long divisor, string right, string wrong, int places)
    {
        Assert.Equal(right, Decimal(Sound(dividend, divisor).Rounded(64), places));
        Assert.Equal(wrong, Decimal(Faulty(dividend, divisor).Rounded(64), places));
    }

    private static string Decimal(Rational number, int places)
    {
        var digits = Rational.Round(number * BigInteger.Pow(10, places)).ToString(CultureInfo.InvariantCulture);
        return digits.Insert(digits.Length - places, ".");
    }

    /// <summary>64 bits of significand; the wrong one is that of Nicely's twenty digits.</summary>
    [Theory]
    [InlineData(4195835, 3145727, "AABAA0E3E35A14BD", "AAB7F6392A768638")]
    [InlineData(5506153, 294911, "955D4DA2F4CEE112", "955BF84D539F67EB")]
    public void In_the_64_bits_of_the_extended_format(long dividend, long divisor, string right, string wrong)
    {
        Assert.Equal(right, Significand(Sound(dividend, divisor)));
        Assert.Equal(wrong, Significand(Faulty(dividend, divisor)));
    }

    private static string Significand(SelectionRun run)
    {
        var number = run.Rounded(64).Numerator;
        return (number << (64 - (int)number.GetBitLength())).ToString("X16", CultureInfo.InvariantCulture)[^16..];
    }

    [Fact]
    public void In_binary32()
    {
        static float Single(SelectionRun run) =>
            (float)((double)run.Rounded(24).Numerator / (double)run.Rounded(24).Denominator);
        Assert.Equal("1.3338205", Single(Sound(4195835, 3145727)).ToString("R", CultureInfo.InvariantCulture));
        Assert.Equal(1.3338204622268677, Single(Sound(4195835, 3145727)));
        Assert.Equal(1.3337390422821045, Single(Faulty(4195835, 3145727)));
    }

    /// <summary>4195835*256 / (3145727/256): a news message of 8 December 1994 (bionet.molmodel), the right one cut to the digits printed there.</summary>
    [Fact]
    public void A_power_of_two_on_both_sides_changes_nothing()
    {
        Assert.StartsWith("87413.2569", Decimal(65536 * Sound(4195835, 3145727).Rounded(64), 8));
        Assert.Equal("87407.92362", Decimal(65536 * Faulty(4195835, 3145727).Rounded(64), 5));
    }

    /// <summary>Digits and rows recomputed by a model that shares no code with this program. The row before the empty cell is just below it.</summary>
    [Fact]
    public void The_digits_part_at_the_ninth()
    {
        int[] sound = [1, -1, -1, -1, -1, -1, -1, 2, 2, 2, 2, 0, 1, -1, 2, 1, 0, -1, 2, 1];
        int[] faulty = [1, -1, -1, -1, -1, -1, -1, 2, 0, 0, -1, 2, -2, 1, -1, 2, 1, 1, -1, -2];
        int[] rows = [8, -16, -17, -17, -17, -14, -6, 30, 31, -3, -8, 18, -22, 10, -6, 26];
        Assert.Equal(sound, Sound(4195835, 3145727).Selections.Take(20).Select(s => s.Digit));
        Assert.Equal(faulty, Faulty(4195835, 3145727).Selections.Take(20).Select(s => s.Digit));
        Assert.Equal(rows, Faulty(4195835, 3145727).Selections.Take(16).Select(s => s.Row));
    }

    // ---- lists of pairs

    private static IEnumerable<(Mantissa Dividend, Mantissa Divisor, IReadOnlyList<string> Said)> Listed() =>
        [
            .. PublishedList
                .Rows("3.4-failing-pairs")
                .Select(r => (Mantissa.Hex(r[0]), Mantissa.Hex(r[1]), (IReadOnlyList<string>)[.. r.Skip(2)])),
            .. PublishedList
                .Rows("3.5-failing-reciprocals")
                .Select(r =>
                    (Mantissa.Of(1), Mantissa.Of(BigInteger.Parse(r[0])), (IReadOnlyList<string>)[.. r.Skip(1)])
                ),
        ];

    [Fact]
    public void Every_listed_pair_is_right_with_the_whole_table_and_wrong_as_listed_with_the_five_cells_empty()
    {
        Assert.Equal(43 + 23, Listed().Count());
        foreach (var (dividend, divisor, said) in Listed())
        {
            var (sound, faulty) = (Sound(dividend, divisor), Faulty(dividend, divisor));
            Assert.True(sound.Walk.Holds);
            var places = dividend.Value / divisor.Value / sound.LastPlace;
            Assert.Equal(sound.LastPlace * Rational.Floor(places), sound.Quotient);
            Assert.False(faulty.Walk.Holds);
            string[] found =
            [
                $"{faulty.Selections.First().Column + 16}/16",
                $"[{string.Join(", ", faulty.EmptyReads)}]",
                Bits(sound.Double()),
                Bits(faulty.Double()),
            ];
            Assert.Equal(said, found);
        }
    }

    /// <summary>Coe and Tang, "It takes six ones to reach a flaw" (ARITH-12, 1995): bits 5 to 10 of the divisor are ones.</summary>
    [Fact]
    public void Six_ones_stand_in_the_divisor_of_every_failing_pair() =>
        Assert.All(Listed(), pair => Assert.Equal(0b111111, (int)((pair.Divisor.In(64) >> (63 - 10)) & 0b111111)));

    /// <summary>Edelman 1997, p. 66: the ninth digit is the first that can be wrong. The cell before is the one just below.</summary>
    [Fact]
    public void No_digit_before_the_ninth_is_wrong()
    {
        foreach (var (dividend, divisor, _) in Listed())
        {
            var selections = Faulty(dividend, divisor).Selections.ToList();
            var first = Faulty(dividend, divisor).EmptyReads.First();
            Assert.InRange(first, 8, selections.Count);
            Assert.Equal(selections[first].Row - 1, selections[first - 1].Row);
            Assert.Equal(2, selections[first - 1].Digit);
            Assert.InRange(selections[first - 2].Digit, -2, -1);
            Assert.True(SelectionRun.Of(SelectionRun.Faulty, dividend, divisor, 8).Walk.Holds);
        }
        Assert.Contains(Listed(), p => !SelectionRun.Of(SelectionRun.Faulty, p.Dividend, p.Divisor, 9).Walk.Holds);
    }

    /// <summary>The ends of Coe's ranges: one outside them nothing fails.</summary>
    [Theory]
    [InlineData("b9feab6", "8fff")]
    [InlineData("b9feac0", "8fff")]
    [InlineData("9fffef4", "effff4")]
    [InlineData("9ffff00", "effff4")]
    [InlineData("f008e34", "8ffff4")]
    [InlineData("f008e40", "8ffff4")]
    [InlineData("f008f44", "8ffffe")]
    [InlineData("f008f80", "8ffffe")]
    [InlineData("a808d1a", "8fffe")]
    [InlineData("a808d40", "8fffe")]
    public void Just_outside_a_range_nothing_fails(string dividend, string divisor)
    {
        var run = Faulty(Mantissa.Hex(dividend), Mantissa.Hex(divisor));
        Assert.Empty(run.EmptyReads);
        Assert.True(run.Walk.Holds);
    }

    /// <summary>Nicely, in a letter to BYTE, 1995: reciprocals from 824633702418 to ...449 fail, their neighbours do not.</summary>
    [Theory]
    [InlineData(824633702417, true)]
    [InlineData(824633702418, false)]
    [InlineData(824633702441, false)]
    [InlineData(824633702449, false)]
    [InlineData(824633702450, true)]
    public void An_interval_of_reciprocals_ends_where_it_was_said_to(long divisor, bool isRight)
    {
        Assert.Equal(isRight, !Faulty(1, divisor).EmptyReads.Any());
        Assert.Equal(isRight, Faulty(1, divisor).Walk.Holds);
    }

    // ---- experiments

    /// <summary>
    /// (a/b)b - a in 1/8192: Coe, 16 November 1994. With 32.9999999 and 38.9999999 nothing fails. All in binary64, as the numbers are
    /// written.
    /// </summary>
    [Theory]
    [InlineData(41.999999, 35.9999999, -0.75)]
    [InlineData(48.999999, 41.9999999, -1.0)]
    [InlineData(55.999999, 47.9999999, -1.0)]
    [InlineData(62.999999, 53.9999999, -1.0)]
    [InlineData(54.999999, 59.9999999, -1.0)]
    [InlineData(38.499999, 32.9999999, 0)]
    [InlineData(45.499999, 38.9999999, 0)]
    public void Decimal_numbers_fail_by_the_residuals_of_the_experiment(double a, double b, double residual)
    {
        var run = Faulty(Mantissa.OfBinary64(a), Mantissa.OfBinary64(b));
        Assert.Equal(residual, Math.Round((run.Double() * b - a) * 8192, 4));
        Assert.Equal(residual == 0 ? [] : [10], run.EmptyReads);
    }

    /// <summary>B. Swart, 1994 and 1995: 1/(1/x) is off by 21 1/3, doubling with x. The second division fails.</summary>
    [Theory]
    [InlineData(357914069, 21.33334)]
    [InlineData(715828138, 42.66668)]
    [InlineData(1431656276, 85.33336)]
    [InlineData(1431655893, 21.33334)]
    public void The_reciprocal_of_a_reciprocal_is_off(long number, double off)
    {
        var first = Faulty(1, number);
        Assert.Empty(first.EmptyReads);
        var second = Faulty(Mantissa.Of(1), Mantissa.OfBinary64(first.Double()));
        Assert.NotEmpty(second.EmptyReads);
        Assert.Equal(off, Math.Round(Math.Abs(second.Double() - number), 5));
    }

    // ---- registers

    /// <summary>
    /// Words of sum and carry after the shift, as published (Coe, 16 November 1994): 1/824633702441, unit bit at place 59. After digits 15
    /// and 16 the sum word differs in one bit, since Coe's first model took a constant off one digit earlier instead of giving 0 for 2.
    /// </summary>
    [Theory]
    [InlineData(1, "F0000011F5BFFFFC", "0000000000000004", 1, "F0000011")]
    [InlineData(14, "3FE4AF4C17400000", "DFFFFB6490000000", -1, "1FE4AAB0")]
    public void The_words_of_the_remainder_are_those_published(
        int cycle,
        string sum,
        string carry,
        int digit,
        string top
    )
    {
        var run = SelectionRun.Of(SelectionRun.Faulty, Mantissa.Of(1), Mantissa.Of(824633702441), 40, 60);
        var (s, c) = Words(run, cycle);
        Assert.Equal(
            (sum, carry),
            (s.ToString("X16", CultureInfo.InvariantCulture), c.ToString("X16", CultureInfo.InvariantCulture))
        );
        Assert.Equal(digit, run.Selections.ElementAt(cycle - 1).Digit);
        Assert.Equal(top, (unchecked(s + c) >> 32).ToString("X8", CultureInfo.InvariantCulture));
    }

    [Theory]
    [InlineData(15, 0x006D5081F67FFFFCul, 0xFF255A6492000004ul, 61)]
    [InlineData(16, 0xFD202B9591FFFFE0ul, 0x012A800490000020ul, 63)]
    public void Two_more_differ_in_one_bit_of_the_sum_word_alone(int cycle, ulong sum, ulong carry, int place)
    {
        var run = SelectionRun.Of(SelectionRun.Faulty, Mantissa.Of(1), Mantissa.Of(824633702441), 40, 60);
        Assert.Equal((sum ^ (1ul << place), carry), Words(run, cycle));
    }

    private static (ulong Sum, ulong Carry) Words(SelectionRun run, int cycle)
    {
        ulong Word(string name) => Convert.ToUInt64(WalkPlace.Bits(run.Walk, $"{cycle}", name), 2);
        return (Word("S"), Word("C"));
    }
}
