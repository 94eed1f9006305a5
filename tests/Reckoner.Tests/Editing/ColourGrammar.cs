using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.RegularExpressions;
using Reckoner.Datapaths;
using Reckoner.Notation;

namespace Reckoner.Tests.Editing;

/// <summary>The notation as a TextMate grammar: rules of words and signs with the names of scopes that colour schemes know.</summary>
internal static class ColourGrammar
{
    /// <summary>Each with the scope it gives; the first that fits at a place wins.</summary>
    public static IReadOnlyList<(string Scope, string Match)> Rules { get; } =
    [
        ("comment.line.double-dash.machine", "--.*$"),
        ("string.quoted.double.machine", "\"[^\"]*\"?"),
        ("constant.numeric.binary.machine", @"\b0[bB][01xX_]+\b"),
        ("constant.numeric.machine", @"\b[0-9][0-9_]*"),
        ("keyword.declaration.machine", $@"^\s*{Words(Keywords.Declarations.Except(Keywords.Statements))}"),
        ("keyword.control.machine", Words(Keywords.Statements)),
        ("keyword.other.machine", Words(Keywords.All.Except(Keywords.Statements))),
        ("support.function.machine", Words(Operations.FunctionNames) + @"(?=\()"),
        ("keyword.operator.machine", @"<-|\.\.|<=|>=|<>|[-=<>+*/^:]"),
    ];

    private static string Words(IEnumerable<string> words) =>
        $@"\b(?:{string.Join('|', words.Distinct().Order(StringComparer.Ordinal).Select(Regex.Escape))})\b";

    public static string Text()
    {
        using var stream = new MemoryStream();
        var options = new JsonWriterOptions
        {
            Indented = true,
            NewLine = "\n",
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        };
        using (var json = new Utf8JsonWriter(stream, options))
        {
            json.WriteStartObject();
            json.WriteString("name", "machine");
            json.WriteString("scopeName", "source.machine");
            json.WriteStartArray("fileTypes");
            json.WriteStringValue("machine");
            json.WriteEndArray();
            json.WriteStartArray("patterns");
            foreach (var (scope, match) in Rules)
            {
                json.WriteStartObject();
                json.WriteString("name", scope);
                json.WriteString("match", match);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }
}
