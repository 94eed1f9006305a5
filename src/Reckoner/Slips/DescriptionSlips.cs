using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>The single slips of a whole description, each the description with one thing changed.</summary>
internal static class DescriptionSlips
{
    private static readonly Span Nowhere = new(0, 0);
    private static readonly Dictionary<string, bool> NoWires = [];

    public static IEnumerable<Edit<Description>> Of(Description description)
    {
        var lines = description.Declarations;
        for (var i = 0; i < lines.Count; i++)
        {
            var at = i;
            foreach (var edit in Of(lines[i]))
            {
                yield return edit.Within(changed =>
                    description with
                    {
                        Declarations = Rewriting.With(lines, at, changed),
                    }
                );
            }
            if (lines[i] is StepBlock step)
            {
                yield return new(
                    description with
                    {
                        Declarations = Rewriting.Without(lines, i),
                    },
                    "step-left-out",
                    step.Name!.Text,
                    step.Span,
                    [("step", step.Name.Text)]
                );
                if (i + 1 < lines.Count && lines[i + 1] is StepBlock next)
                {
                    var exchanged = description with { Declarations = Rewriting.Exchanged(lines, i) };
                    yield return new(
                        exchanged,
                        "steps-exchanged",
                        step.Name.Text,
                        step.Span,
                        [("step", step.Name.Text), ("other", next.Name!.Text)]
                    );
                }
            }
        }
        foreach (var register in lines.OfType<RegisterLine>())
        {
            yield return new(
                Narrow.Of(description, register),
                "register-narrow",
                register.Name.Text,
                register.Span,
                [("register", register.Name.Text)]
            );
        }
    }

    private static IEnumerable<Edit<Declaration>> Of(Declaration line)
    {
        switch (line)
        {
            case RegisterLine d:
                if (d.Loads is NumberLiteral { Number: var number })
                {
                    var other = new NumberLiteral(d.Loads.Span, number.IsZero ? "1" : "0");
                    yield return new(
                        d with
                        {
                            Loads = other,
                        },
                        "starts-otherwise",
                        d.Name.Text,
                        d.Span,
                        [("register", d.Name.Text), ("number", other.Text)]
                    );
                }
                foreach (var edit in ValueSlips.Of(d.Loads, d.Name.Text, NoWires))
                {
                    yield return edit.Within(loads => (Declaration)(d with { Loads = loads }));
                }
                break;
            case RepeatBlock d:
                foreach (var edit in Of(d))
                {
                    yield return edit;
                }
                break;
            case StepBlock d:
                foreach (var edit in StatementSlips.Of(d.Moments))
                {
                    yield return edit.Within(moments => (Declaration)(d with { Moments = moments }));
                }
                break;
            case TableBlock d:
                for (var row = 0; row < d.Rows.Count; row++)
                {
                    if (d.Rows[row].Value is not NumberLiteral { Number.IsZero: true })
                    {
                        var emptied = d.Rows[row] with { Value = new NumberLiteral(d.Rows[row].Value.Span, "0") };
                        yield return new(
                            d with
                            {
                                Rows = Rewriting.With(d.Rows, row, emptied),
                            },
                            "row-emptied",
                            d.Name.Text,
                            d.Rows[row].Span,
                            [("table", d.Name.Text)]
                        );
                    }
                    if (d.Rows[row].Condition is not null)
                    {
                        yield return new(
                            d with
                            {
                                Rows = Rewriting.Without(d.Rows, row),
                            },
                            "row-left-out",
                            d.Name.Text,
                            d.Rows[row].Span,
                            [("table", d.Name.Text)]
                        );
                    }
                }
                break;
        }
    }

    private static IEnumerable<Edit<Declaration>> Of(RepeatBlock d)
    {
        var subject = Printer.Text(d.Count);
        foreach (
            var (op, kind) in new[] { (BinaryOperator.Add, "loop-longer"), (BinaryOperator.Subtract, "loop-shorter") }
        )
        {
            var count = new Binary(d.Count.Span, op, d.Count, new NumberLiteral(Nowhere, "1"));
            yield return new(d with { Count = count }, kind, "repeat", d.Span, [("count", subject)]);
        }
        if (d.While is not null)
        {
            foreach (var edit in ValueSlips.Of(d.While, "while", NoWires))
            {
                yield return edit.Within(condition => (Declaration)(d with { While = condition }));
            }
        }
        for (var i = 0; i < d.Steps.Count; i++)
        {
            var at = i;
            foreach (var edit in StatementSlips.Of(d.Steps[i].Moments))
            {
                yield return edit.Within(moments =>
                    (Declaration)(
                        d with
                        {
                            Steps = Rewriting.With(d.Steps, at, d.Steps[at] with { Moments = moments }),
                        }
                    )
                );
            }
            if (d.Steps[i].Name is not { } name)
            {
                continue;
            }
            if (d.Steps.Count > 1)
            {
                yield return new(
                    d with
                    {
                        Steps = Rewriting.Without(d.Steps, i),
                    },
                    "step-left-out",
                    name.Text,
                    d.Steps[i].Span,
                    [("step", name.Text)]
                );
            }
            if (i + 1 < d.Steps.Count)
            {
                Fact[] facts = [("step", name.Text), ("other", d.Steps[i + 1].Name!.Text)];
                yield return new(
                    d with
                    {
                        Steps = Rewriting.Exchanged(d.Steps, i),
                    },
                    "steps-exchanged",
                    name.Text,
                    d.Steps[i].Span,
                    facts
                );
            }
        }
    }
}
