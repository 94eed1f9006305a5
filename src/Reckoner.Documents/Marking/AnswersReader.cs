using System.Globalization;
using System.Numerics;
using System.Text.Json;
using Reckoner.Documents.Lessons;
using Reckoner.Reporting;
using Reckoner.Sheets;
using Reckoner.Words;

namespace Reckoner.Documents.Marking;

/// <summary>Reads what <see cref="Packs.AnswersWriter"/> writes.</summary>
internal static class AnswersReader
{
    /// <summary>Null for what is no such document.</summary>
    public static AnswersOfClass? Of(ReadOnlyMemory<byte> bytes)
    {
        try
        {
            using var document = JsonDocument.Parse(bytes);
            var json = document.RootElement;
            return
                JsonReading.OtherFormat(json) is null
                && JsonReading.Text(json, "title") is { } title
                && JsonReading.Text(json, "language") is { } language
                && Vocabulary.Of(language) is { } words
                && JsonReading.List(json, "questions", Question) is { Count: > 0 } questions
                && JsonReading.List(json, "sheets", Sheet) is { Count: > 0 } sheets
                && questions.DistinctBy(q => q.Number).Count() == questions.Count
                && sheets.DistinctBy(s => s.Number).Count() == sheets.Count
                && sheets.DistinctBy(s => s.Identifier).Count() == sheets.Count
                ? new AnswersOfClass(
                    title,
                    language,
                    JsonReading.Text(json, "key") ?? words.Say("sheet.identifier"),
                    questions,
                    sheets
                )
                : null;
        }
        // What is no text, such as half of a pair of code units, is found only when it is read.
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return null;
        }
    }

    private static int? Count(JsonElement json, string name) =>
        json.ValueKind == JsonValueKind.Object
        && json.TryGetProperty(name, out var value)
        && value.ValueKind == JsonValueKind.Number
        && value.TryGetInt32(out var count)
        && count >= 0
            ? count
            : null;

    private static AskedForm? Question(JsonElement json)
    {
        var task = JsonReading.Text(json, "task");
        var known = Enum.GetValues<QuestionTask>().Where(t => QuestionReader.Word(t) == task).ToList();
        // What cannot be read would let everything, or nothing, be right.
        if (
            Count(json, "question") is not { } number
            || known.Count == 0
            || !IsPlain(json, "condition")
            || !IsPlain(json, "exposing")
            || (Hardware(json) is null && json.TryGetProperty("machine", out _))
        )
        {
            return null;
        }
        decimal? marks = null;
        if (JsonReading.Text(json, "marks") is { } text)
        {
            if (
                !decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var said)
                || said > 10_000
            )
            {
                return null;
            }
            marks = said;
        }
        return new AskedForm(number, known[0], marks)
        {
            Hardware = Hardware(json),
            Condition = JsonReading.Text(json, "condition"),
            Exposing = JsonReading.Text(json, "exposing"),
        };
    }

    /// <summary>Whether it is not there, or a text.</summary>
    private static bool IsPlain(JsonElement json, string name) =>
        !json.TryGetProperty(name, out var value)
        || value.ValueKind == JsonValueKind.Null
        || JsonReading.Text(json, name) is not null;

    private static AskedHardware? Hardware(JsonElement json)
    {
        if (
            JsonReading.Text(json, "machine") is not { } machine
            || JsonReading.Text(json, "description") is not { } hash
            || JsonReading.Object(json, "width") is not { } widths
            || widths.EnumerateObject().DistinctBy(w => w.Name).Count() != widths.EnumerateObject().Count()
        )
        {
            return null;
        }
        var text =
            json.TryGetProperty("text", out var its) && its.ValueKind == JsonValueKind.String ? its.GetString() : null;
        return new AskedHardware(
            machine,
            hash,
            JsonReading.Text(json, "slip"),
            text,
            widths
                .EnumerateObject()
                .Where(w => w.Value.ValueKind == JsonValueKind.Number && w.Value.TryGetInt64(out _))
                .ToDictionary(w => w.Name, w => (BigInteger)w.Value.GetInt64())
        );
    }

    private static AnsweredSheet? Sheet(JsonElement json) =>
        JsonReading.Text(json, "sheet") is { } text
        && SheetNumber.Read(text) is { } number
        && JsonReading.Text(json, "identifier") is { } identifier
        && JsonReading.Text(json, "name") is { } name
        && JsonReading.List(json, "answers", Answer) is { } answers
            ? new AnsweredSheet(number, identifier, name, answers)
            : null;

    private static AnsweredQuestion? Answer(JsonElement json) =>
        Count(json, "question") is { } question
        && JsonReading.List(json, "tables", t => Tuple.Create(t)) is { } tables
        && tables.Select((t, i) => Table(t.Item1, i + 1)).ToList() is var read
        && !read.Contains(null)
        && JsonReading.List(json, "fields", Field) is { } fields
            ? new AnsweredQuestion(
                question,
                JsonReading.Numbers(json, "operands") ?? [],
                [.. read.Select(t => t!)],
                fields
            )
            : null;

    private static AnsweredField? Field(JsonElement json) =>
        JsonReading.Text(json, "name") is { } name && JsonReading.Text(json, "expected") is { } expected
            ? new AnsweredField(name, JsonReading.Text(json, "label") ?? name, expected)
            : null;

    private static AnsweredTable? Table(JsonElement json, int number)
    {
        if (Texts(json, "columns") is not { Count: > 0 } columns)
        {
            return null;
        }
        var rows = JsonReading.List(json, "rows", r => Row(r, columns));
        return rows is null ? null : new AnsweredTable(number, columns, Texts(json, "reasons") ?? [], rows);
    }

    private static AnsweredRow? Row(JsonElement json, IReadOnlyList<string> columns)
    {
        if (
            Texts(json, "cells") is not { } cells
            || Texts(json, "open") is not { } open
            || Texts(json, "places") is not { } places
            || cells.Count != columns.Count
            || open.Count != places.Count
        )
        {
            return null;
        }
        // Of columns of one name they stand in the order of the table.
        var (found, at) = (new Dictionary<int, string>(), -1);
        for (var i = 0; i < open.Count; i++)
        {
            at = columns.ToList().IndexOf(open[i], at + 1);
            if (at < 0)
            {
                return null;
            }
            found[at] = places[i];
        }
        return new AnsweredRow(Count(json, "cycle"), cells, found);
    }

    private static IReadOnlyList<string>? Texts(JsonElement json, string name) =>
        JsonReading.List(json, name, t => t.ValueKind == JsonValueKind.String ? t.GetString() : null);
}
