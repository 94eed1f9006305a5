using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>The single slips of a whole description, each the description with one thing changed.</summary>
internal static class DescriptionSlips
{
    private static readonly Span Nowhere = new(0, 0);

    public static IEnumerable<Edit<Description>> Of(Description description)
    {
        var scope = Scope.Of(description);
        foreach (var edit in Own(description, scope))
        {
            yield return edit.Extra is { } register ? edit.Within(d => WithRegister(d, register)) : edit;
        }
        foreach (var register in description.Declarations.OfType<RegisterLine>())
        {
            yield return new(
                Narrow.Of(description, register),
                "register-narrow",
                register.Name.Text,
                register.Span,
                [("register", register.Name.Text)]
            );
        }
        foreach (var edit in OperandSlips.Exchanged(description))
        {
            yield return edit;
        }
        if (EarlyResults.Of(description, scope) is { } early)
        {
            yield return early;
        }
    }

    /// <summary>Below the last register; in a machine that has none above the first cycle, which is where registers end.</summary>
    private static Description WithRegister(Description d, RegisterLine register)
    {
        var lines = d.Declarations.ToList();
        var last = lines.FindLastIndex(line => line is RegisterLine);
        lines.Insert(
            last >= 0 ? last + 1 : lines.FindIndex(line => line is CoreBlock or RepeatBlock or StepBlock),
            register
        );
        return d with { Declarations = lines };
    }

    private static IEnumerable<Edit<Description>> Own(Description description, Scope scope)
    {
        var lines = description.Declarations;
        for (var i = 0; i < lines.Count; i++)
        {
            var at = i;
            foreach (var edit in IsOfOperand(lines[i], lines) ? [] : Of(lines[i], scope))
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
    }

    /// <summary>Laws speak of a part of an operand too: another part would be another law, not another machine.</summary>
    private static bool IsOfOperand(Declaration line, IReadOnlyList<Declaration> lines) =>
        line is PartLine part && lines.OfType<OperandLine>().Any(o => Mentioned.In(part.Slice, o.Name.Text));

    private static IEnumerable<Edit<Declaration>> Of(Declaration line, Scope scope)
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
                foreach (var edit in Wired(d.Loads, d.Name.Text, scope))
                {
                    yield return edit.Within(loads => (Declaration)(d with { Loads = loads }));
                }
                break;
            case RepeatBlock d:
                foreach (var edit in Of(d, scope))
                {
                    yield return edit;
                }
                break;
            case StepBlock d:
                foreach (var edit in MomentSlips.Of(d.Moments, scope))
                {
                    yield return edit.Within(moments => (Declaration)(d with { Moments = moments }));
                }
                break;
            case TableBlock d:
                foreach (var edit in TableSlips.Of(d))
                {
                    yield return edit;
                }
                break;
            case PartLine { Slice: Sliced slice } d:
                foreach (var (moved, by) in ValueSlips.Moved(slice))
                {
                    yield return new(
                        d with
                        {
                            Slice = moved,
                        },
                        "part-off-by-one",
                        d.Name.Text,
                        d.Span,
                        [("name", d.Name.Text), ("by", by)]
                    );
                }
                break;
            case CoreBlock d:
                for (var i = 0; i < d.Operands.Count; i++)
                {
                    var at = i;
                    foreach (var edit in ValueSlips.Of(d.Operands[i].Value, d.Operands[i].Name.Text, scope))
                    {
                        yield return edit.Within(value =>
                            (Declaration)(
                                d with
                                {
                                    Operands = Rewriting.With(d.Operands, at, d.Operands[at] with { Value = value }),
                                }
                            )
                        );
                    }
                }
                break;
            case ResultLine d:
                foreach (var edit in Wired(d.Value, d.Name.Text, scope))
                {
                    yield return edit.Within(value => (Declaration)(d with { Value = value }));
                }
                break;
        }
    }

    /// <summary>What is loaded or taken as a result is wiring.</summary>
    private static IEnumerable<Edit<Expression>> Wired(Expression e, string subject, Scope scope) =>
        ValueSlips.Of(e, subject, scope).Concat(OperandSlips.HalvesExchanged(e, subject));

    private static IEnumerable<Edit<Declaration>> Of(RepeatBlock d, Scope scope)
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
            foreach (var edit in ValueSlips.Of(d.While, "while", scope))
            {
                yield return edit.Within(condition => (Declaration)(d with { While = condition }));
            }
        }
        for (var i = 0; i < d.Steps.Count; i++)
        {
            var at = i;
            foreach (var edit in MomentSlips.Of(d.Steps[i].Moments, scope))
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
