using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Refining;

/// <summary>The loop stops once a register is 0; whether the rounds that are left out would have changed a result, the trial says.</summary>
internal static class SkipMove
{
    public static IEnumerable<Candidate> Of(Draft draft)
    {
        if (draft.Round is not { } round || Statements.Of(round).SelectMany(Statements.Values).Any(ReadsLast))
        {
            yield break;
        }
        foreach (var register in draft.Registers.Where(r => Writing.Of(draft, r.Name.Text).Count > 0))
        {
            var name = register.Name.Text;
            var goesOn = Make.Compared(Make.Name(name), Relation.Unequal, Make.Number(0));
            yield return new Candidate(
                MoveKind.Skip,
                [new Reason(ReasonKind.StopsEarly, ("register", new RegisterNames(name)))],
                draft.With(draft.Loop! with { While = goesOn })
            );
        }
    }

    private static bool ReadsLast(Expression value) => Statements.Mentions(value, n => n == "last");
}
