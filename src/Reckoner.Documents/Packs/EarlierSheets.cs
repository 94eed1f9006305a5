using System.Numerics;
using System.Text.Json;
using Reckoner.Reporting;
using Reckoner.Sheets;

namespace Reckoner.Documents.Packs;

/// <summary>A sheet as it was made before.</summary>
/// <param name="Operands">For each question that has some, by its number, the operands by name.</param>
internal sealed record EarlierSheet(
    string Identifier,
    SheetNumber Number,
    IReadOnlyDictionary<int, IReadOnlyList<(string Name, BigInteger Number)>> Operands
);

/// <summary>
/// What a later run begins with: the seed, what the sheets were made from, and who got what, also those who left the list since.
/// </summary>
internal sealed record EarlierSheets(
    SheetSecret Secret,
    IReadOnlyList<(string File, string Hash)> Made,
    IReadOnlyDictionary<string, EarlierSheet> Sheets
)
{
    /// <summary>Null for what is no such document.</summary>
    public static EarlierSheets? Read(ReadOnlyMemory<byte> bytes)
    {
        try
        {
            using var document = JsonDocument.Parse(bytes);
            var json = document.RootElement;
            var made = JsonReading.List(json, "files", f => Pair(f));
            var sheets = JsonReading.List(json, "sheets", Sheet);
            var left = JsonReading.List(json, "left", Sheet);
            var questions = JsonReading.List(
                json,
                "questions",
                q => q.ValueKind == JsonValueKind.Object ? Tuple.Create(Count(q, "question")) : null
            );
            return
                JsonReading.OtherFormat(json) is null
                && JsonReading.Text(json, "seed") is { } seed
                && SheetSecret.Read(seed) is { } secret
                && made is not null
                && sheets is not null
                && left is not null
                && questions is not null
                && questions.All(q => q.Item1 is not null)
                && questions.Distinct().Count() == questions.Count
                && sheets.Concat(left).ToList() is var all
                && all.DistinctBy(s => s.Identifier).Count() == all.Count
                && all.DistinctBy(s => s.Number).Count() == all.Count
                ? new EarlierSheets(
                    secret,
                    [.. made.Select(m => (m.Item1, m.Item2))],
                    all.ToDictionary(s => s.Identifier)
                )
                : null;
        }
        // What is no text, such as half of a pair of code units, is found only when it is read.
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return null;
        }
    }

    private static Tuple<string, string>? Pair(JsonElement file) =>
        JsonReading.Text(file, "file") is { } name && JsonReading.Text(file, "hash") is { } hash
            ? Tuple.Create(name, hash)
            : null;

    private static int? Count(JsonElement json, string name) =>
        json.TryGetProperty(name, out var value)
        && value.ValueKind == JsonValueKind.Number
        && value.TryGetInt32(out var count)
            ? count
            : null;

    private static EarlierSheet? Sheet(JsonElement json)
    {
        if (
            JsonReading.Text(json, "identifier") is not { } identifier
            || JsonReading.Text(json, "sheet") is not { } text
            || SheetNumber.Read(text) is not { } number
            || JsonReading.List(json, "answers", a => a.ValueKind == JsonValueKind.Object ? Tuple.Create(a) : null)
                is not { } answers
        )
        {
            return null;
        }
        var operands = new Dictionary<int, IReadOnlyList<(string, BigInteger)>>();
        foreach (var answer in answers.Select(a => a.Item1))
        {
            if (!answer.TryGetProperty("operands", out _))
            {
                continue;
            }
            if (
                Count(answer, "question") is not { } question
                || JsonReading.Numbers(answer, "operands") is not { } numbers
                || !operands.TryAdd(question, numbers)
            )
            {
                return null;
            }
        }
        return new EarlierSheet(identifier, number, operands);
    }
}
