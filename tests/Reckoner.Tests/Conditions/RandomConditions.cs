using Reckoner.Conditions;
using Reckoner.Diagnostics;

namespace Reckoner.Tests.Conditions;

/// <summary>Conditions of every kind, drawn for a machine.</summary>
internal sealed class RandomConditions
{
    private readonly DecidedMachine machine;
    private readonly Random random;
    private readonly List<Func<int, Condition>> kinds;
    private readonly List<Occasion> occasions;
    private readonly List<string> names;
    private readonly List<string> slips;

    public RandomConditions(DecidedMachine machine, Random random)
    {
        this.machine = machine;
        this.random = random;
        names = [.. machine.Datapath.Operands.Select(o => o.Name), .. machine.Datapath.Results.Select(r => r.Name)];
        slips = [.. machine.Slips.Names.Where(n => machine.Slips.Built(n) is not null)];
        var wide = machine.Timeline.Edges.SelectMany(e => e.Named).Where(n => n.Wire.Value.Width > 1);
        occasions =
        [
            .. machine.Decisions.All.Select(d => d.Outcome),
            .. wide.Select(n => machine.Decisions.Known(new Occasion($"{n.Wire.Name}>=-1", false))!).Distinct(),
        ];
        kinds =
        [
            depth => new Combined(Drawn([Joint.And, Joint.Or]), [.. Parts(depth)]),
            depth => new NotSo(Any(depth - 1)),
            _ => new Always(),
            _ => new IsTrue(Formula(Truth(), (formulas, place) => formulas.Truth(place))),
            _ => new HasParity(
                Formula(Number(), (formulas, place) => formulas.Number(place)),
                Drawn([Parity.Even, Parity.Odd])
            ),
            _ =>
                Drawn([Whose.Named, Whose.Operands, Whose.Results]) is var whose
                    ? new HasDigits(whose, whose == Whose.Named ? Drawn(names) : "", Amount())
                    : throw new InvalidOperationException(),
            _ => new Happens(What()),
            _ => new HappensTimes(What(), Amount()),
            _ => new HappensAlways(What()),
            _ => new HappensAtEnd(What(), Drawn([End.First, End.Last])),
            _ => new HappensInCycle(What(), Count()),
            _ => new HappensInLastCycle(What()),
            _ => new HappensAfter(What(), What()),
            _ => new GoesBothWays(What()),
            _ => new EveryOutcome(),
            _ => new TakesCycles(Amount()),
            _ => new NoTwoAlike(),
            _ => new SlipShows(Drawn(slips)),
        ];
    }

    /// <summary>How many kinds are drawn.</summary>
    public int Kinds => kinds.Count;

    /// <summary>One of any kind, with so many more below it at most.</summary>
    public Condition Any(int depth) => OfKind(random.Next(depth > 0 ? 0 : 2, Kinds), depth);

    public Condition OfKind(int kind, int depth) => kinds[kind](depth);

    private IEnumerable<Condition> Parts(int depth) =>
        Enumerable.Range(0, random.Next(2, 4)).Select(_ => Any(depth - 1));

    private T Drawn<T>(IReadOnlyList<T> all) => all[random.Next(all.Count)];

    private Occasion What() => Drawn(occasions) is var what && random.Next(2) == 0 ? what : what.Opposite;

    private Amount Amount() => new(Drawn([Bound.Exactly, Bound.AtLeast, Bound.AtMost]), Count());

    private Count Count() =>
        random.Next(4) == 0 && machine.Datapath.Widths is [var (name, value), ..]
            ? new Count(name, (int)value)
            : random.Next(6);

    private T Formula<T>(string text, Func<ConditionFormulas, Span, T?> read)
        where T : class =>
        read(new ConditionFormulas(machine.Datapath, text, new Report(null)), new Span(0, text.Length))
        ?? throw new InvalidOperationException(text);

    private string Number() =>
        random.Next(5) switch
        {
            0 => $"{random.Next(20)}",
            1 => $"{Drawn(names)} - {Drawn(names)}",
            2 => $"{Drawn(names)} / ({Drawn(names)} + 1)",
            3 => $"2^({machine.Datapath.Widths[0].Name}-1)",
            _ => Drawn(names),
        };

    private string Truth() =>
        random.Next(5) switch
        {
            0 => $"{Drawn(names)} in 1..{random.Next(1, 9)}",
            1 => $"{Number()} <= {Number()} < {Number()}",
            2 => $"({Number()} = {Number()}) xor ({Drawn(names)} > 1)",
            _ => $"{Number()} {Drawn(["=", "<>", "<", "<=", ">", ">="])} {Number()}",
        };
}
