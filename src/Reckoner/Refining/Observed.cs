using System.Numerics;
using Reckoner.Binding;
using Reckoner.Timelines;

namespace Reckoner.Refining;

/// <summary>
/// What the registers of a draft hold after the load and after every cycle, for every operand at some small widths. What is seen here
/// gives ideas only: whether they are right is tried at other widths too.
/// </summary>
internal sealed class Observed
{
    private const int MostSets = 3;

    private readonly IReadOnlyList<Seen> seen;
    private readonly IReadOnlyList<string> registers;

    /// <summary>What is known of the registers at one choice of widths, over all operands.</summary>
    /// <param name="Edges">How many states there are; the first is the load.</param>
    /// <param name="Ones">Where there is ever a 1, by edge, then by register.</param>
    /// <param name="Differ">By register, where a bit ever differs from the one above it.</param>
    /// <param name="Traces">By register, all that it holds as one number.</param>
    /// <param name="Begins">By register, what the first edge may have done to what was loaded, for operands inside "given".</param>
    private sealed record Seen(
        CaseSet Cases,
        int[] Widths,
        int Edges,
        ulong[] Ones,
        ulong[] Differ,
        ulong[] Traces,
        Begin[] Begins
    );

    /// <summary>What a clock edge can do to a register.</summary>
    [Flags]
    private enum Begin
    {
        None = 0,
        Stays = 1,
        LeftZero = 2,
        LeftOne = 4,
        RightZero = 8,
        RightOne = 16,
        Any = Stays | LeftZero | LeftOne | RightZero | RightOne,
    }

    private Observed(IReadOnlyList<Seen> seen, IReadOnlyList<string> registers)
    {
        this.seen = seen;
        this.registers = registers;
    }

    public static Observed Of(string text, Draft draft, Workshop workshop)
    {
        var machine = Machine.Read(new Source("", text), _ => null);
        var most = workshop.Machine.Widths.Count() > 1 ? MostSets + 1 : MostSets;
        var seen = CaseSet.Telling(workshop.Cases).Take(most).Select(c => Of(machine, c)).OfType<Seen>();
        return new Observed([.. seen], [.. draft.Registers.Select(r => r.Name.Text)]);
    }

    /// <summary>Null where it cannot be built, or a word is wider than 64 bits.</summary>
    private static Seen? Of(Machine machine, CaseSet cases)
    {
        if (Settings.Same(machine, cases.Datapath) is not { } datapath)
        {
            return null;
        }
        var timeline = Timeline.Of(datapath);
        int[] words = [.. timeline.Load, .. timeline.Edges.SelectMany(e => e.Registers)];
        if (WordCode.Of(timeline.Graph, words) is not { } code)
        {
            return null;
        }
        int[] widths = [.. datapath.Registers.Select(r => r.Width)];
        var seen = new Seen(
            cases,
            widths,
            timeline.Edges.Count + 1,
            new ulong[words.Length],
            new ulong[widths.Length],
            new ulong[widths.Length],
            [.. widths.Select(_ => timeline.Edges.Count > 0 ? Begin.Any : Begin.None)]
        );
        var held = new ulong[words.Length];
        for (var i = 0; i < cases.Operands.Length; i++)
        {
            code.Run(cases.Operands[i], held);
            Add(seen, held, cases.IsGiven[i]);
        }
        return seen;
    }

    private static void Add(Seen seen, ulong[] held, bool isGiven)
    {
        for (
            int i = 0, register = 0;
            i < held.Length;
            i++, register = register + 1 == seen.Widths.Length ? 0 : register + 1
        )
        {
            seen.Ones[i] |= held[i];
            seen.Differ[register] |= (held[i] ^ (held[i] >> 1)) & ((1UL << (seen.Widths[register] - 1)) - 1);
            seen.Traces[register] = RegisterTraces.Mixed(seen.Traces[register], held[i]);
        }
        for (var register = 0; isGiven && seen.Edges > 1 && register < seen.Begins.Length; register++)
        {
            seen.Begins[register] &= Possible(
                held[register],
                held[seen.Widths.Length + register],
                seen.Widths[register]
            );
        }
    }

    private static Begin Possible(ulong loaded, ulong then, int width)
    {
        var (left, right) = (loaded << 1, loaded >> 1);
        var top = 1UL << (width - 1);
        var all = top | (top - 1);
        return (then == loaded ? Begin.Stays : 0)
            | (then == (left & all) ? Begin.LeftZero : 0)
            | (then == ((left | 1) & all) ? Begin.LeftOne : 0)
            | (then == right ? Begin.RightZero : 0)
            | (then == (right | top) ? Begin.RightOne : 0);
    }

