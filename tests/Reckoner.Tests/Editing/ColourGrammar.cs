using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.RegularExpressions;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Notation;

namespace Reckoner.Tests.Editing;

/// <summary>The notation as a TextMate grammar: rules of words and signs with the names of scopes that colour schemes know.</summary>
internal static class ColourGrammar
{
    private const string Declaration = "keyword.declaration.machine";
    private const string Machine = "entity.name.type.machine";

    /// <summary>
    /// A hyphen belongs to the name of a machine, so that words in it are no words of the notation. Its first group is the word in
    /// front, its second the name.
    /// </summary>
    public const string OfMachines = @"^\s*(machine|follows|core)\s+(\p{L}[\p{L}0-9_-]*)";

    /// <summary>What the groups of that give.</summary>
    public static IReadOnlyList<string> Groups { get; } = [Declaration, Machine];

    /// <summary>
    /// Each with the scope it gives, but for the first, which has its groups; the first that fits at a place wins.
    /// </summary>
    public static IReadOnlyList<(string Scope, string Match)> Rules { get; } =
    [
        ("", OfMachines),
        ("comment.line.double-dash.machine", "--.*$"),
        ("string.quoted.double.machine", "\"[^\"]*\"?"),
        ("constant.numeric.binary.machine", @"\b0[bB][01xX_]+\b"),
        ("constant.numeric.machine", @"\b[0-9][0-9_]*"),
        (Declaration, $@"^\s*{Words(Keywords.Declarations.Except(Keywords.Statements))}"),
        ("keyword.control.machine", Words(Keywords.Statements)),
        ("keyword.other.machine", Words(Keywords.All.Except(Keywords.Statements))),
        ("support.function.machine", Words(Operations.FunctionNames.Concat(Functions.Names)) + @"(?=\()"),
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
                if (scope.Length > 0)
                {
                    json.WriteString("name", scope);
                }
                json.WriteString("match", match);
                if (match == OfMachines)
                {
                    json.WriteStartObject("captures");
                    for (var group = 0; group < Groups.Count; group++)
                    {
                        json.WriteStartObject($"{group + 1}");
                        json.WriteString("name", Groups[group]);
                        json.WriteEndObject();
                    }
                    json.WriteEndObject();
                }
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }
}
