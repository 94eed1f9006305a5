using System.Text;
using Reckoner.Documents.Lessons;
using Reckoner.Drawing;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Packs;

/// <summary>Every file of the sheets of a class: what is handed out, and what is kept.</summary>
internal static class SheetPack
{
    public const string HandedOut = "sheets";
    public const string Kept = "keep";

    /// <summary>What a later run, and marking, begin with.</summary>
    public const string Answers = $"{Kept}/answers.json";

    /// <summary>Paths are those from the pack's folder, with slashes.</summary>
    public static IReadOnlyList<(string Path, byte[] Bytes)> Files(SheetsOfClass all)
    {
        var files = new List<Func<IEnumerable<(string, byte[])>>>
        {
            () => [($"{HandedOut}/sheets.pdf", Papers(all, Edition.Blank))],
            () => [($"{Kept}/marks-key.pdf", Papers(all, Edition.Key))],
            () => [($"{Kept}/class-key.pdf", ClassKey.Pdf(all))],
            () => [(Answers, Text(AnswersJson.Of(all)))],
        };
        files.AddRange(all.Sheets.Select(s => (Func<IEnumerable<(string, byte[])>>)(() => Each(all, s))));
        return [.. files.AsParallel().AsOrdered().SelectMany(f => f())];
    }

    private static byte[] Text(string text) => new UTF8Encoding(encoderShouldEmitUTF8Identifier: false).GetBytes(text);

    private static IEnumerable<(string, byte[])> Each(SheetsOfClass all, SheetOf sheet)
    {
        var (name, words) = ($"{HandedOut}/{sheet.Number.Plain}", all.Lesson.Words);
        var paper = PaperOf(all);
        yield return ($"{name}.pdf", HandoutWriter.Write(Paper(all, sheet, Edition.Blank), Palette.Grey, paper));
        yield return ($"{name}.html", Text(SheetPage.Of(all.Of(sheet), sheet.Number)));
        yield return ($"{name}.xlsx", SheetWorkbook.Write(sheet, words));
        yield return ($"{name}.csv", Text(SheetList.Of(sheet, words)));
    }

    private static byte[] Papers(SheetsOfClass all, Edition asked) =>
        HandoutWriter.Write(
            [.. all.Sheets.Select(s => Paper(all, s, asked))],
            Palette.Grey,
            PaperOf(all),
            beginOdd: all.Lesson.Lesson.Header.Sides?.Text == "2"
        );

    private static Handout Paper(SheetsOfClass all, SheetOf sheet, Edition asked)
    {
        var words = all.Lesson.Words;
        return LessonHandout.Of(all.Of(sheet), Edition.Full, asked, PaperOf(all)) with
        {
            Mark = sheet.Number,
            PageOf = (page, count) => Page(page, count, words),
        };
    }

    /// <summary>20 mm, in units of scenes: below it stands the number of the sheet, within the frame.</summary>
    private static readonly double LeastMargin = Math.Round(PaperSize.Units(20));

    private static Paper PaperOf(SheetsOfClass all)
    {
        var paper = LessonPack.PaperOf(all.Lesson);
        return paper with { Margin = Math.Max(paper.Margin, LeastMargin) };
    }

    private static string Page(int page, int count, Vocabulary words) =>
        words.Say("sheet.page", ("page", page), ("count", count));
}
