using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Slips;

namespace Reckoner.Questions;

/// <summary>How long it takes to try all slips of a machine, before they are made: each is the whole machine once more.</summary>
internal static class SlipsWork
{
    /// <summary>Some minutes of making gates.</summary>
    private const long MostGates = 1 << 27;

    /// <summary>To read, bind and walk a moment takes as long as making so many gates.</summary>
    private const int GatesOfMoment = 16;

    /// <summary>Whether it would be too long; then the findings say how long.</summary>
    public static bool IsTooMuch(Datapath datapath, Means means, Findings found)
    {
        var gates = MachineGates.Of(datapath).Graph.Gates.Count;
        var slips = Slip.Most(datapath.Machine);
        if ((gates + GatesOfMoment * datapath.Moments) * slips <= MostGates)
        {
            return false;
        }
        TryOne(datapath);
        var began = means.Clock();
        TryOne(datapath);
        found.Add(
            Id.SlipsTooLong,
            AskedPart.Widths,
            0,
            ("slips", slips),
            ("widths", WidthText.Of(datapath.Widths)),
            ("gates", gates),
            ("time", TimeTaken.Of((means.Clock() - began).TotalSeconds * slips)),
            ("advice", (IReadOnlyList<Advice>)[new Advice(AdviceKind.Narrower)])
        );
        return true;
    }

    /// <summary>What is done for a slip, done for the machine itself.</summary>
    private static void TryOne(Datapath datapath)
    {
        datapath.Machine.Built(datapath.Widths.ToDictionary(w => w.Name, w => w.Value));
        _ = MachineGates.Of(datapath);
        _ = Walk.Of(datapath, [.. datapath.Operands.Select(_ => BigInteger.One)]);
    }
}
