using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Drawing;

public sealed partial class Weave
{
    private const double HeadHeight = 142;

    /// <summary>How far words have reached to the right.</summary>
    private double right;

    private string Title => Walk.Datapath.Machine.Title?.In(figure.Words.Language) ?? Walk.Datapath.Machine.Name;

    private string Given =>
        string.Join(
            figure.Words.Say("walk.between-names"),
            Walk.Datapath.Operands.Select(o => $"{o.Name} = {Bits.Text(Evaluator.Number(o, Walk.Operands[o.Index]))}")
        );

    private string Gives =>
        string.Join(
            figure.Words.Say("walk.between-names"),
            Walk.Datapath.Results.Zip(Walk.Results, (r, bits) => $"{r.Name} = {Bits.Text(r.Number(bits))}")
        );

    private void Say(string words, double x, double baseline, Face face, double size, Role ink)
    {
        var text = new Text(words, new Point(x, baseline), Anchor.Start, face, size, ink, Role.Ground, null);
        right = Math.Max(right, text.Box.Right);
        shapes.Add(text);
    }

    private void Head()
    {
        var widths = string.Join(", ", Walk.Datapath.Widths.Select(w => $"{w.Name} = {w.Value}"));
        Say(Title, WeaveGrid.Margin, 44, Face.Bold, TitleSize, Role.Ink);
        Say($"{widths}: {Given}", WeaveGrid.Margin, 72, Face.Plain, TextSize, Role.Quiet);
        var line = HeadHeight - 12;
        shapes.Add(
            new Text(
                Heading,
                new Point(WeaveGrid.Margin + labelWidth, line),
                Anchor.End,
                Face.Plain,
                LabelSize,
                Role.Quiet,
                Role.Ground,
                null
            )
        );
        foreach (var register in Registers)
        {
            Head(register, line);
        }
    }

    /// <summary>The register's name, with its phrase where there is room; below it the names of its parts.</summary>
    private void Head(Register register, double line)
    {
        var left = grid.X(register, register.Width - 1) - grid.CellWidth / 2;
        var end = grid.X(register, 0) + grid.CellWidth / 2;
        var parts = register
            .Parts.Where(p => Apart(p, register) && Width(p.Name, Face.Plain, TextSize) <= Span(p))
            .ToList();
        var name = parts.Count > 0 ? line - 26 : line;
        Say(register.Name, left, name, Face.Bold, TextSize, Role.Ink);
        var after = left + Width(register.Name + " ", Face.Bold, TextSize) + 4;
        if (
            register.Phrase?.In(figure.Words.Language) is { } phrase
            && after + Width(phrase, Face.Plain, TextSize) <= end
        )
        {
            Say(phrase, after, name, Face.Plain, TextSize, Role.Quiet);
        }
        foreach (var part in parts)
        {
            var box = grid.Cells(register, part.High, part.Low, 0);
            Say(part.Name, box.Left, line, Face.Plain, TextSize, Role.Quiet);
            var rule = line - 6;
            var from = box.Left + Width(part.Name, Face.Plain, TextSize) + 6;
            if (box.Right - from > 8)
            {
                shapes.Add(
                    new Stroke(
                        Trace.Through(new(from, rule), new(box.Right, rule), new(box.Right, rule + 6)),
                        Role.Rule,
                        1.2
                    )
                );
            }
        }

        double Span(Part p) => grid.Cells(register, p.High, p.Low, 0).Width;
    }

    /// <summary>Whether a part shares no bit with a larger one, whose name would stand in the same place.</summary>
    private static bool Apart(Part part, Register register) =>
        !register.Parts.Any(p => p != part && p.Low <= part.High && part.Low <= p.High && p.Width >= part.Width);

    // ---- below the rows

    /// <summary>Under the bits that make up a result: a bracket with its name and number.</summary>
    private double Results(double bottom)
    {
        if (figure.Until < Walk.Cycles || figure.IsBlank)
        {
            return bottom;
        }
        var line = bottom + 12;
        var free = new List<double>();
        var sources = Provenance.OfResults(Walk);
        foreach (var (result, bits) in Walk.Datapath.Results.Zip(sources).OrderBy(r => Left(r.Second)))
        {
            if (!IsWhole(bits))
            {
                continue;
            }
            var register = bits[0].Register!;
            var box = grid.Cells(register, bits[^1].Bit, bits[0].Bit, 0);
            var text =
                $"{result.Name} = {Bits.Text(result.Number(Walk.Results[Walk.Datapath.Results.ToList().IndexOf(result)]))}";
            var width = Width(text, Face.Bold, TextSize);
            var level = free.FindIndex(x => x < box.Left);
            if (level < 0)
            {
                level = free.Count;
                free.Add(0);
            }
            free[level] = Math.Max(box.Right, box.Left + width) + 8;
            var y = line + level * 30;
            shapes.Add(
                new Stroke(
                    Trace.Through(new(box.Left, y - 5), new(box.Left, y), new(box.Right, y), new(box.Right, y - 5)),
                    Role.Ink,
                    1.4
                )
            );
            Say(text, box.Left, y + 20, Face.Bold, TextSize, Role.Ink);
        }
        return free.Count == 0 ? bottom : line + free.Count * 30 - 6;

        double Left(IReadOnlyList<BitSource> b) => IsWhole(b) ? grid.X(b[0].Register!, b[^1].Bit) : 0;
    }

    /// <summary>Whether a result is a stretch of one register.</summary>
    private static bool IsWhole(IReadOnlyList<BitSource> bits) =>
        bits[0].Kind == SourceKind.Register
        && bits.Select((b, i) => b.IsOfSame(bits[0]) && b.Bit == bits[0].Bit + i).All(x => x);

    /// <summary>What the colours stand for, in lines as wide as the cells.</summary>
    private double Legend(double bottom)
    {
        var y = bottom + 36;
        var x = WeaveGrid.Margin;
        var wide = Math.Max(grid.Right, 560);
        foreach (var (origin, hue) in origins.All)
        {
            Entry(origin.Said(figure.Words), hue, idle: false);
        }
        if (HasConstants())
        {
            Entry(figure.Words.Say("figure.from-constant"), Role.Neutral, idle: false);
        }
        if (figure.Idle is not null)
        {
            Entry(figure.Words.Say("figure.idle"), Role.Neutral, idle: true);
        }
        return y + 6;

        void Entry(string words, int hue, bool idle)
        {
            var width = 30 + Width(words, Face.Plain, TextSize);
            if (x > WeaveGrid.Margin && x + width > wide)
            {
                x = WeaveGrid.Margin;
                y += 30;
            }
            var box = new Box(x, y - 16, 22, 20);
            shapes.Add(new Area(new Rectangle(box, 4), Role.Tint(hue), Role.Edge(hue), 1.3, idle));
            Say(words, x + 30, y, Face.Plain, TextSize, Role.Ink);
            x += width + 26;
        }
    }

    private bool HasConstants() =>
        Shown.Any(r => provenance[r.Cycle].Origins.Any(bits => bits.Any(b => b.Kind == SourceKind.Constant)));
}
