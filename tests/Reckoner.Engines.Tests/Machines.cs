using System.Numerics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Engines.Tests;

/// <summary>Machines at a width, and what the word-by-word walk says about all their operands.</summary>
internal static class Machines
{
    public static Datapath At(string name, int width) => At(MachineCatalogue.Find(name)!, width);

    public static Datapath At(Source source, int? width)
    {
        var (datapath, found) = Machine.Read(source, MachineCatalogue.Find).At(width);
        Assert.True(datapath is not null, string.Join("\n", found.Select(d => d.ToString())));
        return datapath;
    }

    /// <summary>A machine of the catalogue at the largest width at which its operands have so many bits at most.</summary>
    public static Datapath? Within(string name, int mostBits)
    {
        var machine = Machine.Read(MachineCatalogue.Find(name)!, MachineCatalogue.Find);
        return Enumerable
            .Range(1, 8)
            .Select(width => machine.At(width).Datapath)
            .LastOrDefault(d => d is not null && d.Operands.Sum(o => o.Width) <= mostBits);
    }

    /// <summary>Cases and failures of "laws" and, where something is stated, "outside".</summary>
    public static IReadOnlyList<SectionCount> Walked(Datapath datapath)
    {
        var space = new CaseSpace(datapath.Operands);
        var sections =
            datapath.Outside.Count > 0 ? new[] { CheckSection.Laws, CheckSection.Outside } : [CheckSection.Laws];
        var counts = sections.ToDictionary(s => s, s => new SectionCount(s, 0, 0, null));
        for (long step = 0; step < space.Steps; step++)
        {
            for (var lane = 0; lane < space.Lanes; lane++)
            {
                var operands = space.At(step, lane);
                var walk = Walk.Of(datapath, operands);
                var section = walk.IsGiven ? CheckSection.Laws : CheckSection.Outside;
                if (counts.TryGetValue(section, out var count))
                {
                    counts[section] = count + Case(section, datapath, operands, walk.Holds);
                }
            }
        }
        return [.. counts.Values];
    }

    private static SectionCount Case(CheckSection section, Datapath datapath, BigInteger[] operands, bool holds) =>
        new(section, 1, holds ? 0 : 1, holds ? null : new FailingCase(operands, Rank.Of(datapath.Operands, operands)));

    /// <summary>One line that two engines must agree on.</summary>
    public static string Line(IEnumerable<SectionCount> counts) =>
        string.Join(
            "; ",
            counts.Select(c =>
                $"{c.Name} {c.Cases} cases, {c.Failures} failures"
                + (c.Smallest is { } s ? $", smallest {string.Join(" ", s.Operands)}" : "")
            )
        );
}
