using System.Globalization;
using System.Numerics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Questions;
using Xunit;

namespace Reckoner.Engines.Tests;

/// <summary>
/// 1738 pairs of mantissas of 24 bits go wrong with the table of 1994 in a wide datapath (V. Pratt, "Anatomy of the Pentium Bug",
/// TAPSOFT 1995, LNCS 915, p. 103), all of them with one of 5 * 2^13 divisors. For some of these every dividend is compared with a
/// model of words.
/// </summary>
public sealed class WideSelectionTests
{
    private const string Faulty = "divide-srt-radix-4-1994-wide";

    /// <summary>1738 by the column of the divisor, whose bits 5 to 10 behind the point are ones.</summary>
    private static readonly (int Column, int Failures)[] Published =
    [
        (1, 592),
        (4, 227),
        (7, 394),
        (10, 192),
        (13, 333),
    ];

    public static IEnumerable<TheoryDataRow<int, int>> Columns =>
        Published.Select(p => new TheoryDataRow<int, int>(p.Column, p.Failures));

    private static CheckReport Asked(string only, ICheckRunner runner, CheckPart part)
    {
        var machine = Machine.Read(MachineCatalogue.Find(Faulty)!, MachineCatalogue.Find);
        var question = new CheckQuestion(machine) { Only = only, Part = part };
        var answer = question.Ask(new Means(runner, () => TimeSpan.Zero)).Result;
        Assert.True(answer.Data is not null, string.Join("\n", answer.Found.Select(f => f.Diagnostic.ToString())));
        return Assert.Single(answer.Data.Checks);
    }

    private static ICheckRunner Threads => new ThreadedRunner(EngineChoice.Widest, Environment.ProcessorCount);

    private static void Agrees(uint divisor)
    {
        var (count, first) = WideSelection.Failing(divisor);
        var only = string.Create(CultureInfo.InvariantCulture, $"divisor = {divisor}");
        var laws = Asked(only, Threads, CheckPart.Whole).Result.Sections[0].Count;
        Assert.Equal((BigInteger.One << 23, count), (laws.Cases, (int)laws.Failures));
        Assert.Equal(first, laws.Smallest?.Operands[0]);
    }

    /// <summary>Of 4195835 / 3145727, shifted up; and its neighbour, with which nothing fails.</summary>
    [Theory]
    [InlineData(12582908)]
    public void A_divisor_fails_with_as_many_dividends_as_in_a_model_of_words(uint divisor) => Agrees(divisor);

    [Fact]
    [Trait("Length", "long")]
    public void So_does_its_neighbour() => Agrees(12582912);

    [Fact]
    public void That_pair_fails_and_is_seen_in_both()
    {
        Assert.True(WideSelection.Fails(4195835 * 2, 3145727 * 4));
        Assert.False(WideSelection.Fails(4195835 * 2, 3145727 * 4 - 1));
        Assert.False(Running.Walk.Of(Machines.At(Faulty, 24), [4195835 * 2, 3145727 * 4]).Holds);
    }

    /// <summary>
    /// On graphics processors where there are any, else on all cores: in parts, each of which other processors try at once.
    /// </summary>
    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Columns))]
    public void All_the_divisors_of_a_column_that_can_fail_give_the_published_number(int column, int failures)
    {
        const int Parts = 4;
        var only = string.Create(
            CultureInfo.InvariantCulture,
            $"{16 + column} * 2^19 + 63 * 2^13 <= divisor < {17 + column} * 2^19"
        );
        var runner = new GraphicsRunner(Threads, isAsked: false);
        var (cases, failing) = (BigInteger.Zero, BigInteger.Zero);
        for (var part = 1; part <= Parts; part++)
        {
            var laws = Asked(only, runner, new(part, Parts)).Result.Sections[0].Count;
            (cases, failing) = (cases + laws.Cases, failing + laws.Failures);
        }
        Assert.Equal((BigInteger.One << 36, failures), (cases, failing));
    }
}
