using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>The single slips of statements and of the lists they stand in.</summary>
internal static class StatementSlips
{
    public static IEnumerable<Edit<IReadOnlyList<Statement>>> Of(IReadOnlyList<Statement> statements, Scope scope)
    {
        for (var i = 0; i < statements.Count; i++)
        {
            var at = i;
            foreach (var edit in Of(statements[i], scope))
            {
                yield return edit.Within(changed =>
                    (IReadOnlyList<Statement>)[.. statements.Take(at), .. changed, .. statements.Skip(at + 1)]
                );
            }
        }
    }

    /// <summary>What may stand in the place of one statement.</summary>
    private static IEnumerable<Edit<IReadOnlyList<Statement>>> Of(Statement statement, Scope scope) =>
        statement.Match(
            let: s => Of(s, scope),
            letCase: s => ArmSlips.Of(s, scope),
            transfer: s => Of(s, scope),
            branch: s => Of(s, scope),
            arms: s => ArmSlips.Of(s, scope),
            hold: _ => [],
            remark: _ => []
        );

    private static IEnumerable<Edit<IReadOnlyList<Statement>>> Of(LetLine s, Scope scope)
    {
        foreach (var edit in ValueSlips.Of(s.Value, s.Name.Text, scope))
        {
            yield return edit.Within(value => One(s with { Value = value, Says = SaidOf(value, s) }));
        }
        if (StaleCarry.Of(s, scope) is { } stale)
        {
            yield return stale;
        }
    }

    /// <summary>The words of a choice go with it.</summary>
    private static Says? SaidOf(Expression value, LetLine s) =>
        s.Value is Chosen && value is not Chosen && s.Says?.IsOfNumber == false ? null : s.Says;

    private static IEnumerable<Edit<IReadOnlyList<Statement>>> Of(TransferLine s, Scope scope)
    {
        var subject = string.Join(':', s.Targets.Select(t => Printer.Text(t)));
        yield return new(
            One(new HoldLine(s.Span, Comments.None)),
            "write-left-out",
            subject,
            s.Span,
            [("place", subject)]
        );
        foreach (var edit in ValueSlips.Of(s.Value, subject, scope))
        {
            yield return edit.Within(value => One(s with { Value = value }));
        }
        foreach (var edit in Misplaced(s, subject))
        {
            yield return edit;
        }
    }

    /// <summary>Places written one off.</summary>
    private static IEnumerable<Edit<IReadOnlyList<Statement>>> Misplaced(TransferLine s, string subject)
    {
        for (var i = 0; i < s.Targets.Count; i++)
        {
            if (s.Targets[i] is not Sliced place)
            {
                continue;
            }
            foreach (var (moved, by) in ValueSlips.Moved(place))
            {
                yield return new(
                    One(s with { Targets = Rewriting.With(s.Targets, i, moved) }),
                    "written-off-by-one",
                    subject,
                    place.Span,
                    [("place", Printer.Text(place)), ("by", by)]
                );
            }
        }
    }

    internal static IReadOnlyList<Statement> One(Statement statement) => [statement];

    private static IEnumerable<Edit<IReadOnlyList<Statement>>> Of(IfBlock s, Scope scope)
    {
        var condition = Printer.Text(s.Condition);
        Fact[] facts = [("condition", condition)];
        yield return new(s.Then, "guard-dropped", condition, s.Span, facts);
        yield return new(
            s.Otherwise ?? One(new HoldLine(s.Span, Comments.None)),
            "guard-never",
            condition,
            s.Span,
            facts
        );
        yield return new(
            One(s with { Condition = ValueSlips.Turned(s.Condition) }),
            "guard-turned",
            condition,
            s.Span,
            facts
        );
        foreach (
            var edit in ValueSlips
                .Of(s.Condition, condition, scope)
                .Where(e => e.Kind is not ("not-forgotten" or "question-turned"))
        )
        {
            yield return edit.Within(changed => One(s with { Condition = changed }));
        }
        foreach (var edit in Of(s.Then, scope))
        {
            yield return edit.Within(then => One(s with { Then = then }));
        }
        foreach (var edit in Of(s.Otherwise ?? [], scope))
        {
            yield return edit.Within(otherwise =>
                One(s with { Otherwise = otherwise, ElseIf = s.ElseIf && otherwise is [IfBlock] })
            );
        }
    }
}
