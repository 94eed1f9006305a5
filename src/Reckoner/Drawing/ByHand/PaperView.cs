using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Running;
using Reckoner.Styles;

namespace Reckoner.Drawing;

/// <summary>The sum by hand, line for line, beside the cycles that did it.</summary>
internal sealed partial class PaperView
{
    private const double TextSize = FigureHead.TextSize;
    private const double DigitSize = 22;
    private const double Pitch = 24;
    private const double LeastLinePitch = 33;

    /// <summary>How far lines are moved apart at most so that a page is no wider than it may be.</summary>
    private const double MostLinePitch = 60;
    private const double RecodedPitch = 26;
    private const double RecodedSize = 15;
    private const double Top = 118;

    private readonly Figure figure;
    private readonly HandLines sum;
    private readonly HandKind kind;
    private readonly List<Shape> shapes = [];
    private readonly int places;
    private readonly double left;

    /// <summary>From line to line.</summary>
    private double LinePitch { get; init; } = LeastLinePitch;

    private PaperView(Figure figure, HandKind kind, HandLines sum)
    {
        this.figure = figure;
        this.kind = kind;
        this.sum = sum;
        places = sum.Places;
        var before = kind == HandKind.Division && figure.SumLayout == HandLayout.Bar ? sum.Second.Length + 1 : 1;
        left = WeaveGrid.Margin + (before + 0.4) * Pitch;
    }

    /// <summary>Whether the sum by hand is there for a machine and for these operands.</summary>
    public static bool Suits(Walk walk) =>
        HandSum.Of(walk.Datapath) is { } sum
        && sum.Kind switch
        {
            HandKind.Division => Number(walk, sum.First) >= 0 && Number(walk, sum.Second!) > 0,
            HandKind.Multiplication => true,
            HandKind.Root => Number(walk, sum.First) >= 0,
        };

    private static BigInteger Number(Walk walk, Operand operand) => operand.Number(walk.Operands[operand.Index]);

    /// <summary>The whole sum on one page.</summary>
    public static Scene Of(Figure figure)
    {
        var scene = Whole(figure, LeastLinePitch);
        var lines = View(figure, LeastLinePitch).sum.Lines.Count + 2;
        var lacks = Fitting.Lacking(scene);
        return lacks <= 0
            ? scene
            : Whole(figure, Math.Min(MostLinePitch, LeastLinePitch + Math.Ceiling(lacks / (lines - 1))));
    }

    private static Scene Whole(Figure figure, double linePitch)
    {
        var view = View(figure, linePitch);
        return view.Drawn(0, view.sum.Lines.Count, 1, 1);
    }

    /// <summary>The sum on what the figure is drawn for; a long one goes on on another page.</summary>
    public static IReadOnlyList<Scene> Pages(Figure figure)
    {
        if (figure.Room is not { } room)
        {
            return [Of(figure)];
        }
        var all = View(figure, LeastLinePitch).sum.Lines;
        var parts = Fitting.Parts([.. all.Select(_ => LeastLinePitch)], room.Height - Top - 2 * LeastLinePitch - 70);
        return Fitting.On(
            figure.Target,
            [.. parts.Select((p, i) => View(figure, LeastLinePitch).Drawn(p.From, p.Count, i + 1, parts.Count))]
        );
    }

    private static PaperView View(Figure figure, double linePitch)
    {
        var hand = HandSum.Of(figure.Walk.Datapath)!;
        return new PaperView(figure, hand.Kind, Lines(figure, hand)) { LinePitch = linePitch };
    }

    internal static HandLines Lines(Figure figure, HandSum hand)
    {
        var walk = figure.Walk;
        var reckoning = new HandReckoning(figure.SumBase, figure.Words);
        var first = Number(walk, hand.First);
        var second = hand.Second is { } s ? Number(walk, s) : 0;
        return hand.Kind switch
        {
            HandKind.Division => reckoning.Divide(
                first,
                hand.First.Width,
                second,
                HandCycles.Taking(walk, hand, HandReckoning.DivisionSteps(first, second, hand.First.Width))
            ),
            HandKind.Multiplication => reckoning.Multiply(
                first,
                hand.First.Width,
                second,
                hand.Second!.Width,
                HandDigits.Of(walk, hand),
                highestFirst: figure.SumLayout == HandLayout.Colon
            ),
            HandKind.Root => reckoning.Root(
                first,
                hand.First.Width,
                HandCycles.Taking(walk, hand, HandReckoning.RootSteps(first, (hand.First.Width + 1) / 2))
            ),
        };
    }

    private double X(int place) => left + (places - 1 - place + 0.5) * Pitch;

    private bool IsShown(int? cycle) => cycle is null ? figure.Until >= figure.Walk.Cycles : cycle <= figure.Until;

