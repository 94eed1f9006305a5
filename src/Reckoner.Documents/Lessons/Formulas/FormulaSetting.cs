using Reckoner.Drawing;

namespace Reckoner.Documents.Lessons.Formulas;

/// <summary>Lays a formula out for paper; all lengths are shares of the size of its letters.</summary>
internal static class FormulaSetting
{
    /// <summary>Scripts, and both parts of a fraction within a line, are so much smaller, down to what can be read.</summary>
    private const double Smaller = 0.72;
    private const double Smallest = 8.5;

    /// <summary>Where bars of fractions and the middles of operators stand above the line.</summary>
    private const double Axis = 0.34;
    private const double Bar = 0.055;

    /// <param name="isDisplay">Whether it stands on a line of its own, where fractions are full and sums large.</param>
    public static FormulaDrawing Of(Formula formula, double size, bool isDisplay) =>
        formula.Match(
            symbol: s => Of(s, size, isDisplay),
            row: r => Of(r, size, isDisplay),
            scripts: s => Of(s, size, isDisplay),
            fraction: f => Of(f, size, isDisplay),
            root: r => Of(r, size, isDisplay)
        );

    private static double Small(double size) => Math.Min(size, Math.Max(Smallest, Smaller * size));

    private static FormulaDrawing Of(Symbol symbol, double size, bool isDisplay)
    {
        if (symbol.Role != SymbolRole.Large)
        {
            return Letters(symbol.Text, size);
        }
        var large = Letters(symbol.Text, size * (isDisplay ? 1.7 : 1.2));
        return large.Moved(0, (large.Up - large.Down) / 2 - Axis * size);
    }

    private static FormulaDrawing Letters(string words, double size)
    {
        var typeface = Typeface.Of(Face.Plain);
        var (up, down) = typeface.Reach(words, size);
        return new FormulaDrawing(typeface.Width(words, size), up, down, [new(words, size, 0, 0)], []);
    }

    private static FormulaDrawing Of(Row row, double size, bool isDisplay)
    {
        var parts = row.Parts.Select(p => Of(p, size, isDisplay)).ToList();
        Stretch(row, parts, size);
        var x = 0.0;
        for (var i = 0; i < parts.Count; i++)
        {
            x += FormulaSpacing.Before(row.Parts, i) * size;
            var wide = parts[i].Width;
            parts[i] = parts[i].Moved(x, 0);
            x += wide;
        }
        return FormulaDrawing.Together(x, parts);
    }

    /// <summary>Brackets grow with what stands between them.</summary>
    private static void Stretch(Row row, List<FormulaDrawing> parts, double size)
    {
        var open = new Stack<int>();
        for (var i = 0; i < parts.Count; i++)
        {
            var role = row.Parts[i] is Symbol s ? s.Role : SymbolRole.Name;
            if (role == SymbolRole.Opening)
            {
                open.Push(i);
            }
            else if (role == SymbolRole.Closing && open.TryPop(out var from))
            {
                var inner = parts.GetRange(from + 1, i - from - 1);
                var reach = inner.Select(p => Math.Max(p.Up - Axis * size, p.Down + Axis * size)).Append(0).Max();
                var times = Math.Min(3, reach / (0.62 * size));
                foreach (var bracket in times > 1.15 ? new[] { from, i } : [])
                {
                    var large = Letters(((Symbol)row.Parts[bracket]).Text, times * size);
                    parts[bracket] = large.Moved(0, (large.Up - large.Down) / 2 - Axis * size);
                }
            }
        }
    }

    private static FormulaDrawing Of(Scripts scripts, double size, bool isDisplay)
    {
        var of = Of(scripts.Of, size, isDisplay);
        var small = Small(size);
        var below = scripts.Below is { } b ? Of(b, small, isDisplay: false) : FormulaDrawing.Empty;
        var above = scripts.Above is { } a ? Of(a, small, isDisplay: false) : FormulaDrawing.Empty;
        if (isDisplay && scripts.Of is Symbol { Role: SymbolRole.Large })
        {
            var wide = Math.Max(of.Width, Math.Max(below.Width, above.Width));
            return FormulaDrawing.Together(
                wide,
                of.Moved((wide - of.Width) / 2, 0),
                above.Moved((wide - above.Width) / 2, -of.Up - above.Down - 0.12 * size),
                below.Moved((wide - below.Width) / 2, of.Down + below.Up + 0.12 * size)
            );
        }
        // On something tall they stand at its corners.
        var raised = -Math.Max(0.42 * size, of.Up - 0.45 * small);
        var lowered = Math.Max(0.2 * size, of.Down);
        var gap = 0.04 * size;
        return FormulaDrawing.Together(
            of.Width + gap + Math.Max(below.Width, above.Width),
            of,
            above.Moved(of.Width + gap, raised),
            below.Moved(of.Width + gap, lowered)
        );
    }

    private static FormulaDrawing Of(Fraction fraction, double size, bool isDisplay)
    {
        var inner = isDisplay ? size : Small(size);
        var above = Of(fraction.Above, inner, isDisplay: false);
        var below = Of(fraction.Below, inner, isDisplay: false);
        var pad = 0.12 * size;
        var wide = Math.Max(above.Width, below.Width) + 2 * pad;
        var gap = 0.16 * size;
        var bar = new FormulaStroke(
            [new Point(0.04 * size, -Axis * size), new Point(wide - 0.04 * size, -Axis * size)],
            Bar * size
        );
        return FormulaDrawing.Together(
            wide,
            above.Moved((wide - above.Width) / 2, -Axis * size - gap - above.Down),
            below.Moved((wide - below.Width) / 2, -Axis * size + gap + below.Up),
            new FormulaDrawing(wide, 0, 0, [], [bar])
        );
    }

    private static FormulaDrawing Of(Root root, double size, bool isDisplay)
    {
        var of = Of(root.Of, size, isDisplay);
        var (top, hook) = (-of.Up - 0.14 * size, 0.55 * size);
        Point[] line =
        [
            new(0.04 * size, -0.3 * size),
            new(0.16 * size, -0.36 * size),
            new(0.32 * size, of.Down),
            new(0.5 * size, top),
            new(hook + of.Width + 0.08 * size, top),
        ];
        return FormulaDrawing.Together(
            hook + of.Width + 0.1 * size,
            of.Moved(hook, 0),
            new FormulaDrawing(0, -top + 0.05 * size, of.Down, [], [new(line, Bar * size)])
        );
    }
}
