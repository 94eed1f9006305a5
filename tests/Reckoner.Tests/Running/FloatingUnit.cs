using System.Numerics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Slips;

namespace Reckoner.Tests;

/// <summary>A floating-point machine of the catalogue as gates, run for many operands at once.</summary>
internal sealed class FloatingUnit
{
    private readonly PlaneProgram program;

    public FloatingUnit(string machine, Floating format)
    {
        var widths = new Dictionary<string, BigInteger>
        {
            ["m"] = format.M,
            ["e"] = format.E,
            ["tiny_before"] = format.IsTinyBefore ? 1 : 0,
        };
        var read = Machine.Read(MachineCatalogue.Find(machine)!, MachineCatalogue.Find);
        Datapath = read.At(widths.Where(w => read.Widths.Any(k => k.Name.Text == w.Key)).ToDictionary()).Datapath!;
        var gates = MachineGates.Of(Datapath);
        program = PlaneProgram.Of(gates.Graph, [.. gates.Results.SelectMany(r => r)]);
    }

    public Datapath Datapath { get; }

    /// <summary>Operands by their names: one number or two, whether the second is taken away, and the rounding.</summary>
    public BigInteger[] Case(IReadOnlyList<BigInteger> codes, int minus, int rounding) =>
        [
            .. Datapath.Operands.Select(o =>
                o.Name switch
                {
                    "x" => codes[0],
                    "y" => codes[1],
                    "minus" => minus,
                    "rounding" => (BigInteger)rounding,
                    _ => throw new ArgumentException(o.Name),
                }
            ),
        ];

    /// <summary>The flags that results tell; what a machine does not tell is not raised.</summary>
    public Flags FlagsOf(BigInteger[] results)
    {
        bool Is(string name) =>
            Datapath.Results.Index().Where(r => r.Item.Name == name).Any(r => !results[r.Index].IsZero);
        return new(Is("invalid"), Is("by_zero"), Is("overflow"), Is("underflow"), Is("inexact"));
    }

    /// <summary>Each case with the results it gives, in an order of its own.</summary>
    public IEnumerable<(BigInteger[] Operands, BigInteger[] Results)> Run(IEnumerable<BigInteger[]> cases)
    {
        var table = CaseTable.Of(Datapath, [.. cases]);
        var bits = table.Run(program, InterpretedEngine.Widest);
        for (var at = 0; at < table.Size; at++)
        {
            var results = new BigInteger[Datapath.Results.Count];
            var next = 0;
            for (var r = 0; r < results.Length; r++)
            {
                for (var bit = 0; bit < Datapath.Results[r].Width; bit++, next++)
                {
                    results[r] |= (BigInteger)((bits[next][at / 64] >> (at % 64)) & 1) << bit;
                }
            }
            yield return (table.Cases[at], results);
        }
    }
}
