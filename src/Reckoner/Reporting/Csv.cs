using System.Text.RegularExpressions;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// The tables of a document as comma-separated values (RFC 4180): lines end in CR LF, fields with commas, quotes or line ends
/// stand in quotes, and every record has as many fields. Several tables stand under each other, an empty record between them.
/// </summary>
internal static partial class Csv
{
    /// <summary>What makes a spreadsheet take a text for a formula; a text that begins so gets an apostrophe before it.</summary>
    private const string Formula = "=+-@\t\r";

    public static string Of(Document document) => Written.Text(text => Write(text, document));

    public static void Write(TextWriter text, Document document)
    {
        var fields = document.Grids.Select(g => g.Columns.Count).DefaultIfEmpty(0).Max();
        foreach (var grid in document.Grids)
        {
            if (grid != document.Grids.First())
            {
                Record(text, [], fields);
            }
            Record(text, grid.Columns.Select(c => Guarded(Marks.FullHead(c))), fields);
            foreach (var row in grid.Rows)
            {
                Record(text, Marks.Cells(grid, row).Select(Plain), fields);
            }
        }
    }

    /// <summary>What a cell is as a spreadsheet's text: bits as 0b0011, so that no zero gets lost; no text is a formula.</summary>
    public static string Plain(Cell cell) =>
        cell.Lines is [{ Runs: [{ Kind: RunKind.Number } number] }]
            ? number.Text
            : GuardedWithin(string.Join("; ", cell.Lines.Select(Plain)));

    /// <summary>Digits alone, with or without a sign behind them; in a sentence they stand as they are spoken.</summary>
    private static string Plain(Content content) =>
        content.Runs switch
        {
            [{ Kind: RunKind.Digits } digits] => Literal(digits),
            [{ Kind: RunKind.Digits } digits, var sign] when Marks.IsSign(sign) => Literal(digits) + sign.Text,
            _ => content.ToString(),
        };

    private static string Literal(Run digits) =>
        (
            digits.Base switch
            {
                2 => "0b",
                8 => "0o",
                16 => "0x",
                _ => throw new InvalidOperationException($"digits of base {digits.Base}"),
            }
        ) + digits.Text.Replace(" ", "", StringComparison.Ordinal);

    public static string Guarded(string text) =>
        text.Length > 0 && Formula.Contains(text[0], StringComparison.Ordinal) ? "'" + text : text;

    /// <summary>
    /// The same behind whatever else a spreadsheet may part cells at: it does not ask what parts ours. A number is no formula.
    /// </summary>
    internal static string GuardedWithin(string text) =>
        Begun().Replace(Guarded(text), m => $"{m.Groups[1].Value}'{m.Groups[2].Value}");

    [GeneratedRegex("([;\\t\\r\\n] *)([\"' ]*(?:[=+@]|-(?![0-9. ]*(?:[;)]|$))))")]
    private static partial Regex Begun();

    private static void Record(TextWriter text, IEnumerable<string> fields, int count)
    {
        var written = fields.Select(Quoted).ToList();
        text.Write(string.Join(',', written.Concat(Enumerable.Repeat("", count - written.Count))) + "\r\n");
    }

    public static string Quoted(string field) =>
        field.AsSpan().IndexOfAny(",\"\r\n") < 0
            ? field
            : $"\"{field.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
