using Reckoner.Datapaths;

namespace Reckoner.Drawing;

/// <summary>What stands over a register's columns.</summary>
internal static class RegisterHead
{
    /// <summary>How far above its line the name of a register with named parts stands.</summary>
    private const double PartsBelow = 26;

    /// <summary>The register's name, with its phrase where there is room; below it the names of its parts.</summary>
    public static IEnumerable<Shape> Of(WeaveGrid grid, Register register, double line, double size, string language)
    {
        var left = grid.X(register, register.Width - 1) - grid.CellWidth / 2;
        var end = grid.X(register, 0) + grid.CellWidth / 2;
        var parts = register.Parts.Where(p => Apart(p, register) && Width(p.Name, Face.Plain) <= Box(p).Width).ToList();
        var name = parts.Count > 0 ? line - PartsBelow : line;
        yield return Said(register.Name, left, name, Face.Bold, Role.Ink);
        var after = left + Width(register.Name + " ", Face.Bold) + 4;
        if (register.Phrase?.In(language) is { } phrase && after + Width(phrase, Face.Plain) <= end)
        {
            yield return Said(phrase, after, name, Face.Plain, Role.Quiet);
        }
        foreach (var part in parts)
        {
            var box = Box(part);
            yield return Said(part.Name, box.Left, line, Face.Plain, Role.Quiet);
            var rule = line - 6;
            var from = box.Left + Width(part.Name, Face.Plain) + 6;
            if (box.Right - from > 8)
            {
                yield return new Stroke(
                    Trace.Through(new(from, rule), new(box.Right, rule), new(box.Right, rule + 6)),
                    Role.Rule,
                    1.2
                );
            }
        }

        Box Box(Part p) => grid.Cells(register, p.High, p.Low, 0);

        double Width(string words, Face face) => Typeface.Of(face).Width(words, size);

        Text Said(string words, double x, double baseline, Face face, Role ink) =>
            new(words, new Point(x, baseline), Anchor.Start, face, size, ink, Role.Ground, null);
    }

    /// <summary>Whether a part shares no bit with a larger one, whose name would stand in the same place.</summary>
    private static bool Apart(Part part, Register register) =>
        !register.Parts.Any(p => p != part && p.Low <= part.High && part.Low <= p.High && p.Width >= part.Width);
}
