using Xunit;

namespace Reckoner.Tests;

/// <summary>Parser, binder and printer on texts that nobody would write, and whatever runs those that are accepted all the same.</summary>
public class FuzzTests
{
    private const int Quick = 3_000;
    private const int Lengthy = 200_000;

    [Fact]
    public void Quick_run() => Run(Quick);

    [Fact]
    [Trait("Length", "long")]
    public void Long_run() => Run(Lengthy);

    private static void Run(int texts)
    {
        var check = new FuzzCheck();
        new Watch(Text, (seed, text) => Check(check, seed, text)).Run(Seeds.Next(), texts);
        var (accepted, walked) = check.Counts;
        // So many at least, or the run has looked at refusals only.
        Assert.InRange(accepted, texts / 5, texts);
        Assert.InRange(walked, accepted / 2, accepted);
    }

    /// <summary>Two spoilt texts, one from the grammar, one that keeps all rules, and so on.</summary>
    private static string Text(int seed) =>
        (seed & 3) switch
        {
            0 => RandomMachine.Alone(seed),
            1 => GrammarWalk.Of(seed),
            _ => Mutations.Of(seed),
        };

    private static void Check(FuzzCheck check, int seed, string text)
    {
        var errors = check.Check(seed, text);
        Assert.True(errors.Count == 0 || (seed & 3) != 0, $"it keeps all rules: {string.Join("; ", errors)}");
    }
}
