using System.Numerics;
using Reckoner.Binding;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Words;

namespace Reckoner.Refining;

/// <summary>Operands for which two machines give other results.</summary>
internal sealed record Parting(
    Datapath From,
    Datapath To,
    IReadOnlyList<BigInteger> Operands,
    IReadOnlyList<BigInteger> Given,
    IReadOnlyList<BigInteger> GivenThere
);

/// <summary>How one machine becomes another: the steps, or where they part.</summary>
internal sealed class Led
{
    private Led() { }

    public required Datapath From { get; init; }
    public required Datapath To { get; init; }

    /// <summary>The smallest operands, at the least width, for which they give other results; null where none were found.</summary>
    public Parting? Parts { get; private init; }

    /// <summary>Whether <see cref="Parts"/> are the smallest of all, and not only of those that were run.</summary>
    public bool IsSmallest { get; private init; }

    /// <summary>The versions on the way, each run with every operand; the last holds the same as the other machine throughout.</summary>
    public IReadOnlyList<Proposal> Steps { get; private init; } = [];

    /// <summary>Each register of the other machine, and the one that holds the same in the end of the way; empty where there is no way.</summary>
    public IReadOnlyList<(string There, string Here)> Registers { get; private init; } = [];

    /// <summary>The widths at which registers were compared, after every clock edge.</summary>
    public IReadOnlyList<IReadOnlyList<(string Name, BigInteger Value)>> ComparedAt { get; private init; } = [];

    /// <summary>Whether that was done for every operand there.</summary>
    public bool ComparedAll { get; private init; }

    /// <summary>Operands for which the other machine breaks a law of its own, while its results are those of the first.</summary>
    public (Datapath Datapath, IReadOnlyList<BigInteger> Operands)? Breaks { get; private init; }

    /// <summary>The widths at which the other machine was run with every operand, its results held against those of the first.</summary>
    public IReadOnlyList<IReadOnlyList<(string Name, BigInteger Value)>> RunAt { get; private init; } = [];

    public bool IsFound => Registers.Count > 0;

    public bool IsComplete { get; private init; } = true;

    /// <summary>Null where the two have not the same operands and results, or no widths at which both can be.</summary>
    public static Led? Of(
        Datapath from,
        Datapath to,
        int depth,
        IPlaneEngine engine,
        Vocabulary words,
        Func<bool> isSpent
    )
    {
        var workshop = new Workshop(from.Machine, ReasonWords.Names(from.Machine, words));
        var sets = new List<CaseSet>();
        foreach (var cases in workshop.Cases)
        {
            if (Settings.Same(to.Machine, cases.Datapath) is not { } there)
            {
                continue;
            }
            if (!IsLike(cases.Datapath, there))
            {
                return null;
            }
            if (cases.FirstApart(there) is { } operands)
            {
                return Parted(from, to, cases.Datapath, there, [.. operands.Select(o => (BigInteger)o)], cases.IsAll);
            }
            sets.Add(cases);
        }
        if (sets.Count == 0)
        {
            return null;
        }
        IReadOnlyList<CaseSet> compared = [.. CaseSet.Telling(sets).Take(RegisterTraces.MostSets)];
        var wanted = RegisterTraces.Of(to.Machine, compared);
        var search = Search.Of(
            workshop,
            from,
            depth,
            isSpent,
            v =>
                wanted is not null
                && RegisterTraces.Of(v.Machine, compared) is { } has
                && Paired(wanted, has) is not null
        );
        if (search.Found is { } version && new Proposing(from, engine, words).Steps(version) is { } steps)
        {
            var run = Exhausted.Of(to.Machine, from.Machine, engine);
            if (run.Fails is var (there, operands))
            {
                var parted = Parted(from, to, Settings.Same(from.Machine, there)!, there, operands, isSmallest: true);
                // Where they give the same it is a law of the other machine that does not hold.
                return parted.Parts!.Given.SequenceEqual(parted.Parts.GivenThere)
                    ? new Led
                    {
                        From = from,
                        To = to,
                        Breaks = (there, operands),
                    }
                    : parted;
            }
            return new Led
            {
                From = from,
                To = to,
                Steps = steps,
                Registers = Paired(wanted!, RegisterTraces.Of(version.Machine, compared)!)!,
                ComparedAt = [.. compared.Select(c => c.Datapath.Widths)],
                ComparedAll = compared.All(c => c.IsAll),
                RunAt = run.Widths,
            };
        }
        return new Led
        {
            From = from,
            To = to,
            IsComplete = search.IsComplete,
        };
    }

    /// <summary>The same operands in the same order, and the same results, each of the same width and sign.</summary>
    private static bool IsLike(Datapath from, Datapath to) =>
        from.Operands.Select(o => o.Name).SequenceEqual(to.Operands.Select(o => o.Name))
        && from.Results.Select(r => r.Name).SequenceEqual(to.Results.Select(r => r.Name))
        && !Lineage.Differences(from, to).Any();

    /// <summary>Which registers hold the same; null where one has no partner.</summary>
    private static List<(string There, string Here)>? Paired(
        IReadOnlyList<(string Register, ulong Trace)> there,
        IReadOnlyList<(string Register, ulong Trace)> here
    )
    {
        var left = here.ToList();
        var pairs = new List<(string, string)>();
        foreach (var (register, trace) in there)
        {
            var at = left.FindIndex(h => h.Trace == trace);
            if (at < 0)
            {
                return null;
            }
            pairs.Add((register, left[at].Register));
            left.RemoveAt(at);
        }
        return left.Count == 0 ? pairs : null;
    }

    private static Led Parted(
        Datapath from,
        Datapath to,
        Datapath here,
        Datapath there,
        IReadOnlyList<BigInteger> bits,
        bool isSmallest
    ) =>
        new()
        {
            From = from,
            To = to,
            IsSmallest = isSmallest,
            Parts = new Parting(here, there, bits, Results(here, bits), Results(there, bits)),
        };

    private static IReadOnlyList<BigInteger> Results(Datapath datapath, IReadOnlyList<BigInteger> operands) =>
        [.. Proving.Trials.Results(datapath, operands).Select((bits, i) => datapath.Results[i].Number(bits))];
}
