using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Measuring;
using Reckoner.Running;
using Reckoner.Words;

namespace Reckoner.Page.State;

/// <summary>How two machines and their walks differ.</summary>
public static class Differences
{
    /// <summary>A register that both have, in a cycle in which it holds other bits in the second.</summary>
    public sealed record Bits(int Cycle, string Register);

    /// <summary>Registers of one name and width, cycle by cycle, as far as both walks go.</summary>
    public static IReadOnlyList<Bits> Between(Walk first, Walk second)
    {
        var shared = (
            from a in first.Datapath.Registers
            from b in second.Datapath.Registers
            where a.Name == b.Name && a.Width == b.Width
            select (a, b)
        ).ToList();
        return
        [
            .. from cycle in Enumerable.Range(0, Math.Min(first.Rows.Count, second.Rows.Count))
            from pair in shared
            where first.Rows[cycle].Registers[pair.a.Index] != second.Rows[cycle].Registers[pair.b.Index]
            select new Bits(cycle, pair.b.Name),
        ];
    }

    /// <summary>What each is built of and takes: a name and a number for either.</summary>
    public static IReadOnlyList<(string What, BigInteger First, BigInteger Second)> InHardware(
        Datapath first,
        Datapath second,
        Vocabulary words
    )
    {
        var (a, b) = (Hardware.Of(first), Hardware.Of(second));
        return
        [
            (words.Say("page.register-bits"), a.RegisterBits.Count, b.RegisterBits.Count),
            (words.Say("page.unit-bits"), UnitBits(a), UnitBits(b)),
            (words.Say("page.choice-bits"), a.ChoiceBits, b.ChoiceBits),
            (words.Say("page.most-cycles"), first.MostCycles, second.MostCycles),
        ];
    }

    private static int UnitBits(Hardware hardware) => hardware.Units.Sum(u => u.Size.Count);
}