    /// <summary>Whether the first cycle leaves in a register what was loaded, for every operand that is given.</summary>
    public bool StaysAtFirst(string register) => Begins(register, Begin.Stays);

    /// <summary>Whether it shifts a register by one place, and this bit enters.</summary>
    public bool IsShiftedAtFirst(string register, bool isLeft, int enters) =>
        Begins(
            register,
            (isLeft, enters) switch
            {
                (true, 0) => Begin.LeftZero,
                (true, _) => Begin.LeftOne,
                (false, 0) => Begin.RightZero,
                (false, _) => Begin.RightOne,
            }
        );

    private bool Begins(string register, Begin begin)
    {
        var at = registers.ToList().IndexOf(register);
        return !IsEmpty && seen.All(s => s.Begins[at].HasFlag(begin));
    }

    public bool IsEmpty => seen.Count == 0;

    /// <summary>Which states are looked at.</summary>
    /// <param name="From">The first, by its edge; <paramref name="Every"/> so many after it.</param>
    /// <param name="WithLast">Whether what is held in the end counts.</param>
    internal readonly record struct Moments(int From, int Every, bool WithLast)
    {
        public static readonly Moments All = new(0, 1, true);
        public static readonly Moments BeforeCycles = new(0, 1, false);
    }

    /// <summary>How many bits of a register are 0 at its upper and at its lower end, where it is a formula of the widths.</summary>
    public (Length Upper, Length Lower) Zeros(string register, Moments moments)
    {
        var at = registers.ToList().IndexOf(register);
        var found = seen.Select(s =>
            {
                var ones = 0UL;
                var end = moments.WithLast ? s.Edges : s.Edges - 1;
                for (var edge = moments.From; edge < end; edge += moments.Every)
                {
                    ones |= s.Ones[(edge * s.Widths.Length) + at];
                }
                var width = s.Widths[at];
                return ones == 0
                    ? (s.Cases, Upper: width, Lower: 0)
                    : (
                        s.Cases,
                        Upper: width - (BitOperations.Log2(ones) + 1),
                        Lower: BitOperations.TrailingZeroCount(ones)
                    );
            })
            .ToList();
        return (Fit(found.Select(f => (f.Cases, f.Upper))), Fit(found.Select(f => (f.Cases, f.Lower))));
    }

    /// <summary>How many bits on top of a register always equal the one below them.</summary>
    public Length Signs(string register)
    {
        var at = registers.ToList().IndexOf(register);
        return Fit(
            seen.Select(s =>
            {
                var width = s.Widths[at];
                var differ = s.Differ[at];
                return (s.Cases, width - 1 - (differ == 0 ? 0 : BitOperations.Log2(differ) + 1));
            })
        );
    }

    /// <summary>Whether two registers always hold the same.</summary>
    public bool AreSame(string one, string other)
    {
        var (a, b) = (registers.ToList().IndexOf(one), registers.ToList().IndexOf(other));
        return seen.All(s => s.Widths[a] == s.Widths[b] && s.Traces[a] == s.Traces[b]);
    }

    /// <summary>The plainest formula of the widths that gives these numbers; 0 where there is none.</summary>
    private static Length Fit(IEnumerable<(CaseSet Cases, int Number)> found)
    {
        var all = found.ToList();
        if (all.Count == 0)
        {
            return 0;
        }
        var names = all[0].Cases.Widths.Select(w => w.Name).ToList();
        foreach (var factors in Factors(names.Count).OrderBy(f => f.Sum(Math.Abs)))
        {
            var left = all.Select(f => f.Number - f.Cases.Widths.Select((w, i) => factors[i] * (int)w.Value).Sum())
                .Distinct()
                .ToList();
            if (left is [var number])
            {
                return factors
                    .Select((f, i) => Length.Of(Make.Name(names[i])) * f)
                    .Aggregate((Length)number, (a, b) => a + b);
            }
        }
        return 0;
    }

    private static IEnumerable<int[]> Factors(int count) =>
        count == 0
            ?
            [
                [],
            ]
            : Factors(count - 1)
                .SelectMany(some => Enumerable.Range(-2, 6), (some, factor) => (int[])[.. some, factor]);
}
