using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>The upper or the lowest bit of a register is left out; whether any result depends on it, the trial says.</summary>
internal static class CutMove
{
    public static IEnumerable<Candidate> Of(Workshop workshop, Draft draft)
    {
        foreach (var register in draft.Registers.Where(r => !r.Type.IsSigned))
        {
            var name = register.Name.Text;
            var names = new RegisterNames(name);
            if (Length.Of(register.Type.Width) == 1)
            {
                yield return new Candidate(
                    MoveKind.Cut,
                    [new Reason(ReasonKind.RegisterUnused, ("register", names))],
                    workshop.Rewritten(
                        draft,
                        [.. draft.Registers.Where(r => r != register)],
                        new Dictionary<string, Piece[]> { [name] = Composer.Zeros(1) }
                    )
                );
                continue;
            }
            foreach (var isUpper in new[] { true, false })
            {
                yield return new Candidate(
                    MoveKind.Cut,
                    [new Reason(ReasonKind.BitUnused, ("register", names), ("end", isUpper ? "upper" : "lower"))],
                    Shortened(workshop, draft, register, isUpper)
                );
            }
        }
    }

    private static Draft Shortened(Workshop workshop, Draft draft, RegisterLine register, bool isUpper)
    {
        var composer = workshop.Composer(draft);
        var name = register.Name.Text;
        var left = composer.Widths[name] - 1;
        var loads = composer.Slice(composer.Read(register.Loads, left + 1), isUpper ? 0 : 1, left);
        var shorter = register with { Type = Make.Unsigned(left), Loads = composer.Loaded(loads, draft.Operands) };
        Piece[] rest = [new SlicePiece(name, 0, left)];
        return workshop.Rewritten(
            draft,
            [.. draft.Registers.Select(r => r == register ? shorter : r)],
            new Dictionary<string, Piece[]>
            {
                [name] = isUpper ? composer.Join(Composer.Zeros(1), rest) : composer.Join(rest, Composer.Zeros(1)),
            }
        );
    }
}
