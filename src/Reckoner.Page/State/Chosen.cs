using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Numbers;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Page.State;

/// <summary>Operands that show what is asked for, for the page: few enough cases that nobody waits.</summary>
/// <param name="Said">How many there are, or what is wrong with the question.</param>
public sealed record Chosen(string Said, IReadOnlyList<(string Text, IReadOnlyList<string> Operands)> Operands)
{
    private const int MostShown = 6;
    private const int MostBits = 12;
    private const int Sample = 1500;
    private const int Seed = 1;

    public static Chosen Of(Datapath datapath, string condition, Vocabulary words, Means means)
    {
        var question = new OperandsQuestion(datapath, ChosenFor.Showing)
        {
            Showing = condition.Trim().Length == 0 ? null : condition,
            Count = MostShown,
            CaseBits = MostBits,
            UsualSample = Sample,
            Seed = Seed,
        };
        var answer = question.Ask(means);
        if (answer.Data is not { } found)
        {
            return new Chosen(string.Join(' ', answer.Refusals.SelectMany(f => Sentences(f.Diagnostic, words))), []);
        }
        var candidates = found.Candidates;
        var what = words.Say(
            "operands.given",
            ("what", words.Say(datapath.Operands.Count == 2 ? "operands.pairs" : "operands.sets"))
        );
        var said = (candidates.Count, candidates.IsExhaustive) switch
        {
            (0, true) => words.Say("operands.none", ("cases", candidates.Cases), ("what", what)),
            (0, _) => words.Say("operands.none-sampled", ("cases", candidates.Cases), ("what", what), ("seed", Seed)),
            (_, true) => words.Say(
                "operands.found",
                ("count", candidates.Count),
                ("cases", candidates.Cases),
                ("what", what)
            ),
            _ => words.Say(
                "operands.found-sampled",
                ("count", candidates.Count),
                ("cases", candidates.Cases),
                ("what", what),
                ("seed", Seed)
            ),
        };
        return new Chosen(said, [.. found.Chosen.Select(c => Spoken(datapath, c.Operands, words))]);
    }

    /// <summary>What the page can do about it is not what the command can.</summary>
    private static IEnumerable<string> Sentences(Diagnostic diagnostic, Vocabulary words) =>
        diagnostic.Id == Id.GivenBeyondGates
            ? [words.Say("page.operands-beyond")]
            : DiagnosticText.Sentences(diagnostic, words);

    private static (string, IReadOnlyList<string>) Spoken(
        Datapath datapath,
        IReadOnlyList<BigInteger> operands,
        Vocabulary words
    )
    {
        IReadOnlyList<string> numbers = [.. datapath.Operands.Zip(operands, (o, b) => Bits.Text(o.Number(b)))];
        return (string.Join(", ", datapath.Operands.Zip(numbers, (o, n) => $"{o.In(words.Language)} = {n}")), numbers);
    }
}
