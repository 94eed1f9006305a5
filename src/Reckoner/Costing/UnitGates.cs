using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Structure;

namespace Reckoner.Costing;

/// <summary>
/// The gates of a unit, for what it is told in any state: its operands as inputs, after them, where it both adds and subtracts, what
/// it is told.
/// </summary>
internal sealed class UnitGates
{
    private readonly GateNet net;
    private readonly Dictionary<UnitOutput, int[]> outputs = [];

    private UnitGates(UnitStructure unit, AdderKind kind, bool hasFullAdders)
    {
        net = new GateNet(hasFullAdders);
        Operands = [.. unit.Inputs.Select((words, i) => net.Word(words[0].Width))];
        var told = unit.Settings.Select(s => s.Function).ToHashSet();
        switch (unit.Unit.Kind)
        {
            case UnitKind.Adder:
                Add(kind, told);
                break;
            case UnitKind.Comparator:
                Compare(kind);
                break;
            case UnitKind.CarrySaveAdder:
                var (sum, carries) = Saved(Operands[0], Operands[1], Operands[2]);
                (outputs[UnitOutput.Result], outputs[UnitOutput.CarryWord]) = (sum, carries);
                break;
            case UnitKind.Multiplier:
                outputs[UnitOutput.Result] = Product(kind, told);
                break;
        }
        Taken = [.. unit.Outputs.Where(o => outputs.ContainsKey(o.Output)).SelectMany(o => outputs[o.Output])];
    }

    /// <param name="hasFullAdders">Whether the model has full adders as pieces of their own.</param>
    public static UnitGates Of(UnitStructure unit, AdderKind kind, bool hasFullAdders = false) =>
        new(unit, kind, hasFullAdders);

    /// <summary>The places of each operand, the lowest bit first.</summary>
    public IReadOnlyList<int[]> Operands { get; }

    /// <summary>Whether the last input says that it is to subtract.</summary>
    public bool IsTold { get; private set; }

    /// <summary>The outputs that anything takes.</summary>
    private IReadOnlyList<int> Taken { get; }

    /// <summary>The gates, for who writes them down.</summary>
    internal GateNet Net => net;

    public long Area(CostModel model) => net.Area(model, Taken);

    /// <summary>The places of an output, the lowest bit first.</summary>
    public IReadOnlyList<int> this[UnitOutput output] => outputs[output];

    public (int[] At, int[] From) Arrivals(CostModel model, Func<int, int> at) => net.Arrivals(model, at);

    internal ulong[] Evaluate(IReadOnlyList<ulong> inputs) => net.Evaluate(inputs);

    private void Add(AdderKind kind, HashSet<UnitFunction> told)
    {
        var subtracts = told.Contains(UnitFunction.Subtract);
        IsTold = subtracts && told.Contains(UnitFunction.Add);
        var less =
            IsTold ? net.Input()
            : subtracts ? GateNet.One
            : GateNet.Zero;
        var (sum, carry) = Adders.Sum(net, kind, Operands[0], [.. Operands[1].Select(b => net.Xor(b, less))], less);
        outputs[UnitOutput.Result] = sum;
        outputs[UnitOutput.Carry] = [carry];
        outputs[UnitOutput.Borrow] = [net.Not(carry)];
    }

    private void Compare(AdderKind kind)
    {
        var (_, carry) = Adders.Sum(net, kind, Operands[0], [.. Operands[1].Select(net.Not)], GateNet.One);
        outputs[UnitOutput.Less] = [net.Not(carry)];
        outputs[UnitOutput.Equal] = [net.All([.. Operands[0].Zip(Operands[1], (a, b) => net.Not(net.Xor(a, b)))])];
    }

    private (int[] Sum, int[] Carries) Saved(IReadOnlyList<int> a, IReadOnlyList<int> b, IReadOnlyList<int> c)
    {
        var each = Enumerable.Range(0, a.Count).Select(i => net.Full(a[i], b[i], c[i])).ToList();
        return ([.. each.Select(e => e.Sum)], [.. each.Select(e => e.Carry)]);
    }

    /// <summary>
    /// An array: a row of gates for each place of the second side, added up in carry-save form, at the end an adder. Words in two's
    /// complement are multiplied with the products of exactly one sign turned over and ones added (C. R. Baugh, B. A. Wooley,
    /// "A Two's Complement Parallel Array Multiplication Algorithm", IEEE Transactions on Computers C-22(12), 1973, 1045-1047, in the
    /// form that is common practice).
    /// </summary>
    private int[] Product(AdderKind kind, HashSet<UnitFunction> told)
    {
        var (a, b) = (Operands[0], Operands[1]);
        var width = a.Length + b.Length;
        var isSigned = told.Contains(UnitFunction.MultiplySigned);
        IsTold = isSigned && told.Contains(UnitFunction.Multiply);
        if (IsTold)
        {
            // With one more place, which is 0 for words without a sign, both readings are one.
            var signed = net.Input();
            (a, b) = ([.. a, net.And(signed, a[^1])], [.. b, net.And(signed, b[^1])]);
        }
        var (sum, carries) = (Zeros(width), Zeros(width));
        for (var row = 0; row < b.Length; row++)
        {
            var product = Zeros(width);
            for (var i = 0; i < a.Length && i + row < width; i++)
            {
                var both = net.And(a[i], b[row]);
                product[i + row] = isSigned && (i == a.Length - 1) != (row == b.Length - 1) ? net.Not(both) : both;
            }
            (sum, carries) = Joined(sum, carries, product);
        }
        if (isSigned)
        {
            var ones =
                (BigInteger.One << (a.Length - 1))
                + (BigInteger.One << (b.Length - 1))
                + (BigInteger.One << (a.Length + b.Length - 1));
            (sum, carries) = Joined(sum, carries, [.. Enumerable.Range(0, width).Select(i => (int)((ones >> i) & 1))]);
        }
        return Adders.Sum(net, kind, sum, carries, GateNet.Zero).Sum;
    }

    private static int[] Zeros(int width) => new int[width];

    private (int[] Sum, int[] Carries) Joined(int[] sum, int[] carries, int[] row)
    {
        var (added, made) = Saved(sum, carries, row);
        return (added, [GateNet.Zero, .. made[..^1]]);
    }
}
