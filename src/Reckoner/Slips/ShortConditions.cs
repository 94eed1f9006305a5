using Reckoner.Checking;
using Reckoner.Conditions;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;

namespace Reckoner.Slips;

/// <summary>
/// The conditions that are tried alone and in pairs, simplest first: an operand or a result beside a number or another of them,
/// and what the machine decides in its cycles. Numbers that grow with a width are written in it.
/// </summary>
internal sealed class ShortConditions
{
    private readonly DecidedMachine machine;
    private readonly MachineGates gates;
    private readonly ConditionGates literals;

    public ShortConditions(MachineGates gates)
    {
        this.gates = gates;
        machine = KnownSlips.Machine(gates.Timeline);
        literals = new ConditionGates(machine, gates);
    }

    /// <summary>Each with its literal; of those that are the same gates the first, without those that are always or never so.</summary>
    /// <param name="withResults">Whether they may speak of the results, which mean nothing where they are wrong.</param>
    public List<(Condition Condition, int Literal)> All(bool withResults = true) =>
        [
            .. OnNumbers(withResults)
                .Concat(OnDecisions())
                .Select(c => (Condition: c, Literal: literals.Literal(c)))
                .DistinctBy(c => c.Literal)
                .Where(c => c.Literal > GateGraph.One),
        ];

    /// <summary>The literal of a text that was found at another width; null where it means nothing here.</summary>
    public int? Literal(string text) =>
        ConditionParser.Read(machine, text, new Report(null)) is { } condition ? literals.Literal(condition) : null;

    private IEnumerable<Condition> OnNumbers(bool withResults)
    {
        var names = machine.Datapath.Operands.Select(o => new NamedNumber(o.Name, o.Size, o.IsSigned)).ToList();
        if (withResults)
        {
            names.AddRange(
                machine.Datapath.Results.Select(r => new NamedNumber(
                    r.Name,
                    r.Value.Size,
                    r.Value.Reading == Reading.Signed
                ))
            );
        }
        foreach (var condition in names.SelectMany(Alone))
        {
            yield return condition;
        }
        foreach (var x in names)
        {
            foreach (var y in names.Where(y => y != x))
            {
                foreach (var relation in (string[])["<", "<=", "=", "<>"])
                {
                    yield return Formula($"{x.Name} {relation} {y.Name}");
                }
            }
        }
    }

    private IEnumerable<Condition> Alone(NamedNumber x)
    {
        yield return Formula($"{x.Name} <> 0");
        yield return Formula($"{x.Name} = 0");
        yield return new HasParity(Number(x), Parity.Odd);
        yield return new HasParity(Number(x), Parity.Even);
        var half = x.HalfRange(machine.Datapath);
        IEnumerable<string> compared = x.IsSigned
            ? ["< 0", ">= 0", "> 0", $"= -{half}", $"<> -{half}"]
            : [$">= {half}", $"< {half}", $"> {half}"];
        var full = x.IsSigned ? "-1" : x.Largest(machine.Datapath);
        foreach (var rest in compared.Concat([$"= {full}", $"<> {full}", "= 1", "<> 1"]))
        {
            yield return Formula($"{x.Name} {rest}");
        }
    }

    private Claims.Term Number(NamedNumber x) =>
        Claims.Term.Of(default, machine.Datapath.Variables.First(v => v.Name == x.Name));

    private IsTrue Formula(string text) =>
        new(
            new ConditionFormulas(machine.Datapath, text, new Report(null)).Truth(new Span(0, text.Length))
                ?? throw new InvalidOperationException(text)
        );

    private IEnumerable<Condition> OnDecisions()
    {
        var seen = new HashSet<KnownOccasion>();
        foreach (
            var outcome in machine
                .Timeline.Edges.SelectMany(e => e.Outcomes)
                .Where(o => o.Arm?.Label != "else")
                .Select(o => Occasion.Of(o.Text))
        )
        {
            if (machine.Decisions.Find(outcome) is not { } decision || !seen.Add(decision))
            {
                continue;
            }
            var first = outcome.IsOneWord ? outcome with { IsTurned = false } : outcome;
            var times = literals.Askings(first);
            // A named value is there in cycles too in which nothing is decided by it, and a reader would count those.
            if (outcome.IsOneWord && times.Any(t => t.Met != gates.Active[t.Edge]))
            {
                continue;
            }
            foreach (var condition in Told(first, times.Count).Concat(Told(first.Opposite, times.Count)))
            {
                yield return condition;
            }
        }
    }

    private static IEnumerable<Condition> Told(Occasion what, int times) =>
        times switch
        {
            0 => [],
            // What is decided once is either so or not; there is no first and last time.
            1 => [new Happens(what)],
            _ =>
            [
                new HappensAtEnd(what, End.Last),
                new HappensAtEnd(what, End.First),
                new HappensTimes(what, new Amount(Bound.AtLeast, 1)),
                new HappensTimes(what, new Amount(Bound.AtMost, 0)),
                new HappensAlways(what),
                new HappensTimes(what, new Amount(Bound.Exactly, 1)),
                new HappensAfter(what, what),
            ],
        };
}
