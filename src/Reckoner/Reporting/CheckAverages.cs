using System.Numerics;
using Reckoner.Checking;
using Reckoner.Numbers;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>What happens on average: cycles, and how often each decision comes out so.</summary>
internal static class CheckAverages
{
    /// <param name="given">Whether the machine leaves operands out, so that not all were averaged over.</param>
    public static Pairs Of(Averages averages, bool given, Vocabulary words) =>
        new([.. Cycles(averages, words), .. averages.Outcomes.Select(o => Outcome(o, words))])
        {
            Caption = words.Spell(given ? "check.averages-given" : "check.averages", ("cases", averages.Cases)),
        };

    /// <summary>Where not all operands take as many, with how many take how many.</summary>
    private static IEnumerable<Pair> Cycles(Averages averages, Vocabulary words)
    {
        var isOne = averages.Cycles.Count == 1;
        var average = isOne ? averages.AverageCycles.ToString() : Approximate(averages.AverageCycles, words);
        yield return new Pair(words.Spell("check.cycles"), Content.Phrase(average));
        foreach (var (cycles, cases) in isOne ? [] : averages.Cycles)
        {
            yield return new Pair(
                words.Spell("walk.cycles", ("count", cycles)),
                words.Spell("check.times", ("cases", cases))
            )
            {
                IsPart = true,
            };
        }
    }

    private static Pair Outcome(AverageOutcome outcome, Vocabulary words) =>
        new(
            words.Spell("check.outcome", ("line", outcome.Line), ("text", outcome.Text)),
            words.Spell("check.of", ("average", Approximate(outcome.Average, words)), ("possible", outcome.Possible))
        );

    /// <summary>The exact fraction where it is short, else three places; a rounded number is marked so.</summary>
    public static string Approximate(Rational value, Vocabulary words)
    {
        if (value.IsWhole)
        {
            return value.ToString();
        }
        var thousandths = Rational.Round(value * 1000);
        var rounded = words.Decimal(
            $"{thousandths / 1000}.{BigInteger.Abs(thousandths % 1000):000}".TrimEnd('0').TrimEnd('.')
        );
        return value * 1000 == thousandths ? rounded : $"{rounded} ({value})";
    }
}
