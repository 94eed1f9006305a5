using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Page.State;

/// <summary>Where a wrong machine first does something else than a right one, at the narrowest width at which a law breaks.</summary>
public static class Parting
{
    /// <summary>Operand bits up to which every operand is tried word by word; it takes a moment.</summary>
    private const int MostBits = 10;

    /// <summary>The narrowest widths that fail, with the smallest operands that do; null where none so narrow fails.</summary>
    public static (Datapath Datapath, IReadOnlyList<BigInteger> Operands)? Narrowest(Reading reading)
    {
        if (reading.Datapath is not { Widths.Count: > 0 } chosen)
        {
            return null;
        }
        var widths = reading.ChosenWidths.ToDictionary();
        // Widths that the machine does not allow have no datapath; from the first with too many operand bits on, all have.
        for (var width = 1; width <= MostBits; width++)
        {
            widths[chosen.Widths[0].Name] = width;
            if (reading.Machine.At(widths).Datapath is not { } datapath)
            {
                continue;
            }
            if (datapath.Operands.Sum(o => o.Width) > MostBits)
            {
                break;
            }
            if (Failing(new WordCheck(datapath, null)) is { } smallest)
            {
                return (datapath, smallest.Operands);
            }
        }
        return null;
    }

    private static FailingCase? Failing(WordCheck check) =>
        check
            .Run(0, check.Space.Steps, null, CancellationToken.None)
            .Counts.Where(c => c.Section == CheckSection.Laws)
            .Select(c => c.Smallest)
            .FirstOrDefault();

    /// <summary>The first cycle in which a register that both have holds something else; the results where there is none.</summary>
    internal static (int Moment, Term Said) Of(Walk wrong, Walk right)
    {
        if (Differences.Between(wrong, right) is not [var first, ..])
        {
            return (wrong.Cycles + 1, new Term("page.parts-not", ("machine", right.Datapath.Machine.Name)));
        }
        return (
            first.Cycle,
            new Term(
                "page.parts",
                ("cycle", first.Cycle),
                ("register", first.Register),
                ("own", Held(wrong, first)),
                ("other", Held(right, first)),
                ("machine", right.Datapath.Machine.Name)
            )
        );
    }

    private static string Held(Walk walk, Differences.Bits where)
    {
        var register = walk.Datapath.Registers.First(r => r.Name == where.Register);
        return Bits.Text(walk.Rows[where.Cycle].Registers[register.Index], register.Width);
    }
}
