using System.Globalization;
using System.Text.Json;
using Reckoner.Reporting;
using Reckoner.Sheets;

namespace Reckoner.Documents.Marking;

/// <summary>What a run before wrote, and what was changed in it by hand since.</summary>
/// <param name="Columns">Of marks.csv, in their order.</param>
/// <param name="Written">What that run wrote there, by student and column.</param>
/// <param name="ByHand">What was set by hand until then.</param>
/// <param name="Prints">For each student what was handed in.</param>
/// <param name="Settings">Scheme and withdrawn questions, as one text.</param>
internal sealed record EarlierMarks(
    IReadOnlyList<string> Columns,
    IReadOnlyDictionary<(string Student, string Column), string> Written,
    IReadOnlyDictionary<(string Student, string Column), decimal> ByHand,
    IReadOnlyDictionary<string, string> Prints,
    string Settings
)
{
    public static readonly EarlierMarks None = new(
        [],
        new Dictionary<(string, string), string>(),
        new Dictionary<(string, string), decimal>(),
        new Dictionary<string, string>(),
        ""
    );

    public static string SettingsOf(MarkedClass marked) =>
        $"{marked.Scheme} {string.Join(' ', marked.Withdrawn.Order())}";

    public static string Json(MarkBook book, IReadOnlyList<string> columns) =>
        Reporting.Json.Document(json =>
        {
            json.WriteString("settings", SettingsOf(book.Class));
            json.List("columns", columns, json.WriteStringValue);
            json.Objects(
                "students",
                book.Class.Sheets,
                sheet =>
                {
                    json.WriteString("identifier", sheet.Sheet.Identifier);
                    json.WriteString("print", sheet.Print);
                    json.Object("marks", () => Marks(sheet, book.Columns));
                    json.Object("byHand", () => Marks(sheet, book.Columns.Where(c => book.IsByHand(sheet, c))));
                }
            );

            void Marks(MarkedSheet sheet, IEnumerable<string> of)
            {
                foreach (var column in of)
                {
                    json.WriteString(column, MarkBook.Written(book.Final(sheet, column)));
                }
            }
        });

    /// <summary>Null for what is no such document.</summary>
    public static EarlierMarks? Read(ReadOnlyMemory<byte> bytes)
    {
        try
        {
            using var document = JsonDocument.Parse(bytes);
            var json = document.RootElement;
            if (
                JsonReading.OtherFormat(json) is not null
                || JsonReading.Text(json, "settings") is not { } settings
                || JsonReading.List(json, "columns", c => c.GetString()) is not { } columns
                || JsonReading.List(json, "students", s => Tuple.Create(s)) is not { } students
            )
            {
                return null;
            }
            var written = new Dictionary<(string, string), string>();
            var byHand = new Dictionary<(string, string), decimal>();
            var prints = new Dictionary<string, string>();
            foreach (var student in students.Select(s => s.Item1))
            {
                if (
                    JsonReading.Text(student, "identifier") is not { } who
                    || JsonReading.Object(student, "marks") is not { } marks
                    || JsonReading.Object(student, "byHand") is not { } set
                )
                {
                    return null;
                }
                prints[who] = JsonReading.Text(student, "print") ?? "";
                foreach (var mark in marks.EnumerateObject())
                {
                    written[(who, mark.Name)] = mark.Value.GetString() ?? "";
                }
                foreach (var mark in set.EnumerateObject())
                {
                    if (Number(mark.Value.GetString() ?? "") is { } number)
                    {
                        byHand[(who, mark.Name)] = number;
                    }
                }
            }
            return new EarlierMarks(columns, written, byHand, prints, settings);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return null;
        }
    }

    /// <summary>A mark as people type it; null for none.</summary>
    public static decimal? Number(string text) =>
        decimal.TryParse(
            text.Trim().Replace(',', '.'),
            NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign,
            CultureInfo.InvariantCulture,
            out var number
        )
        && Math.Abs(number) < 100_000
            ? number
            : null;

    /// <summary>A cell of marks.csv in which something was written that is no mark.</summary>
    public sealed record NoMark(int Line, string Text);

    /// <summary>
    /// With what was changed in marks.csv since: a cell that says another number is set by hand, one that was emptied is not any more.
    /// </summary>
    /// <param name="table">The text of marks.csv, as some program may have saved it.</param>
    public (EarlierMarks Marks, NoMark? Wrong) With(string table)
    {
        var byHand = new Dictionary<(string, string), decimal>(ByHand);
        foreach (var row in ListRows.Of(table, out _).Skip(1))
        {
            var who = row.Cells[0].TrimStart('\'');
            for (var i = 1; i < Math.Min(Columns.Count, row.Cells.Count); i++)
            {
                var cell = (who, Columns[i]);
                if (!Written.TryGetValue(cell, out var before) || row.Cells[i] == before)
                {
                    continue;
                }
                if (row.Cells[i].Length == 0)
                {
                    byHand.Remove(cell);
                }
                else if (Number(row.Cells[i]) is not { } number)
                {
                    return (this, new NoMark(row.Line, row.Cells[i]));
                }
                else if (number != Number(before))
                {
                    byHand[cell] = number;
                }
            }
        }
        return (this with { ByHand = byHand }, null);
    }
}
