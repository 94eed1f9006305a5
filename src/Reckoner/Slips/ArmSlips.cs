using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>The single slips of a choice among arms, whether they hold statements or values.</summary>
internal static class ArmSlips
{
    public static IEnumerable<Edit<IReadOnlyList<Statement>>> Of(CaseBlock s, Scope scope)
    {
        var subject = Printer.Text(s.Subject);
        foreach (var (first, second) in Pairs(s.Arms.Count, i => s.Arms[i].Labels is not null))
        {
            var (a, b) = (s.Arms[first], s.Arms[second]);
            var arms = Rewriting.With(
                Rewriting.With(s.Arms, first, a with { Body = b.Body }),
                second,
                b with
                {
                    Body = a.Body,
                }
            );
            yield return new(
                StatementSlips.One(s with { Arms = arms }),
                "arms-exchanged",
                subject,
                a.Span,
                ArmFacts(a.Labels!, b.Labels!)
            );
        }
        for (var i = 0; i < s.Arms.Count; i++)
        {
            var (at, arm) = (i, s.Arms[i]);
            if (arm.Body is [HoldLine])
            {
                continue;
            }
            var label = arm.Labels is null ? "else" : Printer.Text(arm.Labels);
            var emptied = arm with { Body = StatementSlips.One(new HoldLine(arm.Span, Comments.None)) };
            yield return new(
                StatementSlips.One(s with { Arms = Rewriting.With(s.Arms, i, emptied) }),
                "arm-emptied",
                subject,
                arm.Span,
                [("label", label)]
            );
            foreach (var edit in StatementSlips.Of(arm.Body, scope).Where(e => e.Kind != "write-left-out"))
            {
                yield return edit.Within(body =>
                    StatementSlips.One(s with { Arms = Rewriting.With(s.Arms, at, arm with { Body = body }) })
                );
            }
        }
        foreach (var edit in ValueSlips.Of(s.Subject, subject, scope))
        {
            yield return edit.Within(changed => StatementSlips.One(s with { Subject = changed }));
        }
    }

    public static IEnumerable<Edit<IReadOnlyList<Statement>>> Of(LetCase s, Scope scope)
    {
        foreach (var (first, second) in Pairs(s.Arms.Count, i => s.Arms[i].Labels is not null))
        {
            var (a, b) = (s.Arms[first], s.Arms[second]);
            var arms = Rewriting.With(
                Rewriting.With(s.Arms, first, a with { Value = b.Value }),
                second,
                b with
                {
                    Value = a.Value,
                }
            );
            yield return new(
                StatementSlips.One(s with { Arms = arms }),
                "arms-exchanged",
                s.Name.Text,
                a.Span,
                ArmFacts(a.Labels!, b.Labels!)
            );
        }
        for (var i = 0; i < s.Arms.Count; i++)
        {
            var (at, arm) = (i, s.Arms[i]);
            var label = arm.Labels is null ? "else" : Printer.Text(arm.Labels);
            if (arm.Value is not NumberLiteral { Number.IsZero: true })
            {
                var emptied = arm with { Value = new NumberLiteral(arm.Value.Span, "0") };
                yield return new(
                    StatementSlips.One(s with { Arms = Rewriting.With(s.Arms, i, emptied) }),
                    "arm-emptied",
                    s.Name.Text,
                    arm.Span,
                    [("label", label)]
                );
            }
            foreach (var edit in ValueSlips.Of(arm.Value, s.Name.Text, scope))
            {
                yield return edit.Within(value =>
                    StatementSlips.One(s with { Arms = Rewriting.With(s.Arms, at, arm with { Value = value }) })
                );
            }
        }
        foreach (var edit in ValueSlips.Of(s.Subject, s.Name.Text, scope))
        {
            yield return edit.Within(changed => StatementSlips.One(s with { Subject = changed }));
        }
    }

    private static IReadOnlyList<Fact> ArmFacts(IReadOnlyList<Label> a, IReadOnlyList<Label> b) =>
        [("label", Printer.Text(a)), ("other", Printer.Text(b))];

    private static IEnumerable<(int First, int Second)> Pairs(int count, Func<int, bool> counts) =>
        from first in Enumerable.Range(0, count)
        from second in Enumerable.Range(first + 1, count - first - 1)
        where counts(first) && counts(second)
        select (first, second);
}
