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

    /// <param name="Held">What registers hold, by case, then by edge (0 is the load), then by register, all in one row.</param>
    private sealed record Seen(CaseSet Cases, int[] Widths, int Edges, ulong[] Held);

    private Observed(IReadOnlyList<Seen> seen, IReadOnlyList<string> registers)
    {
        this.seen = seen;
        this.registers = registers;
    }

    public static Observed Of(string text, Draft draft, Workshop workshop)
    {
        var machine = Machine.Read(new Source("", text), _ => null);
        var seen = new List<Seen>();
        foreach (
            var cases in workshop
                .Cases.Where(c => c.IsAll && c.Main > 2)
                .Take(workshop.Machine.Widths.Count() > 1 ? MostSets + 1 : MostSets)
        )
        {
            if (Scale.AtWidths(machine, cases.Main, cases.Other) is not { } datapath)
            {
                continue;
            }
            var timeline = Timeline.Of(datapath);
            int[] words = [.. timeline.Load, .. timeline.Edges.SelectMany(e => e.Registers)];
            if (WordCode.Of(timeline.Graph, words) is not { } code)
            {
                continue;
            }
            var held = new ulong[cases.Operands.Length * words.Length];
            for (var i = 0; i < cases.Operands.Length; i++)
            {
                code.Run(cases.Operands[i], held.AsSpan(i * words.Length, words.Length));
            }
            seen.Add(new Seen(cases, [.. datapath.Registers.Select(r => r.Width)], timeline.Edges.Count + 1, held));
        }
        return new Observed(seen, [.. draft.Registers.Select(r => r.Name.Text)]);
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
                for (var first = 0; first < s.Held.Length; first += s.Edges * s.Widths.Length)
                {
                    for (var edge = moments.From; edge < end; edge += moments.Every)
                    {
                        ones |= s.Held[first + (edge * s.Widths.Length) + at];
                    }
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
                var differ = 0UL;
                for (var i = at; i < s.Held.Length; i += s.Widths.Length)
                {
                    differ |= (s.Held[i] ^ (s.Held[i] >> 1)) & ((1UL << (width - 1)) - 1);
                }
                return (s.Cases, width - 1 - (differ == 0 ? 0 : BitOperations.Log2(differ) + 1));
            })
        );
    }

    /// <summary>Whether two registers always hold the same.</summary>
    public bool AreSame(string one, string other)
    {
        var (a, b) = (registers.ToList().IndexOf(one), registers.ToList().IndexOf(other));
        return seen.All(s => s.Widths[a] == s.Widths[b] && AreSame(s, a, b));
    }

    private static bool AreSame(Seen seen, int a, int b)
    {
        for (var first = 0; first < seen.Held.Length; first += seen.Widths.Length)
        {
            if (seen.Held[first + a] != seen.Held[first + b])
            {
                return false;
            }
        }
        return true;
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
