using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Reckoner.Tests;

namespace Reckoner.Cli.Tests;

/// <summary>
/// A JSON schema (draft 2020-12) of a document, made from the table of its fields in the handbook. A field is required where no
/// document lacks it.
/// </summary>
internal sealed class FieldSchema
{
    private const string AnyName = "NAME";
    private const string Format = "format";

    /// <summary>A time that happens to be whole is none of whole numbers.</summary>
    private const string Seconds = "seconds";

    private readonly SortedDictionary<string, FieldSchema> fields = new(StringComparer.Ordinal);
    private readonly HashSet<string> sometimesMissing = [];
    private string types = "object";
    private string holds = "";
    private readonly HashSet<string> missingInRange = [];
    private FieldSchema? items;
    private FieldSchema? whole;
    private bool isFraction;

    public static FieldSchema Of(MarkdownPage page, string verb)
    {
        var root = new FieldSchema();
        foreach (var row in page.Table($"Fields of {verb}"))
        {
            var field = row[0].Split('.').Aggregate(root, (at, name) => at.Below(name));
            (field.types, field.holds) = (row[1], row[2]);
        }
        return root;
    }

    /// <summary>Of a range the elements of this list have the fields of the document that follow it in the table.</summary>
    private const string OfWidths = "checks";

    /// <summary>What stands once for all widths of a range.</summary>
    private static readonly string[] Heads = [Format, "machine", "description", "slip", "only", OfWidths];

    private FieldSchema Below(string name)
    {
        var bare = name.Replace("[]", "", StringComparison.Ordinal);
        if (!fields.TryGetValue(bare, out var field))
        {
            fields[bare] = field = new FieldSchema();
        }
        for (var depth = (name.Length - bare.Length) / 2; depth > 0; depth--)
        {
            field = field.items ??= new FieldSchema();
        }
        return field;
    }

    /// <summary>Notes what a document lacks, and which numbers are not whole.</summary>
    public void See(JsonElement value)
    {
        if (value.ValueKind == JsonValueKind.Array)
        {
            foreach (var item in value.EnumerateArray())
            {
                items?.See(item);
            }
        }
        else if (value.ValueKind == JsonValueKind.Number)
        {
            isFraction |= !value.TryGetInt64(out _);
        }
        else if (value.ValueKind == JsonValueKind.Object)
        {
            if (fields.ContainsKey(OfWidths) && value.TryGetProperty(OfWidths, out var range))
            {
                range.EnumerateArray().ToList().ForEach(SeeOfRange);
            }
            foreach (var (name, field) in fields)
            {
                if (name == AnyName)
                {
                    foreach (var named in value.EnumerateObject())
                    {
                        field.See(named.Value);
                    }
                }
                else if (value.TryGetProperty(name, out var found))
                {
                    field.See(found);
                }
                else
                {
                    sometimesMissing.Add(name);
                }
            }
        }
    }

    /// <summary>Notes what one of a range lacks.</summary>
    private void SeeOfRange(JsonElement one)
    {
        foreach (var (name, field) in fields.Where(f => !Heads.Contains(f.Key)))
        {
            if (one.TryGetProperty(name, out var found))
            {
                field.See(found);
            }
            else
            {
                missingInRange.Add(name);
            }
        }
    }

    public string Text(string verb)
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
            json.WriteString("$schema", "https://json-schema.org/draft/2020-12/schema");
            json.WriteString("title", verb);
            Write(json, "");
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    /// <summary>The keywords of an object that is open already.</summary>
    private void Write(Utf8JsonWriter json, string name)
    {
        if (holds.Length > 0)
        {
            json.WriteString("description", name == Format ? "the edition of this form" : holds);
        }
        var all = types.Split(" or ").Select(t => t == "number" && IsWhole(name) ? "integer" : Type(t)).ToList();
        if (all.Count == 1)
        {
            json.WriteString("type", all[0]);
        }
        else
        {
            json.WriteStartArray("type");
            all.ForEach(json.WriteStringValue);
            json.WriteEndArray();
        }
        if (name == Format)
        {
            json.WriteNumber("const", 1);
        }
        if (name == "description" && holds.Contains("hash", StringComparison.Ordinal))
        {
            json.WriteString("pattern", "^sha256:[0-9a-f]{64}$");
        }
        WriteFields(json, fields.Where(f => f.Key != AnyName), sometimesMissing);
        if (items is not null || name == OfWidths)
        {
            json.WriteStartObject("items");
            if (items is null)
            {
                json.WriteString("type", "object");
                whole!.WriteFields(json, whole.fields.Where(f => !Heads.Contains(f.Key)), whole.missingInRange);
            }
            else
            {
                items.Write(json, "");
            }
            json.WriteEndObject();
        }
    }

    private bool IsWhole(string name) => !isFraction && name != Seconds;

    private void WriteFields(
        Utf8JsonWriter json,
        IEnumerable<KeyValuePair<string, FieldSchema>> written,
        HashSet<string> missing
    )
    {
        if (fields.TryGetValue(AnyName, out var any))
        {
            json.WriteStartObject("additionalProperties");
            any.Write(json, AnyName);
            json.WriteEndObject();
        }
        var named = written.ToList();
        if (named.Count == 0)
        {
            return;
        }
        if (any is null)
        {
            json.WriteBoolean("additionalProperties", false);
        }
        json.WriteStartObject("properties");
        foreach (var (key, field) in named)
        {
            json.WriteStartObject(key);
            field.whole = this;
            field.Write(json, key);
            json.WriteEndObject();
        }
        json.WriteEndObject();
        json.WriteStartArray("required");
        named.Select(f => f.Key).Where(k => !missing.Contains(k)).ToList().ForEach(json.WriteStringValue);
        json.WriteEndArray();
    }

    private static string Type(string type) =>
        type switch
        {
            "text" => "string",
            "number" => "number",
            "truth" => "boolean",
            "list" => "array",
            "object" => "object",
            "null" => "null",
            _ => throw new InvalidOperationException($"a type of the handbook: {type}"),
        };
}
