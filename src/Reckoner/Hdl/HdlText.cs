using System.Text;

namespace Reckoner.Hdl;

/// <summary>Lines of hardware text, those inside something further in.</summary>
/// <param name="comment">What begins a comment.</param>
internal sealed class HdlText(string comment)
{
    private readonly StringBuilder text = new();
    private int depth;

    public void Line(string line = "")
    {
        if (line.Length > 0)
        {
            text.Append(' ', 2 * depth).Append(line);
        }
        text.Append('\n');
    }

    /// <summary>A comment of one line; nothing where nothing is said.</summary>
    public void Remark(string said)
    {
        if (said.Length > 0)
        {
            Line(comment + " " + OneLine(said));
        }
    }

    /// <summary>A line with a comment behind it, where something is said.</summary>
    public void Line(string line, string said) => Line(said.Length > 0 ? $"{line} {comment} {OneLine(said)}" : line);

    public void Inside(string opens, Action inside, string closes)
    {
        Line(opens);
        Inside(inside);
        Line(closes);
    }

    public void Inside(Action inside)
    {
        depth++;
        inside();
        depth--;
    }

    /// <summary>Words with which tools of others are told something in a comment, in whatever capitals; common practice.</summary>
    private static readonly string[] Orders =
    [
        "synopsys",
        "synthesis",
        "pragma",
        "verilator",
        "translate_off",
        "translate_on",
        "translate",
        "psl",
        "cadence",
        "ambit",
        "altera",
        "xilinx",
        "vcs",
        "coverage",
        "exemplar",
        "lint_off",
        "lint_on",
        "attribute",
    ];

    /// <summary>What is said in a description orders nothing: such a comment begins with a stroke.</summary>
    private static string OneLine(string said)
    {
        var line = said.ReplaceLineEndings(" ").Trim();
        var end = line.AsSpan().IndexOfAnyExcept(Letters);
        var first = end < 0 ? line : line[..end];
        return Orders.Contains(first, StringComparer.OrdinalIgnoreCase) ? "- " + line : line;
    }

    private static readonly System.Buffers.SearchValues<char> Letters = System.Buffers.SearchValues.Create(
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ_"
    );

    public override string ToString() => text.ToString();
}
