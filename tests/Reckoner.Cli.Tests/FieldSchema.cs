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

    private readonly SortedDictionary<string, FieldSchema> fields = new(StringComparer.Ordinal);
    private readonly HashSet<string> sometimesMissing = [];
    private string types = "object";
    private string holds = "";
    private FieldSchema? items;
    private bool isWhole;

    public static FieldSchema Of(MarkdownPage page, string verb)
    {
        var root = new FieldSchema { isWhole = true };
        foreach (var row in page.Table($"Fields of {verb}"))
        {
            var field = row[0].Split('.').Aggregate(root, (at, name) => at.Below(name));
            (field.types, field.holds) = (row[1], row[2]);
        }
        return root;
    }

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

    /// <summary>Notes what a document lacks.</summary>
    public void See(JsonElement value)
    {
        if (value.ValueKind == JsonValueKind.Array)
        {
            foreach (var item in value.EnumerateArray())
            {
                items?.See(item);
            }
        }
        else if (value.ValueKind == JsonValueKind.Object)
        {
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
            json.WriteString("description", holds);
        }
        var all = types.Split(" or ").Select(Type).ToList();
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
        if (name == "format")
        {
            json.WriteNumber("const", 1);
        }
        if (name == "description")
        {
            json.WriteString("pattern", "^sha256:[0-9a-f]{64}$");
        }
        WriteFields(json);
        if (items is not null || name == "checks")
        {
            json.WriteStartObject("items");
            if (items is null)
            {
                // What stands there is a document of the same kind, without what the outer one says for all of them.
                json.WriteString("type", "object");
            }
            else
            {
                items.Write(json, "");
            }
            json.WriteEndObject();
        }
    }

    private void WriteFields(Utf8JsonWriter json)
    {
        if (fields.TryGetValue(AnyName, out var any))
        {
            json.WriteStartObject("additionalProperties");
            any.Write(json, AnyName);
            json.WriteEndObject();
        }
        var named = fields.Where(f => f.Key != AnyName).ToList();
        if (named.Count == 0)
        {
            return;
        }
        json.WriteStartObject("properties");
        foreach (var (key, field) in named)
        {
            json.WriteStartObject(key);
            field.Write(json, isWhole ? key : "");
            json.WriteEndObject();
        }
        json.WriteEndObject();
        json.WriteStartArray("required");
        named.Select(f => f.Key).Where(k => !sometimesMissing.Contains(k)).ToList().ForEach(json.WriteStringValue);
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
