using System.Globalization;
using System.Text;
using Reckoner.Drawing;

namespace Reckoner.Documents.Lessons;

/// <summary>Every file of a lesson pack.</summary>
internal static class LessonPack
{
    /// <summary>Paths are those from the pack's folder, with slashes.</summary>
    public static IReadOnlyList<(string Path, byte[] Bytes)> Files(AnsweredLesson lesson)
    {
        var files = new List<Func<IEnumerable<(string, byte[])>>>
        {
            () => [("index.html", Text(LessonPage.Of(lesson)))],
            () => Papers(lesson),
            () => [("notes.md", Text(LessonNotes.Of(lesson)))],
            () => [("walk.tex", Text(LessonTables.Latex(lesson)))],
        };
        var figures = lesson.Figures.ToList();
        files.AddRange(
            figures.Select(f => (Func<IEnumerable<(string, byte[])>>)(() => Figure(f.Number, f.Figure, figures.Count)))
        );
        return [.. files.AsParallel().AsOrdered().SelectMany(f => f())];
    }

    private static byte[] Text(string text) => new UTF8Encoding(encoderShouldEmitUTF8Identifier: false).GetBytes(text);

    /// <summary>One after another: the library that writes them shares its fonts. What is filled in by hand is printed without colours.</summary>
    private static IEnumerable<(string, byte[])> Papers(AnsweredLesson lesson)
    {
        var paper = PaperOf(lesson);
        (string Name, Edition Edition, Palette Palette)[] papers =
        [
            ("handout.pdf", Edition.Full, Palette.Light),
            ("handout-blank.pdf", Edition.Blank, Palette.Grey),
            ("key.pdf", Edition.Key, Palette.Grey),
        ];
        foreach (var (name, edition, palette) in papers)
        {
            yield return (name, HandoutWriter.Write(LessonHandout.Of(lesson, edition, paper), palette, paper));
        }
    }

    /// <summary>The one that the lesson asks for, or its house style, or A4.</summary>
    public static Paper PaperOf(AnsweredLesson lesson)
    {
        var styled = lesson.Blocks.SelectMany(b => b.Answers).OfType<WalkAnswer>().FirstOrDefault()?.Document.Paper;
        var name = lesson.Lesson.Header.Paper?.Text ?? styled?.Size ?? "";
        return Paper.Named.GetValueOrDefault(name, Paper.A4);
    }

    private static IEnumerable<(string, byte[])> Figure(int number, FigureAnswer figure, int count)
    {
        var digits = Math.Max(2, count.ToString(CultureInfo.InvariantCulture).Length);
        var name = $"figures/{number.ToString($"D{digits}", CultureInfo.InvariantCulture)}-{figure.View.Name}";
        var scenes = figure.Scenes(isBlank: false);
        for (var page = 0; page < scenes.Count; page++)
        {
            var path = scenes.Count == 1 ? name : $"{name}-{page + 1}";
            yield return ($"{path}.svg", Text(SvgWriter.Write(scenes[page], Palette.Light)));
            yield return ($"{path}.png", PngWriter.Write(scenes[page], Palette.Light));
        }
    }
}
