using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>Bits that are seen to be 0 after every clock edge, or to repeat the sign, become constants, and what adds them narrower.</summary>
internal static class NarrowMove
{
    public static IEnumerable<Candidate> Of(Workshop workshop, Draft draft) =>
        new Func<Workshop, Draft, Candidate?>[] { OfZeros, OfSigns, OfBegins }.SelectMany(narrow =>
            Candidate.IfPossible(() => narrow(workshop, draft))
        );

    /// <summary>What of a register goes.</summary>
    /// <param name="Above">What stands for its upper bits.</param>
    /// <param name="Left">How many bits stay; with none there is no register any more.</param>
    /// <param name="Lower">How many zeros stand below them.</param>
    private sealed record Narrower(Piece[] Above, Length Left, Length Lower, Reason Reason);

    /// <summary>Null where no bit is 0 throughout.</summary>
    public static Candidate? OfZeros(Workshop workshop, Draft draft)
    {
        return Of(workshop, draft, Known);

        Narrower? Known(string name, Length width)
        {
            var (upper, lower) = workshop.Seen(draft).Zeros(name, Observed.Moments.All);
            var left = width - upper - lower;
            return upper == 0 && lower == 0 ? null
                : workshop.Sign(left) == 0
                    ? new(
                        Composer.Zeros(width),
                        0,
                        0,
                        new Reason(ReasonKind.RegisterZero, ("register", new RegisterNames(name)))
                    )
                : new(Composer.Zeros(upper), left, lower, OfBits(ReasonKind.BitsZero, name, upper, lower));
        }
    }

    private static Reason OfBits(ReasonKind kind, string register, Length upper, Length lower) =>
        new(kind, ("register", new RegisterNames(register)), ("upper", upper), ("lower", lower));

    /// <summary>Null where no bit repeats the sign.</summary>
    public static Candidate? OfSigns(Workshop workshop, Draft draft)
    {
        return Of(workshop, draft, Known);

        Narrower? Known(string name, Length width)
        {
            var (upper, lower) = workshop.Seen(draft).Zeros(name, Observed.Moments.All);
            var repeated = workshop.Seen(draft).Signs(name);
            var left = width - repeated - lower;
            return workshop.Sign(repeated) <= 0 || workshop.Sign(upper) != 0 || workshop.Sign(left) <= 0
                ? null
                : new(
                    [new CopiesPiece(new SlicePiece(name, left - 1, 1), repeated)],
                    left,
                    lower,
                    OfBits(ReasonKind.SignsRepeated, name, repeated, lower)
                );
        }
    }

    /// <summary>Every register that has something to lose without it; null where none has.</summary>
    /// <param name="narrower">By a register's name and width; null where nothing of it goes.</param>
    private static Candidate? Of(Workshop workshop, Draft draft, Func<string, Length, Narrower?> narrower)
    {
        var composer = workshop.Composer(draft);
        var instead = new Dictionary<string, Piece[]>();
        var registers = new List<RegisterLine>();
        var reasons = new List<Reason>();
        foreach (var register in draft.Registers)
        {
            var name = register.Name.Text;
            var width = composer.Widths[name];
            if (register.Type.IsSigned || narrower(name, width) is not var (above, left, lower, reason))
            {
                registers.Add(register);
                continue;
            }
            reasons.Add(reason);
            if (workshop.Sign(left) == 0)
            {
                instead[name] = above;
                continue;
            }
            var loads = composer.Slice(composer.Read(register.Loads, width), lower, left);
            registers.Add(register with { Type = Make.Unsigned(left), Loads = composer.Loaded(loads, draft.Operands) });
            instead[name] = composer.Join(above, [new SlicePiece(name, 0, left)], Composer.Zeros(lower));
        }
        return instead.Count == 0
            ? null
            : new Candidate(MoveKind.Narrow, reasons, workshop.Rewritten(draft, registers, instead));
    }

    /// <summary>Bits that are 0 whenever a round begins, though not in the end: the round need not read them.</summary>
    public static Candidate? OfBegins(Workshop workshop, Draft draft)
    {
        if (draft.Loop is null || draft.Schedule.Count != 1)
        {
            return null;
        }
        var seen = workshop.Seen(draft);
        var composer = workshop.Composer(draft);
        var reading = new Dictionary<string, Piece[]>();
        var reasons = new List<Reason>();
        foreach (var register in draft.Registers.Where(r => !r.Type.IsSigned))
        {
            var name = register.Name.Text;
            var width = composer.Widths[name];
            var (upper, lower) = seen.Zeros(name, Observed.Moments.BeforeCycles);
            if ((upper, lower) == seen.Zeros(name, Observed.Moments.All) || workshop.Sign(width - upper - lower) <= 0)
            {
                continue;
            }
            reading[name] = composer.Join(
                Composer.Zeros(upper),
                [new SlicePiece(name, lower, width - upper - lower)],
                Composer.Zeros(lower)
            );
            reasons.Add(OfBits(ReasonKind.ZeroAtBegin, name, upper, lower));
        }
        return reading.Count == 0
            ? null
            : new Candidate(MoveKind.Narrow, reasons, workshop.Rewritten(draft, draft.Registers, null, reading));
    }
}
