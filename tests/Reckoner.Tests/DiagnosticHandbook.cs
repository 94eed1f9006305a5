using System.Numerics;
using System.Text.RegularExpressions;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Diagnostics;

namespace Reckoner.Tests;

/// <summary>
/// An entry of docs/handbook/diagnostics.md: "### ID", why the rule exists, then blocks whose info string says what they are:
/// "wrong" or "mended", with "width=8" or "width=m=4" for the width they are read at, and "generated" where
/// {COUNT times: TEXT} and {U+NUMBER} are to be written out; "beside NAME" is found by the examples after it.
/// </summary>
internal sealed partial record DiagnosticEntry(string Id, string Why, IReadOnlyList<DiagnosticExample> Examples)
{
    public static IReadOnlyList<DiagnosticEntry> All { get; } =
    [.. Read(File.ReadAllText(Sources.File("docs/handbook/diagnostics.md")))];

    public static DiagnosticEntry Of(string id) => All.Single(e => e.Id == id);

    public DiagnosticExample Wrong => Examples.Single(e => !e.IsMended);

    public DiagnosticExample Mended => Examples.Single(e => e.IsMended);

    public static IEnumerable<DiagnosticEntry> Read(string handbook) =>
        handbook.Split("\n### ").Skip(1).Select(text => Entry(text.Split("\n## ")[0]));

    private static DiagnosticEntry Entry(string text)
    {
        var beside = new Dictionary<string, string>();
        var examples = new List<DiagnosticExample>();
        foreach (Match block in Block().Matches(text))
        {
            var info = block.Groups["info"].Value;
            var body = block.Groups["body"].Value;
            if (info.Split(' ') is ["beside", var name])
            {
                beside[name] = body;
                continue;
            }
            var form = Info().Match(info);
            if (!form.Success)
            {
                throw new InvalidDataException($"{text.Split('\n')[0]}: a block is headed '{info}'");
            }
            examples.Add(
                new DiagnosticExample(
                    form.Groups["kind"].Value == "mended",
                    form.Groups["generated"].Success ? Generated(body) : body,
                    form.Groups["width"].Success ? form.Groups["width"].Value : null,
                    new Dictionary<string, string>(beside)
                )
            );
        }
        var prose = Block().Replace(text, "").Split('\n', 2);
        return new DiagnosticEntry(prose[0], prose[1].Trim(), examples);
    }

    private static string Generated(string body) =>
        Hidden()
            .Replace(
                Recipe()
                    .Replace(
                        body,
                        r => string.Concat(Enumerable.Repeat(r.Groups[2].Value, int.Parse(r.Groups[1].Value)))
                    ),
                h => $"{(char)Convert.ToInt32(h.Groups[1].Value, 16)}"
            );

    [GeneratedRegex(@"^```(?<info>.*)\n(?<body>(.*\n)*?)```$", RegexOptions.Multiline)]
    private static partial Regex Block();

    [GeneratedRegex("^(?<kind>wrong|mended)( (?<generated>generated))?( width=(?<width>.+))?$")]
    private static partial Regex Info();

    [GeneratedRegex(@"\{U\+([0-9A-F]{4})\}")]
    private static partial Regex Hidden();

    [GeneratedRegex(@"\{(\d+) times: ([^}]*)\}")]
    private static partial Regex Recipe();
}

/// <param name="Width">As for --width: a number for the main width, or NAME=NUMBER; null for the defaults.</param>
/// <param name="Beside">Descriptions that it may name, by their names; the catalogue comes after them.</param>
internal sealed record DiagnosticExample(
    bool IsMended,
    string Text,
    string? Width,
    IReadOnlyDictionary<string, string> Beside
)
{
    public Source Source =>
        new((Text.StartsWith("machine ") ? Text.Split('\n')[0]["machine ".Length..] : "untitled") + ".machine", Text);

    /// <summary>Everything that is found, hints too.</summary>
    public IReadOnlyList<Diagnostic> Found()
    {
        var machine = Machine.Read(Source, Named);
        return Width?.Split('=') switch
        {
            null => machine.At().Diagnostics,
            [var width] => machine.At(int.Parse(width)).Diagnostics,
            [var name, var width] => machine
                .At(new Dictionary<string, BigInteger> { [name] = int.Parse(width) })
                .Diagnostics,
            _ => throw new InvalidDataException($"a block says width={Width}"),
        };
    }

    private Source? Named(string name) =>
        Beside.TryGetValue(name, out var text) ? new Source(name + ".machine", text) : MachineCatalogue.Find(name);
}
