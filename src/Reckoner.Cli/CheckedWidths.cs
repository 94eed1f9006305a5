using System.Numerics;
using Reckoner.Binding;
using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>The widths of a check: one choice, or a range of the main width such as 4..8.</summary>
internal sealed record CheckedWidths(bool IsRange, IReadOnlyList<Dictionary<string, BigInteger>> Choices)
{
    public static CheckedWidths? Read(Request request, Machine machine)
    {
        var ends = request[Option.Width]?.Text.Split("..") ?? [];
        if (ends.Length != 2 || machine.Widths.FirstOrDefault() is not { } main)
        {
            return MachineFiles.Widths(request, machine) is { } one ? new CheckedWidths(false, [one]) : null;
        }
        var span = request[Option.Width]!.Value.Span;
        if (OperandReader.Number(ends[0]) is not { } from || OperandReader.Number(ends[1]) is not { } to)
        {
            request.Report.Add(
                Id.WidthNotNumber,
                span,
                ("value", request[Option.Width]!.Value.Text),
                ("example", $"{main.Name}=8")
            );
            return null;
        }
        if (from > to)
        {
            request.Report.Add(Id.WidthsTurned, span, ("from", from), ("to", to));
            return null;
        }
        // A range is bounded by what machines take; whether each width is in the machine's range is said when it is bound.
        var count = (int)BigInteger.Min(to - from + 1, 1024);
        var widths = Enumerable
            .Range(0, count)
            .Select(i => new Dictionary<string, BigInteger> { [main.Name.Text] = from + i });
        return new CheckedWidths(true, [.. widths]);
    }
}
