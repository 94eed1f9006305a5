using System.Numerics;
using Reckoner.Claims;
using Reckoner.Datapaths;

namespace Reckoner.Choosing;

/// <summary>Why operands may be answered without doing the work.</summary>
public enum Shortcut
{
    /// <summary>An operand is 0, 1 or -1.</summary>
    SmallOperand,

    /// <summary>
    /// An operand, or a result that is asked for, is a power of two, 2 among them, or the negative of one: all is shifting.
    /// </summary>
    PowerOfTwo,

    /// <summary>Two operands are the same number.</summary>
    EqualOperands,

    /// <summary>A result is 0, 1 or -1; what is left over, by the laws, may be.</summary>
    SmallResult,

    /// <summary>A slip gives the right results that nine in ten operands without another shortcut expose.</summary>
    SlipUnseen,
}

/// <summary>The shortcuts that are seen by operands and results alone, by whole numbers.</summary>
internal static class Shortcuts
{
    /// <summary>What each is called where it is allowed.</summary>
    public static string Name(Shortcut shortcut) =>
        shortcut switch
        {
            Shortcut.SmallOperand => "small-operand",
            Shortcut.PowerOfTwo => "power-of-two",
            Shortcut.EqualOperands => "equal-operands",
            Shortcut.SmallResult => "small-result",
            Shortcut.SlipUnseen => "slip-unseen",
        };

    /// <summary>By how much it spares the work: 1 where shifting is left, 2 where nothing is.</summary>
    public static int Shortness(Shortcut shortcut) =>
        shortcut switch
        {
            Shortcut.SmallOperand or Shortcut.EqualOperands or Shortcut.SmallResult => 2,
            Shortcut.PowerOfTwo => 1,
            Shortcut.SlipUnseen => 0,
        };

    public static IReadOnlyList<Shortcut> All { get; } = Enum.GetValues<Shortcut>();

    /// <param name="operands">Their bits; <paramref name="results"/> likewise.</param>
    public static IEnumerable<Shortcut> Of(
        Datapath datapath,
        IReadOnlyList<BigInteger> operands,
        IReadOnlyList<BigInteger> results
    )
    {
        var numbers = datapath.Operands.Zip(operands, (o, bits) => o.Number(bits)).ToList();
        if (numbers.Exists(IsSmall))
        {
            yield return Shortcut.SmallOperand;
        }
        var asked = Asked(datapath).Select(r => r.Number(results[r.Index])).ToList();
        if (numbers.Concat(asked).Any(n => BigInteger.Abs(n) > 1 && BigInteger.Abs(n).IsPowerOfTwo))
        {
            yield return Shortcut.PowerOfTwo;
        }
        if (numbers.Distinct().Count() < numbers.Count)
        {
            yield return Shortcut.EqualOperands;
        }
        if (asked.Exists(IsSmall))
        {
            yield return Shortcut.SmallResult;
        }
    }

    private static bool IsSmall(BigInteger number) => BigInteger.Abs(number) <= 1;

    /// <summary>The results that are asked for: all but what the laws say is left over.</summary>
    public static IEnumerable<Variable> Asked(Datapath datapath)
    {
        var left = ClaimShape.Of(datapath.Laws).Select(s => s.Remainder).OfType<Variable>().ToHashSet();
        return datapath.Variables.Where(v => v.Kind == VariableKind.Result && !left.Contains(v));
    }
}
