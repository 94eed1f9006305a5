using System.Numerics;
using Reckoner.Binding;
using Reckoner.Checking;
using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Numbers;
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

    public static Chosen Of(Datapath datapath, string condition, Vocabulary words)
    {
        if (CheckProgram.GivenBeyondGates(datapath) is not null)
        {
            return new Chosen(words.Say("page.operands-beyond"), []);
        }
        var bits = datapath.Operands.Sum(o => o.Width);
        IReadOnlyList<BigInteger[]>? sample =
            bits <= MostBits
                ? null
                : [.. new OperandSample(datapath, Sample, Seed, OperandCorners.Crossed(datapath)).Operands()];
        var report = new Report(null);
        var all = Candidates.Of(datapath, InterpretedEngine.Widest, sample);
        var candidates = condition.Trim().Length == 0 ? all : all.Showing(condition, report);
        if (candidates is null || report.HasErrors)
        {
            var wrong = report.InOrder().SelectMany(d => DiagnosticText.Sentences(d, words));
            return new Chosen(string.Join(' ', wrong), []);
        }
        var what = words.Say(
            "operands.given",
            ("what", words.Say(datapath.Operands.Count == 2 ? "operands.pairs" : "operands.sets"))
        );
        var said = (candidates.Count, sample) switch
        {
            (0, null) => words.Say("operands.none", ("cases", candidates.Cases), ("what", what)),
            (0, _) => words.Say("operands.none-sampled", ("cases", candidates.Cases), ("what", what), ("seed", Seed)),
            (_, null) => words.Say(
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
        return new Chosen(said, [.. BestFew.Of(candidates, MostShown).Select(c => Spoken(datapath, c.Operands))]);
    }

    private static (string, IReadOnlyList<string>) Spoken(Datapath datapath, IReadOnlyList<BigInteger> operands)
    {
        IReadOnlyList<string> numbers =
        [
            .. datapath.Operands.Zip(operands, (o, b) => Bits.Text(Evaluator.Number(o, b))),
        ];
        return (string.Join(", ", datapath.Operands.Zip(numbers, (o, n) => $"{o.Name} = {n}")), numbers);
    }
}
