using System.Globalization;
using System.Numerics;
using System.Text;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Tests;

/// <summary>A walk as the case files write it: operands, a row per moment with every register, results.</summary>
internal static class WalkBlock
{
    public static string Of(Walk walk)
    {
        var text = new StringBuilder(Heading(walk)).Append('\n');
        foreach (var row in walk.Rows)
        {
            var name = row.Step?.Name is { } step ? " @" + step : "";
            foreach (var moment in row.Moments.Where(m => !m.Stored))
            {
                Append(text, $"{row.Cycle}.{moment.Moment}", walk.Datapath, moment.Registers, name);
            }
            Append(text, $"{row.Cycle}", walk.Datapath, row.Registers, name);
        }
        var results = walk.Datapath.Results.Zip(walk.Results, (r, bits) => $" {r.Name}={r.Number(bits)}");
        return text.Append('=').AppendJoin("", results).Append("\nend\n").ToString();
    }

    private static string Heading(Walk walk)
    {
        var widths = walk.Datapath.Widths.Select(w => $"{w.Name}={w.Value}");
        var operands = walk.Datapath.Operands.Select(o => $"{o.Name}={o.Number(walk.Operands[o.Index])}");
        return $"walk{(walk.IsGiven ? "" : "!")} {string.Join(' ', widths.Concat(operands))}";
    }

    private static void Append(
        StringBuilder text,
        string label,
        Datapath datapath,
        IReadOnlyList<BigInteger> registers,
        string step
    )
    {
        text.Append(label);
        foreach (var register in datapath.Registers)
        {
            text.Append(' ').Append(register.Name).Append('=');
            text.Append(Digits(registers[register.Index], register.Width));
        }
        text.Append(step).Append('\n');
    }

    /// <summary>All digits of a word; not by the core's own way of writing them.</summary>
    private static string Digits(BigInteger bits, int width) =>
        width < 63
            ? Convert.ToString((long)bits, 2).PadLeft(width, '0')
            : bits.ToString("B").TrimStart('0').PadLeft(width, '0');

    /// <summary>The widths and operands that a heading names, as numbers.</summary>
    public static Dictionary<string, BigInteger> Numbers(string heading) =>
        heading
            .Split(' ')
            .Skip(1)
            .Select(word => word.Split('='))
            .ToDictionary(w => w[0], w => BigInteger.Parse(w[1], CultureInfo.InvariantCulture));

    /// <summary>The bits of the operands among these numbers, in the order of the text.</summary>
    public static BigInteger[] Operands(Datapath datapath, Dictionary<string, BigInteger> numbers) =>
        [.. datapath.Operands.Select(o => Bits.Wrap(numbers[o.Name], o.Width))];
}
