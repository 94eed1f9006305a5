using System.Numerics;
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

    /// <summary>The versions on the way, each run with every operand; the last holds the same as the other machine throughout.</summary>
    public IReadOnlyList<Proposal> Steps { get; private init; } = [];

    /// <summary>Each register of the other machine, and the one that holds the same in the end of the way; empty where there is no way.</summary>
    public IReadOnlyList<(string There, string Here)> Registers { get; private init; } = [];

    public bool IsFound => Registers.Count > 0;

    public bool IsComplete { get; private init; } = true;

    public static Led Of(
        Datapath from,
        Datapath to,
        int depth,
        IPlaneEngine engine,
        Vocabulary words,
        Func<bool> isSpent
    )
    {
        var workshop = new Workshop(from.Machine, ReasonWords.Names(from.Machine, words));
        if (Parted(workshop, to.Machine) is { } parts)
        {
            return new Led
            {
                From = from,
                To = to,
                Parts = parts,
            };
        }
        var search = Search.Of(workshop, from, depth, isSpent);
        if (RegisterTraces.Of(to.Machine, workshop.Cases) is { } wanted)
        {
            foreach (var version in search.Versions)
            {
                if (
                    RegisterTraces.Of(version.Machine, workshop.Cases) is { } found
                    && Paired(wanted, found) is { } pairs
                    && Refinery.Steps(version, from, engine, words) is { } steps
                )
                {
                    return new Led
                    {
                        From = from,
                        To = to,
                        Steps = steps,
                        Registers = pairs,
                        IsComplete = search.IsComplete,
                    };
                }
            }
        }
        return new Led
        {
            From = from,
            To = to,
            IsComplete = search.IsComplete,
        };
    }

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

    /// <summary>The smallest operands that tell them apart, at the least width that has any.</summary>
    private static Parting? Parted(Workshop workshop, IMachine other)
    {
        foreach (var cases in workshop.Cases)
        {
            if (cases.FirstApart(other) is var (there, operands))
            {
                BigInteger[] bits = [.. operands.Select(o => (BigInteger)o)];
                return new Parting(cases.Datapath, there, bits, Results(cases.Datapath, bits), Results(there, bits));
            }
        }
        return null;
    }

    private static IReadOnlyList<BigInteger> Results(Datapath datapath, IReadOnlyList<BigInteger> operands) =>
        [.. Proving.Trials.Results(datapath, operands).Select((bits, i) => datapath.Results[i].Number(bits))];
}
