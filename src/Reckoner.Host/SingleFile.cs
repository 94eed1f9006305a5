using System.IO.Compression;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace Reckoner.Host;

/// <summary>The page's folder as one HTML file that a browser opens from a disk, with nothing else and without a network.</summary>
public static partial class SingleFile
{
    private const string Framework = "_framework/";
    private const string Starter = "blazor.webassembly.js";

    /// <summary>
    /// The start-up of the framework, with every resource taken from the file itself. Scripts are imported from blobs, whose
    /// address is no place in a folder, so a made-up one stands in for it.
    /// </summary>
    private const string Start = """
        (async () => {
            const bytes = async (name) => {
                const packed = Uint8Array.from(atob(window.packed[name]), (c) => c.charCodeAt(0));
                const unpacked = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
                return new Response(unpacked).arrayBuffer();
            };
            const scripts = {};
            for (const name of Object.keys(window.packed).filter((n) => n.endsWith(".js"))) {
                const place = JSON.stringify("http://page.invalid/_framework/" + name);
                const text = new TextDecoder().decode(await bytes(name)).replaceAll("import.meta.url", place);
                scripts[name] = URL.createObjectURL(new Blob([text], { type: "text/javascript" }));
            }
            await Blazor.start({
                loadBootResource: (type, name) => {
                    if (type === "dotnetjs") return scripts[name];
                    const kind = name.endsWith(".wasm") ? "application/wasm" : "application/octet-stream";
                    return bytes(name).then((b) => new Response(b, { headers: { "Content-Type": kind } }));
                },
            });
            delete window.packed;
        })();
        """;

    /// <param name="read">Gives a file of the folder by its place in it.</param>
    /// <param name="names">The places of all files.</param>
    public static string Of(IEnumerable<string> names, Func<string, byte[]> read)
    {
        string Text(string name) => Encoding.UTF8.GetString(read(name));

        var packed = names
            .Where(n =>
                n.StartsWith(Framework, StringComparison.Ordinal) && !n.EndsWith(Starter, StringComparison.Ordinal)
            )
            .Where(n => n.EndsWith(".wasm", StringComparison.Ordinal) || n.EndsWith(".js", StringComparison.Ordinal))
            .Order(StringComparer.Ordinal)
            .ToDictionary(n => n[Framework.Length..], n => Packed(read(n)));
        var html = Text("index.html");
        html = Style().Replace(html, m => $"<style>\n{Text(m.Groups[1].Value)}</style>");
        return Script()
            .Replace(
                html,
                m =>
                    m.Groups[1].Value == Framework + Starter
                        ? $"<script>window.packed = {JsonSerializer.Serialize(packed)};</script>\n"
                            + $"<script autostart=\"false\">{Inner(Text(Framework + Starter))}</script>\n"
                            + $"<script>\n{Start}\n</script>"
                        : $"<script>\n{Inner(Text(m.Groups[1].Value))}</script>"
            );
    }

    /// <summary>Every file of a folder, by its place in it.</summary>
    public static string Of(string folder) =>
        Of(
            Directory
                .EnumerateFiles(folder, "*", SearchOption.AllDirectories)
                .Select(f => Path.GetRelativePath(folder, f).Replace('\\', '/')),
            name => File.ReadAllBytes(Path.Combine(folder, name))
        );

    /// <summary>A script's text may not hold what ends a script.</summary>
    private static string Inner(string script) =>
        script.Replace("</script", "<\\/script", StringComparison.OrdinalIgnoreCase);

    private static string Packed(byte[] bytes)
    {
        using var packed = new MemoryStream();
        using (var gzip = new GZipStream(packed, CompressionLevel.SmallestSize))
        {
            gzip.Write(bytes);
        }
        return Convert.ToBase64String(packed.ToArray());
    }

    [GeneratedRegex("<link rel=\"stylesheet\" href=\"([^\"]+)\" />")]
    private static partial Regex Style();

    [GeneratedRegex("<script src=\"([^\"]+)\"></script>")]
    private static partial Regex Script();
}
