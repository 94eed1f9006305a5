using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Reporting;

internal sealed partial class WalkText
{
    private void Foot()
    {
        var count = words.Say(
            Datapath.MayStopEarly ? "walk.cycles-early" : "walk.cycles",
            ("count", walk.Cycles),
            ("most", Datapath.MostCycles)
        );
        Line(count);
        Line();
        var numbers = Datapath.Widths.ToDictionary(w => w.Name, w => w.Value);
        foreach (var operand in Datapath.Operands)
        {
            numbers[operand.Name] = operand.Number(walk.Operands[operand.Index]);
        }
        var nameWidth = Datapath.Results.Select(r => r.In(words.Language).Length).DefaultIfEmpty(0).Max();
        foreach (var (result, bits) in Datapath.Results.Zip(walk.Results))
        {
            numbers[result.Name] = result.Number(bits);
            Number(result.In(words.Language).PadRight(nameWidth), result.Number(bits), Bits.Text(bits, result.Width));
        }
        Line();
        Claims(numbers);
    }

    private void Claims(Dictionary<string, BigInteger> numbers)
    {
        if (walk.Claims.Count == 0)
        {
            Filled(words.Say(walk.IsGiven ? "walk.no-laws" : "walk.outside-unstated"), 3, "   ");
            return;
        }
        if (!walk.IsGiven)
        {
            Line("   " + words.Say("walk.outside-stated"));
        }
        var width = walk.Claims.Max(c => Verdict(c).Length) + 3 + Gap;
        foreach (var claim in walk.Claims)
        {
            var said = ClaimText.Of(claim.Claim, Datapath, words);
            Filled(said, width, "   " + Verdict(claim));
            var applied = ClaimText.Applied(claim, numbers, Datapath, words);
            if (claim.Applies && applied != said)
            {
                Filled(applied, width);
            }
        }
    }

    private string Verdict(JudgedClaim claim) => words.Say(VerdictKey(claim));

    internal static string VerdictKey(JudgedClaim claim) =>
        claim switch
        {
            { Applies: false } => "walk.applies-not",
            { Holds: true } => "walk.holds",
            _ => "walk.broken",
        };
}
