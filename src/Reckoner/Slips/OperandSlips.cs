using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>What goes wrong where operands are loaded: two of them exchanged, or the halves of what a register loads.</summary>
internal static class OperandSlips
{
    /// <summary>Two operands of one type exchanged wherever they are loaded.</summary>
    public static IEnumerable<Edit<Description>> Exchanged(Description description)
    {
        if (description.Declarations.FirstOrDefault(d => d is RegisterLine or CoreBlock)?.Span is not { } place)
        {
            // Nothing is loaded.
            yield break;
        }
        var operands = description.Declarations.OfType<OperandLine>().ToList();
        for (var i = 0; i < operands.Count; i++)
        {
            for (var j = i + 1; j < operands.Count; j++)
            {
                var (a, b) = (operands[i], operands[j]);
                if (a.Type.IsSigned != b.Type.IsSigned || Printer.Text(a.Type.Width) != Printer.Text(b.Type.Width))
                {
                    continue;
                }
                yield return new(
                    description with
                    {
                        Declarations = [.. description.Declarations.Select(d => Loading(d, a.Name.Text, b.Name.Text))],
                    },
                    "operands-exchanged",
                    $"{a.Name.Text}-{b.Name.Text}",
                    place,
                    [("first", a.Name.Text), ("second", b.Name.Text)]
                );
            }
        }
    }

    private static Declaration Loading(Declaration d, string a, string b)
    {
        Expression Turned(Expression e) =>
            EarlyResults.Replaced(
                e,
                name =>
                    name.Name == a ? new NameReference(name.Span, b)
                    : name.Name == b ? new NameReference(name.Span, a)
                    : null
            );
        return d switch
        {
            RegisterLine r => r with { Loads = Turned(r.Loads) },
            CoreBlock c => c with { Operands = [.. c.Operands.Select(o => o with { Value = Turned(o.Value) })] },
            _ => d,
        };
    }

    /// <summary>Two parts side by side the other way round.</summary>
    public static IEnumerable<Edit<Expression>> HalvesExchanged(Expression e, string subject)
    {
        if (e is Joined { Parts: [var left, var right] })
        {
            yield return new(
                new Joined(e.Span, [right, left]),
                "halves-exchanged",
                subject,
                e.Span,
                [("value", Printer.Text(e))]
            );
        }
        for (var i = 0; i < e.Children.Count; i++)
        {
            var child = i;
            foreach (var edit in HalvesExchanged(e.Children[i], subject))
            {
                yield return edit.Within(changed => Rewriting.With(e, child, changed));
            }
        }
    }
}
