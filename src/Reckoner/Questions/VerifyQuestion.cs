using Reckoner.Proving;
using Reckoner.Verifier;

namespace Reckoner.Questions;

/// <summary>Does a certificate show what it says it shows of this machine?</summary>
/// <param name="Certificate">Its text.</param>
internal sealed record VerifyQuestion(AskedMachine Machine, string Certificate)
{
    public Answer<Verified> Ask()
    {
        var found = new Findings();
        if (Machine.Bound(0, found) is not { } datapath)
        {
            return found.Refused<Verified>();
        }
        var machine = datapath.Machine;
        var verdict = Verification.Of(CanonicalTree.Of(machine), machine.Hash, Certificate);
        return found.Given(
            new Verified(
                machine,
                verdict,
                [.. verdict.Laws.Select(l => datapath.Laws[l])],
                [.. verdict.Outside.Select(o => datapath.Outside[o])]
            )
        );
    }
}
