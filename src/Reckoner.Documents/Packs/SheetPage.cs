using System.Globalization;
using System.Text;
using System.Text.Json;
using Reckoner.Documents.Lessons;
using Reckoner.Sheets;
using Reckoner.Words;

namespace Reckoner.Documents.Packs;

/// <summary>
/// A sheet as one HTML file that needs no network: it is filled in where it is opened, and saves itself with what was written. The
/// file that is saved holds it twice: in its fields, and as JSON by the names of the places.
/// </summary>
internal static class SheetPage
{
    public static string Of(AnsweredLesson lesson, SheetNumber number)
    {
        var words = lesson.Words;
        var page = new StringBuilder();
        page.Append(
                CultureInfo.InvariantCulture,
                $"<!DOCTYPE html>\n<html lang=\"{words.Language}\"{(lesson.Form == SheetForm.Large ? " class=\"large\"" : "")}>\n<head>\n<meta charset=\"utf-8\">\n"
            )
            .Append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
            .Append(
                CultureInfo.InvariantCulture,
                $"<title>{Escaped(lesson.Lesson.Title)} {number}</title>\n<style>\n{LessonPage.Resource("sheet-page.css")}</style>\n</head>\n"
            )
            .Append(CultureInfo.InvariantCulture, $"<body data-sheet=\"{number}\">\n<main>\n")
            .Append(Student(lesson.Student ?? "", words))
            .Append(LessonPage.Body(lesson))
            .Append("</main>\n<footer>\n")
            .Append(
                CultureInfo.InvariantCulture,
                $"<p><button type=\"button\" id=\"save\">{Escaped(words.Say("sheet.save"))}</button> <span id=\"said\" role=\"status\"></span></p>\n"
            )
            .Append(CultureInfo.InvariantCulture, $"<p class=\"number\">{Cells(number)} <code>{number}</code></p>\n");
        if (LessonHandout.Imprint(lesson) is { Length: > 0 } imprint)
        {
            page.Append(CultureInfo.InvariantCulture, $"<p>{Escaped(imprint)}</p>\n");
        }
        return page.Append(
                CultureInfo.InvariantCulture,
                $"</footer>\n<script type=\"application/json\" id=\"written\">{{}}</script>\n"
            )
            .Append("<script type=\"application/json\" id=\"words\">")
            .Append(
                JsonSerializer.Serialize(
                    new Dictionary<string, string> { ["saved"] = words.Say("sheet.saved", ("file", "{file}")) }
                )
            )
            .Append(
                CultureInfo.InvariantCulture,
                $"</script>\n<script>\n{LessonPage.Resource("sheet-page.js")}</script>\n</body>\n</html>\n"
            )
            .ToString();
    }

    private static string Escaped(string text) => LessonPage.Escaped(text);

    private static string Student(string name, Vocabulary words) =>
        name.Length > 0
            ? $"<p class=\"name\">{Escaped(words.Say("sheet.name"))} <b>{Escaped(name)}</b></p>\n"
            : $"<p class=\"name\"><label>{Escaped(words.Say("sheet.name"))} <input name=\"name\" size=\"30\" autocomplete=\"off\"></label></p>\n";

    /// <summary>The register at the foot of the paper.</summary>
    private static string Cells(SheetNumber number) =>
        string.Concat(
            number
                .Cells(1)
                .SkipLast(1)
                .Select(part =>
                    $"<span class=\"part\" aria-hidden=\"true\">{string.Concat(part.Select(c => c ? "<i class=\"full\"></i>" : "<i></i>"))}</span>"
                )
        );
}
