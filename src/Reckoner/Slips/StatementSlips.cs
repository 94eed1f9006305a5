using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>The single slips of statements and of the lists and moments they stand in.</summary>
internal static class StatementSlips
{
    private static readonly Span Nowhere = new(0, 0);

    /// <summary>Slips of a step's moments: of their statements, and of "then" itself.</summary>
    public static IEnumerable<Edit<IReadOnlyList<Moment>>> Of(IReadOnlyList<Moment> moments)
    {
        var wires = Wires(moments.SelectMany(m => m.Statements));
        for (var i = 0; i < moments.Count; i++)
        {
            var at = i;
            foreach (var edit in Of(moments[i].Statements, wires))
            {
                yield return edit.Within(statements =>
                    Rewriting.With(moments, at, moments[at] with { Statements = statements })
                );
            }
            if (i + 1 == moments.Count)
            {
                continue;
            }
            yield return Edit(Rewriting.Exchanged(moments, i), "moments-exchanged", "then", moments[i + 1], []);
            if (DecisionsKept(moments, i) is { } kept)
            {
                yield return Edit(kept, "moments-exchanged-kept", "then", moments[i + 1], []);
            }
            foreach (var edit in LookedAtLate(moments, i))
            {
                yield return edit;
            }
        }
    }

    private static Edit<IReadOnlyList<Moment>> Edit(
        IReadOnlyList<Moment> moments,
        string kind,
        string subject,
        Moment place,
        IReadOnlyList<Fact> facts
    ) => new(moments, kind, subject, place.Statements.Count > 0 ? place.Statements[0].Span : Nowhere, facts);

    /// <summary>Two moments exchanged, what the first looks at still looked at first; null when it looks at nothing.</summary>
    private static IReadOnlyList<Moment>? DecisionsKept(IReadOnlyList<Moment> moments, int i)
    {
        var lets = moments[i].Statements.Where(s => s is LetLine or LetCase).ToList();
        if (lets.Count == 0 || lets.Count == moments[i].Statements.Count)
        {
            return null;
        }
        var first = moments[i] with { Statements = [.. lets, .. moments[i + 1].Statements] };
        var second = moments[i + 1] with { Statements = [.. moments[i].Statements.Except(lets)] };
        return Rewriting.With(Rewriting.With(moments, i, first), i + 1, second);
    }

    /// <summary>A wire named after "then" instead of before it.</summary>
    private static IEnumerable<Edit<IReadOnlyList<Moment>>> LookedAtLate(IReadOnlyList<Moment> moments, int i)
    {
        for (var s = 0; s < moments[i].Statements.Count; s++)
        {
            if (moments[i].Statements[s] is not (LetLine or LetCase))
            {
                continue;
            }
            var let = moments[i].Statements[s];
            var before = moments[i] with { Statements = Rewriting.Without(moments[i].Statements, s) };
            var after = moments[i + 1] with { Statements = [let, .. moments[i + 1].Statements] };
            var name = let is LetLine line ? line.Name.Text : ((LetCase)let).Name.Text;
            var edited = Rewriting.With(Rewriting.With(moments, i, before), i + 1, after);
            yield return new Edit<IReadOnlyList<Moment>>(edited, "looked-at-late", name, let.Span, [("wire", name)]);
        }
    }

    /// <summary>The wires of statements, with whether they are a carry or borrow.</summary>
    private static Dictionary<string, bool> Wires(IEnumerable<Statement> statements)
    {
        var wires = new Dictionary<string, bool>();
        foreach (var statement in statements)
        {
            switch (statement)
            {
                case LetLine s:
                    wires[s.Name.Text] = false;
                    if (s.Second is not null)
                    {
                        wires[s.Second.Text] = true;
                    }
                    break;
                case LetCase s:
                    wires[s.Name.Text] = false;
                    break;
                case IfBlock s:
                    foreach (var (name, isCarry) in Wires(s.Then.Concat(s.Otherwise ?? [])))
                    {
                        wires[name] = isCarry;
                    }
                    break;
            }
        }
        return wires;
    }

    private static IEnumerable<Edit<IReadOnlyList<Statement>>> Of(
        IReadOnlyList<Statement> statements,
        IReadOnlyDictionary<string, bool> wires
    )
    {
        for (var i = 0; i < statements.Count; i++)
        {
            var at = i;
            foreach (var edit in Of(statements[i], wires))
            {
                yield return edit.Within(changed =>
                    (IReadOnlyList<Statement>)[.. statements.Take(at), .. changed, .. statements.Skip(at + 1)]
                );
            }
        }
    }

