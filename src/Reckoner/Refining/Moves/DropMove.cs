using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>Cycles and registers whose work is known beforehand.</summary>
internal static class DropMove
{
    public static IEnumerable<Candidate> Of(Workshop workshop, Draft draft) =>
        new Func<Workshop, Draft, IEnumerable<Candidate>>[]
        {
            Rotated,
            FirstRound,
            Repeated,
            LastWired,
            FirstWired,
        }.SelectMany(drop => Candidate.IfPossible(() => drop(workshop, draft)));

    /// <summary>A, then B unless it is the last round: where A does nothing in the first, the rounds may begin with B, one fewer.</summary>
    private static IEnumerable<Candidate> Rotated(Workshop workshop, Draft draft)
    {
        if (
            draft.Round is { Moments: { Count: >= 2 } moments }
            && moments[^1].Statements is [IfBlock { Otherwise: null } last]
            && Make.Bare(last.Condition) is Unary { Operator: UnaryOperator.Not } not
            && Make.IsLast(not.Operand)
        )
        {
            var rotated = draft.WithRound([last.Then, .. moments.SkipLast(1).Select(m => m.Statements)]);
            yield return new Candidate(
                MoveKind.Drop,
                [new Reason(ReasonKind.Rotated)],
                workshop.Fitted(Shorter(rotated))
            );
        }
    }

    private static Draft Shorter(Draft draft) =>
        draft.With(draft.Loop! with { Count = (Length.Of(draft.Loop.Count) - 1).Written() });

    /// <summary>Registers are loaded as the first round leaves them: shifted once, or as they are.</summary>
    private static IEnumerable<Candidate> FirstRound(Workshop workshop, Draft draft)
    {
        if (draft.Loop is null)
        {
            yield break;
        }
        var shifts = draft
            .Registers.Select(r =>
                (
                    Register: r,
                    Shift: Writing
                        .Of(draft, r.Name.Text)
                        .Select(w => Shift.Of(w.Transfer))
                        .LastOrDefault(s => s?.IsOf(r.Name.Text) == true)
                )
            )
            .Where(s => s.Shift is not null)
            .ToDictionary(s => s.Register, s => s.Shift!);
        IEnumerable<int?> bits = shifts.Count > 0 ? [0, 1, null] : [null];
        foreach (var bit in bits)
        {
            var loaded = draft;
            if (bit is { } enters)
            {
                loaded = draft with
                {
                    Registers =
                    [
                        .. draft.Registers.Select(r =>
                            shifts.TryGetValue(r, out var shift) ? Loaded(workshop, draft, r, shift, enters) : r
                        ),
                    ],
                };
            }
            var reason = IsKnown(bit) ? ReasonKind.FirstKnown : ReasonKind.RoundLess;
            yield return new Candidate(MoveKind.Drop, [new Reason(reason)], Shorter(loaded));
        }

        // Whether the first round was seen to leave for all operands what is loaded now.
        bool IsKnown(int? bit)
        {
            var seen = workshop.Seen(draft);
            return draft.Schedule[0] is RepeatBlock { Steps.Count: 1 }
                && draft.Registers.All(r =>
                    bit is { } enters && shifts.TryGetValue(r, out var shift)
                        ? shift.Distance == 1
                            && seen.IsShiftedAtFirst(r.Name.Text, shift.IsLeft, Make.IsZero(shift.Enters) ? 0 : enters)
                        : seen.StaysAtFirst(r.Name.Text)
                );
        }
    }

    private static RegisterLine Loaded(Workshop workshop, Draft draft, RegisterLine register, Shift shift, int enters)
    {
        var composer = workshop.Composer(draft);
        var value = Make.Call(
            shift.Function,
            register.Loads,
            Make.IsZero(shift.Enters) ? shift.Enters : Make.Number(enters)
        );
        return register with
        {
            Loads = composer.Loaded(composer.Read(value, Length.Of(register.Type.Width)), draft.Operands),
        };
    }

