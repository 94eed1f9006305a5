using Reckoner.Diagnostics;
using Reckoner.Numbers;

namespace Reckoner.Page.State;

/// <summary>
/// What can be shown of a sheet that was wrong from the start, such as that of a link with an operand that does not fit: the
/// same without the numbers that are wrong; where the text is wrong, the machine that it began as.
/// </summary>
public static class StandIn
{
    /// <summary>Null where nothing of the sheet can be walked.</summary>
    public static Reading? For(Reading wrong)
    {
        var reading = WithoutWrongNumbers(wrong);
        if (reading.Walk is null && Sheet.Of(wrong.Sheet.Origin) is { } origin)
        {
            reading = WithoutWrongNumbers(Reading.Of(wrong.Sheet with { Text = origin.Text }));
        }
        return reading.Walk is null ? null : reading;
    }

    /// <summary>Operands are read once the widths are right, so wrong ones may come to light after wrong widths.</summary>
    private static Reading WithoutWrongNumbers(Reading reading)
    {
        for (var i = 0; i < 2 && reading.Walk is null && reading.Fields.Count > 0; i++)
        {
            reading = Reading.Of(
                reading.Fields.Aggregate(reading.Sheet, (sheet, slip) => Without(sheet, slip, reading))
            );
        }
        return reading;
    }

    private static Sheet Without(Sheet sheet, FieldSlip slip, Reading reading) =>
        reading.Datapath?.Operands.FirstOrDefault(o => o.Name == slip.Field) is { } operand
            ? sheet.WithOperand(operand.Index, "")
            : sheet.WithWidth(slip.Field, "");

    /// <summary>What it is that is seen.</summary>
    internal static Term Said(Reading standIn, Sheet wrong) =>
        standIn.Sheet.Text == wrong.Text
            ? new Term("page.old-numbers", ("numbers", Numbers(standIn)))
            : new Term("page.old-origin", ("machine", wrong.Origin));

    private static string Numbers(Reading reading)
    {
        var walk = reading.Walk!;
        var operands = walk.Datapath.Operands.Select(o => $"{o.Name} = {Bits.Text(o.Number(walk.Operands[o.Index]))}");
        return string.Join(", ", operands.Append(WidthText.Of(walk.Datapath.Widths)));
    }
}
