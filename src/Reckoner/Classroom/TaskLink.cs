using System.Numerics;
using Reckoner.Binding;
using Reckoner.Catalogue;

namespace Reckoner.Classroom;

/// <summary>What a link of the page says behind its "#": names and values, as in a query.</summary>
internal static class TaskLink
{
    /// <summary>Longer links are not read.</summary>
    public const int Longest = 5 * Notation.Parser.LongestText;

    public const string WidthMark = "width.";

    private const int MostValues = 64;

    public static Dictionary<string, string> Values(string fragment)
    {
        var values = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var part in fragment.Split('&', MostValues))
        {
            var equals = part.IndexOf('=', StringComparison.Ordinal);
            if (equals > 0)
            {
                values[Uri.UnescapeDataString(part[..equals])] = Uri.UnescapeDataString(part[(equals + 1)..]);
            }
        }
        return values;
    }

    /// <summary>The task that a link sets; null where it sets none, or names a machine that cannot be built.</summary>
    public static AssignedSums? Read(string link)
    {
        var values = link.Length > Longest ? [] : Values(link[(link.IndexOf('#', StringComparison.Ordinal) + 1)..]);
        if (Assignment.Read(values) is not { } assignment || Text(values) is not { } text)
        {
            return null;
        }
        var machine = Machine.Read(text, MachineCatalogue.Find);
        var widths = new Dictionary<string, BigInteger>();
        // A width that the text no longer has is passed over, as the page does.
        foreach (var name in machine.Widths.Select(w => w.Name.Text))
        {
            if (
                values.TryGetValue(WidthMark + name, out var value) && Running.OperandReader.Number(value) is { } number
            )
            {
                widths[name] = number;
            }
        }
        var datapath = machine.At(widths).Datapath;
        return datapath is null ? null : new AssignedSums(datapath, assignment);
    }

    private static Source? Text(Dictionary<string, string> values) =>
        values.TryGetValue("text", out var packed)
            ? PackedText.Read(packed) is { } text
                ? new Source("text", text)
                : null
            : MachineCatalogue.Find(values.GetValueOrDefault("machine", ""));
}
