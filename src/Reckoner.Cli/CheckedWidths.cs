using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>The widths of a check: one choice, or a range of one width, such as 4..8 of the main one or n=4..8,m=4.</summary>
internal sealed record CheckedWidths(bool IsRange, IReadOnlyList<Dictionary<string, BigInteger>> Choices)
{
    private const string To = "..";

    public static CheckedWidths? Read(Request request, IMachine machine)
    {
        var items = request[Option.Width]?.Text.Split(',') ?? [];
        var at = Array.FindIndex(items, i => i.Contains(To, StringComparison.Ordinal));
        if (at < 0 || machine.Widths.FirstOrDefault() is not { } main)
        {
            return MachineFiles.Widths(request, machine) is { } one ? new CheckedWidths(false, [one]) : null;
        }
        var asked = request[Option.Width]!.Value;
        var parts = items[at].Split('=', 2);
        var name = parts.Length == 2 ? parts[0] : main.Name.Text;
        var ends = parts[^1].Split(To, 2);
        if (OperandReader.Number(ends[0]) is not { } from || OperandReader.Number(ends[1]) is not { } to)
        {
            // Read as a width it is refused with its place.
            MachineFiles.Widths(request, machine);
            return null;
        }
        items[at] = $"{name}={from}";
        return MachineFiles.Widths(request, machine, asked with { Text = string.Join(',', items) }) is { } first
            ? Range(request, asked, first, name, from, to)
            : null;
    }

    private static CheckedWidths? Range(
        Request request,
        RequestWord asked,
        Dictionary<string, BigInteger> first,
        string name,
        BigInteger from,
        BigInteger to
    )
    {
        if (from > to)
        {
            request.Report.Add(Id.WidthsTurned, asked.Span, ("from", from), ("to", to));
            return null;
        }
        // A range is bounded by what machines take; whether each width is in the machine's range is said when it is bound.
        var count = (int)BigInteger.Min(to - from + 1, 1024);
        return new CheckedWidths(
            true,
            [.. Enumerable.Range(0, count).Select(i => new Dictionary<string, BigInteger>(first) { [name] = from + i })]
        );
    }
}
