using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Refining;

/// <summary>Widths of one machine by which lengths are compared: what is the same at all of them is taken to be so everywhere.</summary>
internal sealed class Scale
{
    private static readonly (int Main, int Other)[] Wanted = [(6, 4), (9, 5), (14, 9)];

    private readonly IReadOnlyList<IReadOnlyDictionary<string, Rational>> samples;
    private readonly Dictionary<string, int?> known = [];

    private Scale(IReadOnlyList<IReadOnlyDictionary<string, Rational>> samples) => this.samples = samples;

    public static Scale Of(IMachine machine) =>
        new([.. Settings.Of(machine, Wanted, withParameters: true).Select(d => d.Numbers)]);

    /// <summary>-1, 0 or 1: the same at every sample.</summary>
    /// <exception cref="BeyondMoveException">It is not, or a formula has no value here.</exception>
    public int Sign(Length length)
    {
        if (length.IsNumber)
        {
            return Math.Sign(length.Number);
        }
        if (!known.TryGetValue(length.Key, out var sign))
        {
            var each = samples.Select(s => length.At(f => Value(f, s)).Sign).Distinct().ToList();
            known[length.Key] = sign = each.Count == 1 ? each[0] : null;
        }
        return sign ?? throw new BeyondMoveException($"the sign of {length} depends on the width");
    }

    private static BigInteger Value(Expression formula, IReadOnlyDictionary<string, Rational> sample)
    {
        var value = Exact(formula, sample);
        return value.IsWhole ? value.Numerator : throw new BeyondMoveException($"{formula} is no whole number");
    }

    private static Rational Exact(Expression formula, IReadOnlyDictionary<string, Rational> sample) =>
        formula switch
        {
            NumberLiteral v => v.Number,
            NameReference v when sample.TryGetValue(v.Name, out var number) => number,
            Scaled v => v.Factor.Number * Exact(v.Name, sample),
            Bracketed v => Exact(v.Inner, sample),
            Unary { Operator: UnaryOperator.Negate } v => -Exact(v.Operand, sample),
            Binary { Operator: BinaryOperator.Add } v => Exact(v.Left, sample) + Exact(v.Right, sample),
            Binary { Operator: BinaryOperator.Subtract } v => Exact(v.Left, sample) - Exact(v.Right, sample),
            Binary { Operator: BinaryOperator.Multiply } v => Exact(v.Left, sample) * Exact(v.Right, sample),
            Binary { Operator: BinaryOperator.Divide } v when Exact(v.Right, sample).Sign != 0 => Exact(v.Left, sample)
                / Exact(v.Right, sample),
            Call { Function: "floor", Arguments: [Call { Function: "log2", Arguments: [var of] }] } => Logarithm(
                of,
                sample
            ),
            Call { Function: "ceil", Arguments: [Call { Function: "log2", Arguments: [var of] }] } => Bits(of, sample),
            Call { Function: "floor", Arguments: [var inner] } => Floor(Exact(inner, sample)),
            Call { Function: "ceil", Arguments: [var inner] } => -Floor(-Exact(inner, sample)),
            _ => throw new BeyondMoveException($"{formula} has no value here"),
        };

    /// <summary>The logarithm of a whole number above 0, rounded down.</summary>
    private static Rational Logarithm(Expression of, IReadOnlyDictionary<string, Rational> sample) =>
        Value(of, sample) is { Sign: > 0 } number
            ? (int)number.GetBitLength() - 1
            : throw new BeyondMoveException($"{of} has no logarithm");

    /// <summary>The same rounded up.</summary>
    private static Rational Bits(Expression of, IReadOnlyDictionary<string, Rational> sample) =>
        Value(of, sample) is { Sign: > 0 } number
            ? (int)(number - 1).GetBitLength()
            : throw new BeyondMoveException($"{of} has no logarithm");

    private static Rational Floor(Rational number) =>
        (number.Numerator - (((number.Numerator % number.Denominator) + number.Denominator) % number.Denominator))
        / number.Denominator;
}
