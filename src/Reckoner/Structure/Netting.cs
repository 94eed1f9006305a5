using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Structure;

/// <summary>
/// Nets and bundles for the words of a graph that keeps units apart. Operations of one unit give one net for each of its outputs,
/// whatever its operands; what is the same on wires then is one net, and no choice is made between it and itself.
/// </summary>
internal sealed class Netting(WordGraph graph)
{
    private readonly List<Bundle> bundles = [];
    private readonly List<Net> nets = [];
    private readonly Dictionary<Key, Net> known = [];

    public required IReadOnlyList<Operand> Operands { get; init; }
    public required IReadOnlyList<Register> Registers { get; init; }
    public IReadOnlyList<Net> Nets => nets;

    private readonly record struct Key(NetKind Kind, object? Thing, UnitOutput Output, Bundle Inputs);

    /// <summary>The wires that a word of the graph stands on.</summary>
    public Bundle this[int place]
    {
        get
        {
            while (bundles.Count <= place)
            {
                bundles.Add(Of(graph[bundles.Count]));
            }
            return bundles[place];
        }
    }

    private Bundle Of(Word word)
    {
        if (word.Unit is { } unit)
        {
            return Enter(NetKind.Unit, word, [], unit, Told(word).Output);
        }
        return word.Operation switch
        {
            WordOperation.Constant => Bundle.Constant(word.Bits, word.Width),
            WordOperation.Operand => Enter(NetKind.Operand, word, [], word.Low),
            WordOperation.Register => Enter(NetKind.Register, word, [], word.Low),
            WordOperation.Last => Enter(NetKind.Last, word, []),
            WordOperation.Slice => In(0).Part(word.Low, word.Width),
            WordOperation.Join => Bundle.Join(word.Inputs.Select(i => this[i])),
            WordOperation.Copies => In(0).Copies(word.Width),
            WordOperation.And => Enter(NetKind.And, word, [In(0), In(1)]),
            WordOperation.Or => Enter(NetKind.Or, word, [In(0), In(1)]),
            WordOperation.Xor => Enter(NetKind.Xor, word, [In(0), In(1)]),
            WordOperation.Not => Enter(NetKind.Not, word, [In(0)]),
            WordOperation.Equal => Enter(NetKind.Equal, word, [In(0), In(1)]),
            WordOperation.Choose => Chosen(word, In(0), In(1), In(2)),
            WordOperation.Lookup => Enter(NetKind.Lookup, word, [In(0)], word.Table),
            WordOperation.Add
            or WordOperation.Carry
            or WordOperation.Subtract
            or WordOperation.Less
            or WordOperation.Multiply
            or WordOperation.CarrySaveSum
            or WordOperation.CarrySaveCarry => throw new InvalidOperationException($"{word.Operation} needs a unit"),
        };

        Bundle In(int i) => this[word.Inputs[i]];
    }

    /// <summary>What its unit is told for a word, and which of its outputs the word is. Whether an operation has a unit at all is the graph's to say.</summary>
    public static (UnitFunction Function, UnitOutput Output) Told(Word word) =>
        word.Operation switch
        {
            WordOperation.Add => (UnitFunction.Add, UnitOutput.Result),
            WordOperation.Carry => (UnitFunction.Add, UnitOutput.Carry),
            WordOperation.Subtract => (UnitFunction.Subtract, UnitOutput.Result),
            WordOperation.Less when word.Unit!.Kind == UnitKind.Adder => (UnitFunction.Subtract, UnitOutput.Borrow),
            WordOperation.Less => (UnitFunction.Less, UnitOutput.Less),
            WordOperation.Equal => (UnitFunction.Equal, UnitOutput.Equal),
            WordOperation.Multiply when word.IsSigned => (UnitFunction.MultiplySigned, UnitOutput.Result),
            WordOperation.Multiply => (UnitFunction.Multiply, UnitOutput.Result),
            WordOperation.CarrySaveSum => (UnitFunction.CarrySave, UnitOutput.Result),
            WordOperation.CarrySaveCarry => (UnitFunction.CarrySave, UnitOutput.CarryWord),
            WordOperation.Constant
            or WordOperation.Operand
            or WordOperation.Register
            or WordOperation.Last
            or WordOperation.Slice
            or WordOperation.Join
            or WordOperation.Copies
            or WordOperation.And
            or WordOperation.Or
            or WordOperation.Xor
            or WordOperation.Not
            or WordOperation.Choose
            or WordOperation.Lookup => throw new InvalidOperationException($"no unit computes {word.Operation}"),
        };

    private Bundle Enter(NetKind kind, Word word, Bundle[] inputs, object? thing = null, UnitOutput output = default) =>
        Enter(kind, word.Width, word.Origin, inputs, thing, output);

    private Bundle Enter(
        NetKind kind,
        int width,
        Origin origin,
        Bundle[] inputs,
        object? thing = null,
        UnitOutput output = default
    )
    {
        var key = new Key(kind, thing, output, Bundle.Join(inputs));
        if (!known.TryGetValue(key, out var net))
        {
            net = new Net(nets.Count, kind, width, inputs)
            {
                Operand = kind == NetKind.Operand ? Operands[(int)thing!] : null,
                Register = kind == NetKind.Register ? Registers[(int)thing!] : null,
                Table = thing as Table,
                Unit = thing as Unit,
                Output = output,
                Origin = origin,
            };
            nets.Add(net);
            known.Add(key, net);
        }
        return net.Word;
    }

    /// <summary>a where the condition is 1, else b; bits that are the same on both sides are chosen by nobody.</summary>
    private Bundle Chosen(Word word, Bundle condition, Bundle a, Bundle b)
    {
        var parts = new List<Bundle>();
        var differing = new List<(Bundle A, Bundle B)>();
        var top = a.Width;
        foreach (var low in a.Cuts.Union(b.Cuts).OrderDescending())
        {
            var (x, y) = (a.Part(low, top - low), b.Part(low, top - low));
            if (x.Equals(y))
            {
                Flush();
                parts.Add(x);
            }
            else
            {
                differing.Add((x, y));
            }
            top = low;
        }
        Flush();
        return Bundle.Join(parts);

        void Flush()
        {
            if (differing.Count > 0)
            {
                var (one, zero) = (Bundle.Join(differing.Select(d => d.A)), Bundle.Join(differing.Select(d => d.B)));
                parts.Add(Multiplexer(word, condition, one, zero));
                differing.Clear();
            }
        }
    }

    private Bundle Multiplexer(Word word, Bundle condition, Bundle one, Bundle zero)
    {
        if (one.Width == 1 && one.IsConstant(BigInteger.One) && zero.IsConstant(BigInteger.Zero))
        {
            return condition;
        }
        return one.Width == 1 && one.IsConstant(BigInteger.Zero) && zero.IsConstant(BigInteger.One)
            ? Enter(NetKind.Not, 1, word.Origin, [condition])
            : Enter(NetKind.Choice, one.Width, word.Origin, [condition, one, zero]);
    }
}
