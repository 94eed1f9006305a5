using System.Globalization;
using System.Numerics;
using Reckoner.Binding;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Proving;

/// <summary>How many clock edges after the load a machine takes, as a formula in its widths.</summary>
/// <param name="Most">
/// The most. Where the same number comes of a * n + b at every width that the machine has it is written so, else as the description
/// has it.
/// </param>
/// <param name="IsSame">Whether it takes as many for all operands: no loop may stop early.</param>
internal sealed record CycleCount(string Most, bool IsSame)
{
    private const int WidthsSeen = 3;
    private const int MostBitsSeen = 12;

    /// <summary>Of more widths than any machine has it is not asked what all of them come to.</summary>
    private const int MostWidths = 4096;

    /// <summary>Where it is not the same for all: the least and the most at some widths, for all operands inside "given".</summary>
    public IReadOnlyList<(Datapath Datapath, int Least, int Most)> Seen { get; init; } = [];

    /// <summary>Null where the schedule is that of a core, whose rounds its own description counts.</summary>
    public static CycleCount? Of(IMachine machine, Datapath datapath)
    {
        var lines = machine.Description.Declarations;
        if (lines.Any(l => l is CoreBlock))
        {
            return null;
        }
        var single = lines.Count(l => l is StepBlock);
        var loops = lines.OfType<RepeatBlock>().Select(r => (r.Count, Steps: r.Steps.Count)).ToList();
        var most = Even(machine, single, loops) ?? Written(machine, single, loops);
        var isSame = !datapath.MayStopEarly;
        return new(most, isSame) { Seen = isSame ? [] : [.. See(machine).Take(WidthsSeen)] };
    }

    /// <summary>a * n + b, where that is what the loops come to at every width there is; null where it is not.</summary>
    private static string? Even(IMachine machine, int single, List<(Expression Count, int Steps)> loops)
    {
        if (
            machine.Widths.ToList() is not [var main]
            || WidthBound.Of(main) is not var (low, high)
            || high == WidthBound.Most
            || high - low >= MostWidths
        )
        {
            return null;
        }
        var cycles = new List<BigInteger>();
        for (var n = low; n <= high; n++)
        {
            var numbers = Numbers(machine, main, n);
            BigInteger sum = single;
            foreach (var (count, steps) in loops)
            {
                if (FormulaBinding.Number(count, numbers) is not { IsWhole: true } rounds)
                {
                    return null;
                }
                sum += steps * rounds.Numerator;
            }
            cycles.Add(sum);
        }
        var slope = cycles.Count > 1 ? cycles[1] - cycles[0] : 0;
        var constant = cycles[0] - slope * low;
        return cycles.Select((c, k) => c == slope * (low + k) + constant).All(isSo => isSo)
            ? Line(main.Name.Text, slope, constant)
            : null;
    }

    private static Dictionary<string, Rational> Numbers(IMachine machine, WidthLine main, int n)
    {
        var numbers = new Dictionary<string, Rational> { [main.Name.Text] = n };
        foreach (var constant in machine.Description.Declarations.OfType<ConstantLine>())
        {
            if (FormulaBinding.Number(constant.Formula, numbers) is { } number)
            {
                numbers[constant.Name.Text] = number;
            }
        }
        return numbers;
    }

    private static string Line(string name, BigInteger slope, BigInteger constant) =>
        slope.IsZero
            ? Plain(constant)
            : Times(slope, name)
                + (constant.IsZero ? "" : $" {(constant.Sign < 0 ? '-' : '+')} {Plain(BigInteger.Abs(constant))}");

    private static string Times(BigInteger factor, string what) => factor.IsOne ? what : $"{Plain(factor)} * {what}";

    private static string Plain(BigInteger number) => number.ToString(CultureInfo.InvariantCulture);

    /// <summary>As the description has it, its constants written out.</summary>
    private static string Written(IMachine machine, int single, List<(Expression Count, int Steps)> loops)
    {
        var constants = machine.Description.Declarations.OfType<ConstantLine>().ToList();
        var parts = loops.ConvertAll(l =>
        {
            var rounds = WrittenOut.Of(l.Count, constants);
            var cycles =
                l.Steps == 1 ? rounds : WrittenOut.Times(new NumberLiteral(rounds.Span, Plain(l.Steps)), rounds);
            return cycles.ToString();
        });
        return string.Join(" + ", single > 0 || parts.Count == 0 ? parts.Append(Plain(single)) : parts);
    }

    /// <summary>The small widths of which all operands are tried at once.</summary>
    private static IEnumerable<(Datapath, int, int)> See(IMachine machine)
    {
        if (machine.Widths.FirstOrDefault() is not { } main || WidthBound.Of(main) is not var (low, high))
        {
            yield break;
        }
        for (var n = low; n <= Math.Min(high, low + MostWidths); n++)
        {
            if (
                machine.Built(new Dictionary<string, BigInteger> { [main.Name.Text] = n }) is not { } datapath
                || datapath.Operands.Sum(o => o.Width) > MostBitsSeen
            )
            {
                yield break;
            }
            var cycles = Averages.Of(datapath, InterpretedEngine.Widest)?.Cycles ?? [];
            if (cycles.Count > 0)
            {
                yield return (datapath, cycles.Min(c => c.Cycles), cycles.Max(c => c.Cycles));
            }
        }
    }
}
