using System.Numerics;
using Reckoner.Checking;
using Reckoner.Claims;
using Reckoner.Conditions;
using Reckoner.Slips;

namespace Reckoner.Choosing;

/// <summary>Numbers that every case has, from tables of a bit per case.</summary>
internal static class CaseCounts
{
    /// <summary>In how many of the tables a case has its bit.</summary>
    public static int[] Of(IEnumerable<ulong[]> tables, int cases)
    {
        var counts = new int[cases];
        foreach (var table in tables)
        {
            foreach (var item in Numbers.BitSets.Items(table))
            {
                counts[item]++;
            }
        }
        return counts;
    }

    /// <summary>
    /// Decimal digits to write: those of all operands and results together, signs not counted.
    /// </summary>
    public static int[] Digits(Candidates candidates)
    {
        var gates = candidates.Gates;
        var formulas = gates.Formulas();
        var variables = candidates.Datapath.Variables.ToList();
        var literals = variables
            .SelectMany(v => Enumerable.Range(2, MostDigits(v) - 1).Select(d => (Variable: v, Digits: d)))
            .Select(d => formulas.Holds(ConditionFormulas.Digits(d.Variable, new Amount(Bound.AtLeast, d.Digits))))
            .ToList();
        var counts = Of(literals.Count == 0 ? [] : candidates.Ask(literals), candidates.Table.Size);
        return Array.ConvertAll(counts, c => c + variables.Count);
    }

    private static int MostDigits(Variable variable) => $"{BigInteger.One << variable.Width}".Length;

    /// <summary>For every slip the cases that expose it.</summary>
    public static IEnumerable<ulong[]> Exposing(
        Candidates candidates,
        IReadOnlyList<(Slip Slip, Datapaths.Datapath Datapath)> slips
    )
    {
        for (var at = 0; at < slips.Count; )
        {
            // Slips share a graph, and with it what they have in common, until it has grown large.
            var gates = MachineGates.Of(candidates.Datapath);
            var literals = new List<int>();
            while (at < slips.Count && gates.Graph.Gates.Count < SlipTables.GatesAtOnce)
            {
                literals.Add(SlipStudy.Exposing(gates, slips[at++].Datapath));
            }
            foreach (var table in candidates.Ask(gates, literals))
            {
                yield return table;
            }
        }
    }
}
