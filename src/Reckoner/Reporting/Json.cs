using System.Buffers;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace Reckoner.Reporting;

/// <summary>JSON documents as every output writes them: a format number, numbers as strings, indented.</summary>
internal static class Json
{
    /// <summary>Raised when a field changes its meaning or goes; new fields do not raise it.</summary>
    public const int Format = 1;

    /// <summary>So many bytes are kept back before they are passed on.</summary>
    private const int Pending = 1 << 16;

    private static readonly JsonWriterOptions Options = new()
    {
        Indented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        NewLine = "\n",
    };

    public static string Document(Action<Utf8JsonWriter> write)
    {
        using var stream = new MemoryStream();
        Document(stream, write);
        return Encoding.UTF8.GetString(stream.GetBuffer().AsSpan(0, (int)stream.Length));
    }

    /// <summary>Writes a document that may be long as it is made: lists pass it on while they grow.</summary>
    public static void Document(Stream stream, Action<Utf8JsonWriter> write)
    {
        using var json = Begun(new Utf8JsonWriter(stream, Options));
        write(json);
        End(json);
        stream.Write("\n"u8);
    }

    /// <summary>A document that somebody writes on until it is ended.</summary>
    public static Utf8JsonWriter Begin(IBufferWriter<byte> written) => Begun(new Utf8JsonWriter(written, Options));

    private static Utf8JsonWriter Begun(Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteNumber("format", Format);
        return json;
    }

    /// <summary>Ends one that was begun, but for the end of its last line.</summary>
    public static void End(Utf8JsonWriter json)
    {
        json.WriteEndObject();
        json.Flush();
    }

    public static void Object(this Utf8JsonWriter json, string name, Action write)
    {
        json.WriteStartObject(name);
        write();
        json.WriteEndObject();
    }

    /// <summary>An object about something, or null where there is nothing.</summary>
    public static void Object<T>(this Utf8JsonWriter json, string name, T? about, Action<T> write)
        where T : class
    {
        if (about is null)
        {
            json.WriteNull(name);
        }
        else
        {
            json.Object(name, () => write(about));
        }
    }

    public static void List<T>(this Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> write)
    {
        json.WriteStartArray(name);
        foreach (var item in items)
        {
            write(item);
            if (json.BytesPending > Pending)
            {
                json.Flush();
            }
        }
        json.WriteEndArray();
    }

    /// <summary>A list of objects.</summary>
    public static void Objects<T>(this Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> write) =>
        json.List(
            name,
            items,
            item =>
            {
                json.WriteStartObject();
                write(item);
                json.WriteEndObject();
            }
        );
}
