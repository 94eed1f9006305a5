namespace Reckoner.Drawing;

internal enum PaintKind
{
    Form,
    Text,
}

/// <summary>What a writer puts on its page: a form with colours, or a line of text.</summary>
internal abstract record Paint
{
    protected abstract PaintKind Kind { get; }

    /// <summary>What a writer does with each kind. A new kind is asked for in every writer, by the compiler.</summary>
    public void Switch(Action<FormPaint> form, Action<TextPaint> text)
    {
        Action draw = Kind switch
        {
            PaintKind.Form => () => form((FormPaint)this),
            PaintKind.Text => () => text((TextPaint)this),
        };
        draw();
    }
}

/// <param name="Dash">Lengths of dashes and gaps; empty for an unbroken line.</param>
internal sealed record FormPaint(Outline Outline, Colour? Fill, Colour? Line, double Width, IReadOnlyList<double> Dash)
    : Paint
{
    protected override PaintKind Kind => PaintKind.Form;
}

internal sealed record TextPaint(Text Text, Colour Ink) : Paint
{
    protected override PaintKind Kind => PaintKind.Text;
}

/// <summary>Turns shapes with roles into forms with colours; every writer goes through here, so that all show the same.</summary>
internal static class Painting
{
    private const double CoreShare = 0.56;

    private static readonly double[][] Dashes =
    [
        [],
        [7, 2.5],
        [2.5, 2.5],
        [10, 2.5, 2.5, 2.5],
        [1.2, 2.8],
        [14, 3],
        [5, 5],
    ];

    public static IEnumerable<Paint> Of(Shape shape, Palette palette) =>
        shape.Match<IEnumerable<Paint>>(
            group: _ => throw new InvalidOperationException("a writer opens groups itself"),
            area: a => Of(a, palette),
            stroke: s => [new FormPaint(s.Outline, null, palette.Of(s.Role), s.Width, [])],
            strand: t => Of(t, palette),
            text: t => [new TextPaint(t, palette.Of(t.Ink))]
        );

    private static IEnumerable<Paint> Of(Area area, Palette palette)
    {
        Colour? edge = area.Edge is { } e ? palette.Of(e) : null;
        Colour? fill = area.Fill is { } f ? palette.Of(f) : null;
        var pattern = Pattern(area, palette);
        if (pattern is null)
        {
            yield return new FormPaint(area.Outline, fill, edge, area.EdgeWidth, Dash(area.Line));
            yield break;
        }
        yield return new FormPaint(area.Outline, fill, null, 0, []);
        yield return new FormPaint(pattern, null, palette.Of(Role.Hatch), 0.8, []);
        if (edge is not null)
        {
            yield return new FormPaint(area.Outline, null, edge, area.EdgeWidth, Dash(area.Line));
        }
    }

    private static double[] Dash(EdgeLine line) =>
        line switch
        {
            EdgeLine.Unbroken => [],
            EdgeLine.Dashed => [9, 5],
            EdgeLine.Dotted => [2.5, 6],
        };

    private static Trace? Pattern(Area area, Palette palette) =>
        area.Outline is not Rectangle { Box: var box } ? null
        : area.Hatched ? Hatching.Idle(box)
        : !palette.HasColours && area.Fill is { Purpose: Purpose.Tint } tint ? Hatching.Of(tint.Hue, box)
        : null;

    private static IEnumerable<Paint> Of(Strand thread, Palette palette)
    {
        var dash = palette.HasColours || thread.Hue == Role.Neutral ? [] : Dashes[thread.Hue % Dashes.Length];
        yield return new FormPaint(thread.Trace, null, palette.Of(Role.Edge(thread.Hue)), thread.Width, dash);
        if (dash.Length == 0 && thread.Hue != Role.Neutral)
        {
            var core = palette.Of(Role.Full(thread.Hue));
            yield return new FormPaint(thread.Trace, null, core, thread.Width * CoreShare, []);
        }
    }
}
