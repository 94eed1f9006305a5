using System.Numerics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// Machines at chosen widths, walked with operands given as numbers. A name with a slash is a description below tests/cases,
/// any other one of the catalogue.
/// </summary>
internal static class Walks
{
    public static Datapath At(string machine, int width) => Machines.Bound(Read(Text(machine)), width);

    /// <summary>The same with a slip, if one is named.</summary>
    public static Datapath At(string machine, string? slip, int width) =>
        slip is null
            ? At(machine, width)
            : Machines.Bound(Slip.Of(Read(Text(machine))).Single(s => s.Name == slip).Machine, width);

    /// <summary>At the widths that the description itself sets.</summary>
    public static Datapath At(string machine) => Machines.Bound(Read(Text(machine)));

    /// <summary>A machine with one stretch of its text replaced; the stretch must be there once.</summary>
    public static Datapath Edited(string machine, string stretch, string replacement, int width)
    {
        var source = Text(machine);
        Assert.Equal(2, source.Text.Split(stretch).Length);
        return Machines.Bound(Read(new Source(source.Name, source.Text.Replace(stretch, replacement))), width);
    }

    public static Machine Read(Source source) => Machine.Read(source, MachineCatalogue.Find);

    public static Source Text(string machine)
    {
        var slash = machine.LastIndexOf('/');
        var file = machine[(slash + 1)..] + ".machine";
        return slash < 0 ? MachineCatalogue.Find(machine)! : new Source(file, CaseFiles.Read(machine[..slash], file));
    }

    public static Walk Of(Datapath datapath, params IReadOnlyList<BigInteger> operands) =>
        Walk.Of(datapath, [.. datapath.Operands.Select(o => Bits.Wrap(operands[o.Index], o.Width))]);

    public static BigInteger Result(this Walk walk, string name)
    {
        var index = walk.Datapath.Results.ToList().FindIndex(r => r.Name == name);
        return walk.Datapath.Results[index].Number(walk.Results[index]);
    }

    /// <summary>The numbers that an operand can be, in order.</summary>
    public static IEnumerable<BigInteger> Range(Operand operand)
    {
        var low = operand.IsSigned ? -(BigInteger.One << (operand.Width - 1)) : 0;
        for (var number = low; number <= low + Bits.Mask(operand.Width); number++)
        {
            yield return number;
        }
    }

    /// <summary>Every pair of operands of a machine that takes two.</summary>
    public static IEnumerable<(BigInteger First, BigInteger Second)> Pairs(Datapath datapath) =>
        from first in Range(datapath.Operands[0])
        from second in Range(datapath.Operands[1])
        select (first, second);
}
