using System.Globalization;
using PdfSharp.UniversalAccessibility;
using Reckoner.Drawing;

namespace Reckoner.Documents;

internal sealed partial class HandoutWriter
{
    private static readonly (PdfBlockLevelElementTag Tag, double Size)[] Headings =
    [
        (PdfBlockLevelElementTag.Heading1, 26),
        (PdfBlockLevelElementTag.Heading2, 20),
        (PdfBlockLevelElementTag.Heading3, 17),
        (PdfBlockLevelElementTag.Heading4, 15),
        (PdfBlockLevelElementTag.Heading5, 14),
        (PdfBlockLevelElementTag.Heading6, 14),
    ];

    /// <summary>So many lines of code or of a list stay on one page.</summary>
    private const int ShortList = 5;
    private const int ShortCode = 10;

    private static double HeadingSize(Heading heading) => Headings[heading.Level - 1].Size;

    private List<Strip> Strips(Heading heading)
    {
        var (tag, size) = Headings[heading.Level - 1];
        var lines = Lines([new Run(heading.Words, Face.Bold)], Left, TextWidth, size, Role.Ink);
        return Tagged(Whole(lines), () => Structure.BeginElement(tag));
    }

    private List<Strip> Strips(Paragraph paragraph) =>
        Tagged(
            Kept(Lines(paragraph.Runs, Left, TextWidth, Size, Role.Ink)),
            () => Structure.BeginElement(PdfBlockLevelElementTag.Paragraph)
        );

    private List<Strip> Lines(IReadOnlyList<Run> runs, double left, double width, double size, Role ink) =>
        [.. Setting.Lines(runs, width, size).Select(line => Set(line, left, size, ink))];

    private Strip Set(SetLine line, double left, double size, Role ink) =>
        new(line.Height(size), (y, _) => Draw(line.Pieces, left, y + line.Over + size, size, ink));

    /// <summary>Neither the first nor the last line of a paragraph stands alone on a page.</summary>
    private static List<Strip> Kept(List<Strip> lines) =>
        [
            .. lines.Select(
                (l, i) => l with { StaysWithAbove = i > 0 && (lines.Count <= 3 || i == 1 || i == lines.Count - 1) }
            ),
        ];

    private static List<Strip> Whole(List<Strip> strips) =>
        [.. strips.Select((s, i) => s with { StaysWithAbove = i > 0 })];

    /// <summary>What is drawn becomes one element, from the first strip to the last.</summary>
    private List<Strip> Tagged(List<Strip> strips, Action begin) => Around(strips, _ => begin(), Structure.End);

    private static List<Strip> Around(List<Strip> strips, Action<double> begin, Action end)
    {
        var first = strips[0].Draw;
        strips[0] = strips[0] with
        {
            Draw = (y, height) =>
            {
                begin(y);
                first(y, height);
            },
        };
        var last = strips[^1].Draw;
        strips[^1] = strips[^1] with
        {
            Draw = (y, height) =>
            {
                last(y, height);
                end();
            },
        };
        return strips;
    }

    /// <summary>A short list stays together; of a longer one each item does as a paragraph would.</summary>
    private List<Strip> Strips(Listing listing)
    {
        var strips = listing
            .Items.SelectMany(
                (item, i) =>
                    Item(
                        listing.Labels?[i]
                            ?? (listing.IsNumbered ? $"{(i + 1).ToString(CultureInfo.InvariantCulture)}." : "–"),
                        item
                    )
            )
            .ToList();
        return Tagged(
            strips.Count <= ShortList ? Whole(strips) : strips,
            () => Structure.BeginElement(PdfBlockLevelElementTag.List)
        );
    }

    private List<Strip> Item(string label, IReadOnlyList<Run> item)
    {
        var indent = Size * 2;
        var lines = Setting.Lines(item, TextWidth - indent, Size);
        return Around(
            Kept([.. lines.Select(l => Set(l, Left + indent, Size, Role.Ink))]),
            y =>
            {
                Structure.BeginElement(PdfBlockLevelElementTag.ListItem);
                Structure.BeginElement(PdfBlockLevelElementTag.Label);
                Draw(label, Face.Plain, Size, Left, y + lines[0].Over + Size, Role.Ink);
                Structure.End();
                Structure.BeginElement(PdfBlockLevelElementTag.ListBody);
            },
            () =>
            {
                Structure.End();
                Structure.End();
            }
        );
    }

    /// <summary>Lines a hand's width of writing apart. They stay together; more than a page has go on on the next.</summary>
    private List<Strip> Strips(Room room) =>
        Whole([
            .. Enumerable
                .Range(0, room.Lines)
                .Select(_ => new Strip(
                    WritingPitch,
                    (y, height) =>
                    {
                        Structure.BeginArtifact();
                        Rule(Left, Left + TextWidth, y + height);
                        Structure.End();
                    }
                )),
        ]);

    private List<Strip> Strips(Verbatim verbatim)
    {
        var letter = Typeface.Of(Face.Mono).Width("0", 1);
        var longest = verbatim.Lines.Select(l => l.Length).DefaultIfEmpty(1).Max();
        // What is longer than anybody could read on a line goes on below it.
        var size = Math.Clamp(TextWidth / Math.Max(1, longest) / letter, GridColumns.SmallestSize, Size);
        var letters = (int)(TextWidth / letter / size);
        var lines = verbatim
            .Lines.SelectMany(l => Broken(l, letters))
            .Select(line => new Strip(
                size * SetLine.Leading,
                (y, _) => Draw(line, Face.Mono, size, Left, y + size, Role.Ink)
            ))
            .ToList();
        return lines.Count == 0
            ? []
            : Tagged(
                lines.Count <= ShortCode ? Whole(lines) : Kept(lines),
                () => Structure.BeginElement(PdfBlockLevelElementTag.Paragraph)
            );
    }

    /// <summary>Broken at the last blank that fits, and moved in as far as the line itself.</summary>
    private static IEnumerable<string> Broken(string line, int letters)
    {
        var indent = new string(' ', Math.Min(line.Length - line.TrimStart().Length + 4, letters / 2));
        while (line.Length > letters)
        {
            var blank = line.LastIndexOf(' ', letters, letters - indent.Length);
            var cut = blank > 0 ? blank : letters;
            yield return line[..cut];
            line = indent + line[cut..].TrimStart();
        }
        yield return line;
    }
}
