using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;

namespace Reckoner.Questions;

/// <summary>Whether the operands that a machine is for can be told by gates, which questions over all operands need.</summary>
internal static class GatesOfGiven
{
    /// <summary>If not, the findings say so.</summary>
    public static bool Lack(Datapath datapath, Findings found)
    {
        if (CheckProgram.GivenBeyondGates(datapath) is not { } given)
        {
            return false;
        }
        found.Add(
            Id.GivenBeyondGates,
            AskedPart.Machine,
            0,
            ("formula", $"{given}"),
            ("width", AskedWord.Width),
            ("check", AskedWord.Check)
        );
        return true;
    }
}
