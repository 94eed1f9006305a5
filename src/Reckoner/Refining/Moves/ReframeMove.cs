using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>
/// A register that is shifted one way in every round, and all it meets stands still: only where they stand to each other counts, so
/// the others may be shifted the other way and it stays. All become as wide as the way is long, which makes it right by
/// construction; what of it is never used, narrowing finds.
/// </summary>
internal static class ReframeMove
{
    public static IEnumerable<Candidate> Of(Workshop workshop, Draft draft)
    {
        if (draft.Round is not { } round)
        {
            yield break;
        }
        foreach (var moved in draft.Registers.Where(r => !r.Type.IsSigned))
        {
            if (
                Writing.Of(draft, moved.Name.Text) is not [{ Guards: [] } writing]
                || Shift.Of(writing.Transfer) is not { } shift
                || !shift.IsOf(moved.Name.Text)
                || !Make.IsZero(shift.Enters)
                || Met(draft, round, moved.Name.Text, writing.Transfer) is not { Count: > 0 } met
            )
            {
                continue;
            }
            foreach (var (unless, isSigned) in new[] { (true, false), (false, false), (false, true) })
            {
                if (isSigned && shift.Distance != 1)
                {
                    continue;
                }
                var reframed = Candidate.IfPossible(() =>
                    new Candidate(
                        MoveKind.Reframe,
                        [
                            new Reason(
                                unless ? ReasonKind.ReframedButLast : ReasonKind.Reframed,
                                ("moved", new RegisterNames(moved.Name.Text)),
                                ("others", new RegisterNames([.. met])),
                                ("way", shift.IsLeft ? "left" : "right")
                            ),
                        ],
                        Reframed(workshop, draft, moved, writing.Transfer, shift, met, unless, isSigned)
                    )
                );
                foreach (var candidate in reframed)
                {
                    yield return candidate;
                }
            }
        }
    }

    /// <summary>
    /// What a register meets in sums and comparisons, and whatever takes the outcome; null where one of these is shifted itself or
    /// known by its parts.
    /// </summary>
    private static SortedSet<string>? Met(Draft draft, StepBlock round, string moved, Statement own)
    {
        var registers = draft.Registers.Select(r => r.Name.Text).ToHashSet();
        var met = new SortedSet<string>(StringComparer.Ordinal);
        var touched = new HashSet<string> { moved };
        for (var pass = 0; pass < 2; pass++)
        {
            foreach (var statement in Statements.Of(round).Where(s => !ReferenceEquals(s, own)))
            {
                if (statement is LetLine let && Meets(let.Value))
                {
                    touched.Add(let.Name.Text);
                }
                if (
                    statement is TransferLine transfer
                    && (
                        Meets(transfer.Value)
                        || Statements.Mentions(transfer.Value, n => n != moved && touched.Contains(n))
                    )
                )
                {
                    met.UnionWith(
                        transfer.Targets.OfType<NameReference>().Select(t => t.Name).Where(registers.Contains)
                    );
                }
            }
        }
        var isPlain =
            met.All(m => !Writing.Of(draft, m).Any(w => Shift.Of(w.Transfer) is not null))
            && !draft.Parts.Any(p => Statements.Mentions(p.Slice, n => n == moved || met.Contains(n)));
        return isPlain ? met : null;

        bool Meets(Expression value)
        {
            var isOutcome = false;
            var sides =
                value
                    is Binary
                    {
                        Operator: BinaryOperator.Add
                            or BinaryOperator.Subtract
                            or BinaryOperator.Or
                            or BinaryOperator.Xor
                    }
                    ? value.Children
                : value is Comparison comparison ? comparison.Terms
                : [];
            if (sides.Any(s => Statements.Mentions(s, touched.Contains)))
            {
                met.UnionWith(
                    sides.OfType<NameReference>().Select(s => s.Name).Where(n => n != moved && registers.Contains(n))
                );
                isOutcome = value is Binary;
            }
            foreach (var child in value.Children)
            {
                isOutcome |= Meets(child);
            }
            return isOutcome;
        }
    }

    /// <param name="unless">Whether the last round does not shift.</param>
    /// <param name="isSigned">Whether what enters is the sign.</param>
    private static Draft Reframed(
        Workshop workshop,
        Draft draft,
        RegisterLine moved,
        Statement own,
        Shift shift,
        IReadOnlyCollection<string> met,
        bool unless,
        bool isSigned
    )
    {
        var (goesLeft, by) = (!shift.IsLeft, shift.Distance);
        var composer = workshop.Composer(draft);
        var way = Length.Of(draft.Loop!.Count) * by;
        var wide = met.Select(m => composer.Widths[m]).Aggregate(composer.Widths[moved.Name.Text], composer.Larger);
        wide += way;
        var shifts = met.Select(m =>
            (Statement)
                Make.Transfer(
                    [Make.Name(m)],
                    Make.Call(
                        goesLeft ? "shl" : "shr",
                        Make.Name(m),
                        isSigned && !goesLeft ? Make.Slice(Make.Name(m), wide - 1, 1) : shift.Enters
                    )
                )
        );
        IReadOnlyList<Statement> last = unless ? [Make.If(Make.Not(Make.Name("last")), [.. shifts])] : [.. shifts];
        var changed = draft with
        {
            Registers = [.. draft.Registers.Select(Widened)],
            Units = [.. draft.Units.Select(u => u with { Width = wide.Written() })],
        };
        changed = changed.WithRound([
            .. draft.Round!.Moments.Select(m => Mapping.Replaced(m.Statements, own, [])),
            last,
        ]);
        // Where what was at place 0 lies in the end.
        var shifted = unless ? way - by : way;
        var low = goesLeft ? shifted : way - shifted;
        var ending = workshop.Composer(changed);
        foreach (var name in met)
        {
            ending.Instead[name] = ending.Slice(ending.Whole(name), low, composer.Widths[name]);
        }
        return changed with
        {
            Results = [.. draft.Results.Select(r => r with { Value = Workshop.Ending(ending, r.Value) })],
        };

        RegisterLine Widened(RegisterLine register)
        {
            var name = register.Name.Text;
            if (name != moved.Name.Text && !met.Contains(name))
            {
                return register;
            }
            var width = composer.Widths[name];
            var loads = composer.Read(register.Loads, width);
            var below = goesLeft ? 0 : way;
            var above = wide - width - below;
            Piece top = isSigned
                ? composer.Slice(loads, width - 1, 1)[0] is var sign && sign is ConstantPiece constant
                    ? new ConstantPiece(constant.IsOne, above)
                    : new CopiesPiece(sign, above)
                : new ConstantPiece(false, above);
            return register with
            {
                Type = Make.Unsigned(wide),
                Loads = composer.Written(composer.Join([top], loads, Composer.Zeros(below))),
            };
        }
    }
}
