using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>The upper or the lowest bit of a register is left out; whether any result depends on it, the trial says.</summary>
internal static class CutMove
{
    /// <summary>The upper end of a register, and the lower.</summary>
    private static readonly bool[] Ends = [true, false];

    public static IEnumerable<Candidate> Of(Workshop workshop, Draft draft) =>
        draft
            .Registers.Where(r => !r.Type.IsSigned)
            .SelectMany(register =>
                Length.Of(register.Type.Width) == 1
                    ? Candidate.IfPossible(() => Without(workshop, draft, register))
                    : Ends.SelectMany(isUpper =>
                        Candidate.IfPossible(() => Shorter(workshop, draft, register, isUpper))
                    )
            );

    private static Candidate Without(Workshop workshop, Draft draft, RegisterLine register) =>
        new(
            MoveKind.Cut,
            [new Reason(ReasonKind.RegisterUnused, ("register", new RegisterNames(register.Name.Text)))],
            workshop.Rewritten(
                draft,
                [.. draft.Registers.Where(r => r != register)],
                new Dictionary<string, Piece[]> { [register.Name.Text] = Composer.Zeros(1) }
            )
        );

    private static Candidate Shorter(Workshop workshop, Draft draft, RegisterLine register, bool isUpper) =>
        new(
            MoveKind.Cut,
            [
                new Reason(
                    ReasonKind.BitUnused,
                    ("register", new RegisterNames(register.Name.Text)),
                    ("end", isUpper ? "upper" : "lower")
                ),
            ],
            Shortened(workshop, draft, register, isUpper)
        );

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