    /// <summary>A register that always holds what another does.</summary>
    private static IEnumerable<Candidate> Repeated(Workshop workshop, Draft draft)
    {
        var seen = workshop.Seen(draft);
        foreach (var (one, other) in draft.Registers.SelectMany((r, i) => draft.Registers.Take(i).Select(o => (r, o))))
        {
            var (name, kept) = (one.Name.Text, other.Name.Text);
            if (
                !seen.IsEmpty
                && one.Type.IsSigned == other.Type.IsSigned
                && Length.Of(one.Type.Width) == Length.Of(other.Type.Width)
                && seen.AreSame(name, kept)
            )
            {
                yield return new Candidate(
                    MoveKind.Drop,
                    [
                        new Reason(
                            ReasonKind.Repeated,
                            ("register", new RegisterNames(name)),
                            ("other", new RegisterNames(kept))
                        ),
                    ],
                    workshop.Rewritten(
                        draft,
                        [.. draft.Registers.Where(r => r != one)],
                        new Dictionary<string, Piece[]> { [name] = workshop.Composer(draft).Whole(kept) }
                    )
                );
            }
        }
    }

    /// <summary>A cycle behind the loop that only moves bits: the results do it without a cycle.</summary>
    private static IEnumerable<Candidate> LastWired(Workshop workshop, Draft draft)
    {
        if (draft.Loop is null || draft.Schedule[^1] is not StepBlock last)
        {
            yield break;
        }
        var composer = workshop.Composer(draft);
        var held = draft.Registers.ToDictionary(r => r.Name.Text, r => composer.Whole(r.Name.Text));
        if (Moved(composer, last, held) is not { } words)
        {
            yield break;
        }
        foreach (var (name, word) in words)
        {
            composer.Instead[name] = word;
        }
        var wired = draft with
        {
            Schedule = [.. draft.Schedule.SkipLast(1)],
            Results = [.. draft.Results.Select(r => r with { Value = Workshop.Ending(composer, r.Value) })],
        };
        yield return Wired(workshop, wired, ReasonKind.LastWired, last);
    }

    /// <summary>A cycle before the loop that only moves bits: the load does it without a cycle.</summary>
    private static IEnumerable<Candidate> FirstWired(Workshop workshop, Draft draft)
    {
        if (draft.Loop is null || draft.Schedule[0] is not StepBlock first)
        {
            yield break;
        }
        var composer = workshop.Composer(draft);
        var loads = draft.Registers.ToDictionary(
            r => r.Name.Text,
            r => composer.Read(r.Loads, composer.Widths[r.Name.Text])
        );
        if (Moved(composer, first, loads) is not { } words)
        {
            yield break;
        }
        var wired = draft with
        {
            Schedule = [.. draft.Schedule.Skip(1)],
            Registers =
            [
                .. draft.Registers.Select(r => r with { Loads = composer.Loaded(words[r.Name.Text], draft.Operands) }),
            ],
        };
        yield return Wired(workshop, wired, ReasonKind.FirstWired, first);
    }

    private static Candidate Wired(Workshop workshop, Draft wired, ReasonKind reason, StepBlock step) =>
        new(
            MoveKind.Drop,
            [new Reason(reason, ("step", step.Name?.Text ?? ""))],
            workshop.Rewritten(wired, wired.Registers)
        );

    /// <summary>What registers hold after a step that only moves bits; null where it does anything else.</summary>
    private static Dictionary<string, Piece[]>? Moved(
        Composer composer,
        StepBlock step,
        Dictionary<string, Piece[]> words
    )
    {
        foreach (var moment in step.Moments)
        {
            var next = new Dictionary<string, Piece[]>(words);
            foreach (var statement in moment.Statements)
            {
                if (statement is not TransferLine transfer)
                {
                    return null;
                }
                composer.Instead.Clear();
                var places = composer.Places(transfer.Targets);
                foreach (var (name, held) in words)
                {
                    composer.Instead[name] = held;
                }
                var word = composer.Read(transfer.Value, Composer.WidthOf(places), transfer.Via);
                composer.Instead.Clear();
                if (word.Any(p => p is not (ConstantPiece or SlicePiece)))
                {
                    return null;
                }
                foreach (var (at, gets) in composer.Aligned(places, word))
                {
                    var place = Composer.PlaceOf(at[0]);
                    var old = next[place.Name];
                    next[place.Name] = composer.Join(
                        composer.Slice(old, place.End, Composer.WidthOf(old) - place.End),
                        gets,
                        composer.Slice(old, 0, place.Low)
                    );
                }
            }
            words = next;
        }
        return words;
    }
}