    /// <summary>What may stand in the place of one statement.</summary>
    private static IEnumerable<Edit<IReadOnlyList<Statement>>> Of(
        Statement statement,
        IReadOnlyDictionary<string, bool> wires
    )
    {
        switch (statement)
        {
            case LetLine s:
                foreach (var edit in ValueSlips.Of(s.Value, s.Name.Text, wires))
                {
                    yield return edit.Within(value => One(s with { Value = value }));
                }
                break;
            case LetCase s:
                foreach (var edit in Of(s, wires))
                {
                    yield return edit;
                }
                break;
            case TransferLine s:
                var subject = string.Join(':', s.Targets.Select(t => Printer.Text(t)));
                yield return new(
                    One(new HoldLine(s.Span, Comments.None)),
                    "write-left-out",
                    subject,
                    s.Span,
                    [("place", subject)]
                );
                foreach (var edit in ValueSlips.Of(s.Value, subject, wires))
                {
                    yield return edit.Within(value => One(s with { Value = value }));
                }
                break;
            case IfBlock s:
                foreach (var edit in Of(s, wires))
                {
                    yield return edit;
                }
                break;
            case CaseBlock s:
                foreach (var edit in Of(s, wires))
                {
                    yield return edit;
                }
                break;
        }
    }

    private static IReadOnlyList<Statement> One(Statement statement) => [statement];

    private static IEnumerable<Edit<IReadOnlyList<Statement>>> Of(IfBlock s, IReadOnlyDictionary<string, bool> wires)
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
        if (s.Otherwise is not null)
        {
            yield return new([.. s.Then, .. s.Otherwise], "both-branches", condition, s.Span, facts);
        }
        foreach (
            var edit in ValueSlips
                .Of(s.Condition, condition, wires)
                .Where(e => e.Kind is not ("not-forgotten" or "question-turned"))
        )
        {
            yield return edit.Within(changed => One(s with { Condition = changed }));
        }
        foreach (var edit in Of(s.Then, wires))
        {
            yield return edit.Within(then => One(s with { Then = then }));
        }
        foreach (var edit in Of(s.Otherwise ?? [], wires))
        {
            yield return edit.Within(otherwise =>
                One(s with { Otherwise = otherwise, ElseIf = s.ElseIf && otherwise is [IfBlock] })
            );
        }
    }

    private static IEnumerable<Edit<IReadOnlyList<Statement>>> Of(CaseBlock s, IReadOnlyDictionary<string, bool> wires)
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
                One(s with { Arms = arms }),
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
            var emptied = arm with { Body = One(new HoldLine(arm.Span, Comments.None)) };
            yield return new(
                One(s with { Arms = Rewriting.With(s.Arms, i, emptied) }),
                "arm-emptied",
                subject,
                arm.Span,
                [("label", label)]
            );
            foreach (var edit in Of(arm.Body, wires).Where(e => e.Kind != "write-left-out"))
            {
                yield return edit.Within(body =>
                    One(s with { Arms = Rewriting.With(s.Arms, at, arm with { Body = body }) })
                );
            }
        }
        foreach (var edit in ValueSlips.Of(s.Subject, subject, wires))
        {
            yield return edit.Within(changed => One(s with { Subject = changed }));
        }
    }

    private static IEnumerable<Edit<IReadOnlyList<Statement>>> Of(LetCase s, IReadOnlyDictionary<string, bool> wires)
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
                One(s with { Arms = arms }),
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
                    One(s with { Arms = Rewriting.With(s.Arms, i, emptied) }),
                    "arm-emptied",
                    s.Name.Text,
                    arm.Span,
                    [("label", label)]
                );
            }
            foreach (var edit in ValueSlips.Of(arm.Value, s.Name.Text, wires))
            {
                yield return edit.Within(value =>
                    One(s with { Arms = Rewriting.With(s.Arms, at, arm with { Value = value }) })
                );
            }
        }
        foreach (var edit in ValueSlips.Of(s.Subject, s.Name.Text, wires))
        {
            yield return edit.Within(changed => One(s with { Subject = changed }));
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
