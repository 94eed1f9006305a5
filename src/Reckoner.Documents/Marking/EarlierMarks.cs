using System.Globalization;
using System.Text.Json;
using Reckoner.Diagnostics;
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
    /// <summary>What stands above the columns.</summary>
    public IReadOnlyList<string> Heads { get; init; } = [];

    /// <summary>What stands in the first column for each student: the identifier, or what a gradebook knows them by.</summary>
    public IReadOnlyDictionary<string, string> Keys { get; init; } = new Dictionary<string, string>();

    public static readonly EarlierMarks None = new(
        [],
        new Dictionary<(string, string), string>(),
        new Dictionary<(string, string), decimal>(),
        new Dictionary<string, string>(),
        ""
    );

    public static string SettingsOf(MarkedClass marked) =>
        $"{marked.Scheme} {string.Join(' ', marked.Withdrawn.Order())}";

    /// <param name="columns">Of marks.csv, each with its head.</param>
    public static string Json(MarkBook book, IReadOnlyList<(string Name, string Head)> columns) =>
        Reporting.Json.Document(json =>
        {
            json.WriteString("settings", SettingsOf(book.Class));
            json.List("columns", columns, c => json.WriteStringValue(c.Name));
            json.List("heads", columns, c => json.WriteStringValue(c.Head));
            // Whoever is not of this class, and what does not count, may be again: what was set by hand stays.
            var present = book.Class.Sheets.ToDictionary(s => s.Sheet.Identifier);
            json.Objects(
                "students",
                present.Keys.Concat(book.ByHand.Keys.Select(k => k.Student)).Distinct(),
                student =>
                {
                    var sheet = present.GetValueOrDefault(student);
                    json.WriteString("identifier", student);
                    json.WriteString("key", book.Class.KeyOf(student));
                    json.WriteString("print", sheet?.Print ?? "");
                    json.Object("marks", () => Marks(book.Columns, c => sheet is null ? null : book.Final(sheet, c)));
                    json.Object(
                        "byHand",
                        () =>
                            Marks(
                                book.ByHand.Keys.Where(k => k.Student == student).Select(k => k.Column),
                                c => book.ByHand[(student, c)]
                            )
                    );
                }
            );

            void Marks(IEnumerable<string> of, Func<string, decimal?> mark)
            {
                foreach (var column in of)
                {
                    json.WriteString(column, MarkBook.Written(mark(column)));
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
                || JsonReading.List(json, "heads", c => c.GetString()) is not { } heads
                || heads.Count != columns.Count
                || JsonReading.List(json, "students", s => Tuple.Create(s)) is not { } students
            )
            {
                return null;
            }
            var written = new Dictionary<(string, string), string>();
            var byHand = new Dictionary<(string, string), decimal>();
            var (prints, keys) = (new Dictionary<string, string>(), new Dictionary<string, string>());
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
                keys[who] = JsonReading.Text(student, "key") ?? who;
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
            return new EarlierMarks(columns, written, byHand, prints, settings) { Heads = heads, Keys = keys };
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

    /// <summary>Something in marks.csv that is not as it was written, or no mark.</summary>
    /// <param name="Why">Without what stands there: it may be anybody's name.</param>
    public sealed record NoMark(int Line, Term Why);

    /// <summary>
    /// With what was changed in marks.csv since: a cell that says another number is set by hand, one that was emptied is not any more.
    /// Columns may stand in another order, and are told by their heads.
    /// </summary>
    /// <param name="table">The text of marks.csv, as some program may have saved it.</param>
    public (EarlierMarks Marks, NoMark? Wrong) With(string table)
    {
        var rows = ListRows.Of(table, out var open).Where(r => r.Cells.Any(c => c.Length > 0)).ToList();
        if (open is { } quote)
        {
            return (this, new NoMark(quote, new Term("mark.quote-open")));
        }
        if (rows.Count == 0 || Places(rows[0].Cells) is not { } places)
        {
            return (this, new NoMark(rows.Count == 0 ? 1 : rows[0].Line, new Term("mark.other-heads")));
        }
        var byHand = new Dictionary<(string, string), decimal>(ByHand);
        // By what stands in the file, where nothing begins like a formula, and as they are.
        var printed = new Dictionary<string, string>();
        foreach (var (student, key) in Keys)
        {
            printed.TryAdd(key, student);
        }
        foreach (var (student, key) in Keys)
        {
            printed.TryAdd(Csv.GuardedWithin(key), student);
        }
        foreach (var row in rows.Skip(1))
        {
            var named = row.Cells.ElementAtOrDefault(places[0]) ?? "";
            if (!printed.TryGetValue(named, out var who) && !printed.TryGetValue(named.TrimStart('\''), out who))
            {
                return (this, new NoMark(row.Line, new Term("mark.nobody")));
            }
            for (var i = 1; i < Columns.Count; i++)
            {
                var cell = (who, Columns[i]);
                if (
                    !Written.TryGetValue(cell, out var before)
                    || row.Cells.ElementAtOrDefault(places[i]) is not { } text
                    || text == before
                )
                {
                    continue;
                }
                if (text.Length == 0)
                {
                    byHand.Remove(cell);
                }
                else if (Number(text) is not { } number)
                {
                    return (this, new NoMark(row.Line, new Term("mark.no-mark", ("column", Heads[i]))));
                }
                else if (number != Number(before))
                {
                    byHand[cell] = number;
                }
            }
        }
        return (this with { ByHand = byHand }, null);
    }

    /// <summary>Where each column stands by now, -1 for one that holds no marks and is gone; null where that is not to be told.</summary>
    private List<int>? Places(IReadOnlyList<string> found)
    {
        var heads = Heads.Select(Bare).ToList();
        if (found.Take(heads.Count).Select(Bare).SequenceEqual(heads))
        {
            return [.. Enumerable.Range(0, heads.Count)];
        }
        var holding = Written.Keys.Select(k => k.Column).ToHashSet();
        var places = new List<int>();
        for (var i = 0; i < heads.Count; i++)
        {
            var at = Enumerable.Range(0, found.Count).Where(f => Bare(found[f]) == heads[i]).ToList();
            if (at.Count != 1 && (i == 0 || holding.Contains(Columns[i])))
            {
                return null;
            }
            places.Add(at.Count == 1 ? at[0] : -1);
        }
        return places;
    }

    private static string Bare(string head) =>
        string.Join(' ', head.TrimStart('\'').Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