    /// <param name="from">The first line that stands on the page; the head stands on each.</param>
    private Scene Drawn(int from, int lines, int page, int pages)
    {
        var title = FigureHead.Title(figure.Walk.Datapath, figure.Words);
        var given = FigureHead.Given(figure.Walk, figure.Words);
        var head = figure.Words.Say("by-hand.head", ("operands", given), ("base", figure.SumBase));
        if (pages > 1)
        {
            head += "; " + figure.Words.Say("figure.page", ("page", page), ("count", pages));
        }
        shapes.AddRange(FigureHead.Of(title, head));
        var y = figure.SumLayout == HandLayout.Bar ? Stacked() : InLine();
        var right = 0.0;
        var notes = shapes.OfType<Text>().Where(t => t.At.Y > Top - 10).Max(t => t.Box.Right) + 40;
        notes = Math.Max(notes, X(0) + Pitch * 2);
        Heads(notes, y);
        foreach (var line in sum.Lines.Skip(from).Take(lines))
        {
            y += LinePitch;
            if (!IsShown(line.Cycle))
            {
                continue;
            }
            var first = shapes.Count;
            Digits(line.Digits, line.Place, y, isGiven: false);
            // A blank row is to be filled in with its sign: that tells the digit it was made for.
            Sign(figure.IsBlank ? "" : line.Sign, line.Top + 1, y);
            if (line.RuleBelow)
            {
                var wide = kind == HandKind.Multiplication ? places - 1 : line.Top;
                Rule(
                    X(wide) - Pitch / 2 - 4,
                    X(line.Place) + Pitch / 2 + (kind == HandKind.Multiplication ? line.Place * Pitch : 0),
                    y + 9
                );
            }
            Say(Beside(line), notes, y, Face.Plain, TextSize, Role.Quiet);
            right = Math.Max(right, Group.From(shapes, first, line.Cycle));
        }
        if (NoCycles is { } without)
        {
            y += LinePitch + 6;
            Say(
                figure.Words.Say(without, ("base", figure.SumBase)),
                WeaveGrid.Margin,
                y,
                Face.Plain,
                TextSize,
                Role.Quiet
            );
        }
        return new Scene(
            Math.Max(right, shapes.OfType<Text>().Max(t => t.Box.Right)) + WeaveGrid.Margin,
            y + 34,
            title,
            FigureDescription.Of(figure, What(), given, gives: null),
            figure.Words.Language,
            shapes
        );
    }

    /// <summary>What the lines of the head are, and what was done before the first line below it.</summary>
    private void Heads(double x, double lowest)
    {
        var walk = figure.Walk;
        var hand = HandSum.Of(walk.Datapath)!;
        if (kind == HandKind.Division && figure.SumLayout == HandLayout.Bar)
        {
            Say(hand.Result.In(figure.Words.Language), x, Top, Face.Plain, TextSize, Role.Quiet);
        }
        if (!figure.IsBlank && sum is { AreOfCycles: true, LastBefore: > 0 } && IsShown(sum.LastBefore))
        {
            // Nothing is told of cycles that nobody has seen yet.
            var first = shapes.Count;
            Say(sum.Before, x, lowest, Face.Plain, TextSize, Role.Quiet);
            Group.From(shapes, first, sum.LastBefore);
        }
    }

    /// <summary>Why no cycles stand beside the lines; null where they do.</summary>
    private string? NoCycles =>
        figure.SumBase == 10 ? "by-hand.no-single-cycle"
        : sum.AreOfCycles ? null
        : !figure.Walk.Holds ? "by-hand.other-result"
        : figure.SumBase != 2 ? "by-hand.other-base"
        : "by-hand.another-way";

    private string What()
    {
        var beside = NoCycles ?? "figure.paper-cycles";
        return $"{figure.Words.Say("figure.paper", ("base", figure.SumBase))} {figure.Words.Say(beside, ("base", figure.SumBase))}";
    }

    /// <summary>What they did would give the digits away that are to be filled in.</summary>
    private string Beside(HandLine line) =>
        figure.IsBlank ? line.When
        : line.When.Length == 0 || line.What.Length == 0 ? line.When + line.What
        : figure.Words.Say("by-hand.beside", ("when", line.When), ("what", line.What));

    private void Digits(string digits, int place, double y, bool isGiven)
    {
        for (var i = 0; i < digits.Length; i++)
        {
            var box = new Box(X(place + digits.Length - 1 - i) - Pitch / 2, y - 21, Pitch, 27);
            if (figure.IsBlank && !isGiven)
            {
                shapes.Add(
                    new Area(new Rectangle(new Box(box.Left + 2, box.Top, Pitch - 4, 26), 3), null, Role.Quiet, 1.1)
                );
                continue;
            }
            shapes.Add(Text.Centred($"{digits[i]}", box, Face.Mono, DigitSize, Role.Ink, Role.Ground));
        }
    }

    private void Sign(string sign, int place, double y) => Say(sign, X(place) - 7, y, Face.Plain, DigitSize, Role.Ink);

    private void Rule(double from, double to, double y) => shapes.Add(Line(new(from, y), new(to, y)));

    private static Stroke Line(params IReadOnlyList<Point> points) => new(Trace.Through(points), Role.Ink, 1.6);

    private void Say(string words, double x, double baseline, Face face, double size, Role ink)
    {
        if (words.Length > 0)
        {
            shapes.Add(new Text(words, new Point(x, baseline), Anchor.Start, face, size, ink, Role.Ground, null));
        }
    }
}
