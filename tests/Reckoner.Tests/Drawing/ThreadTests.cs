using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Drawing;
using Reckoner.Execution;
using Reckoner.Running;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// What a thread says: with the decisions and the outputs of all units held, flipping the bit at its beginning flips the bits at its
/// ends and no other register bit.
/// </summary>
public class ThreadTests
{
    public static IEnumerable<TheoryDataRow<string, int>> Machine =>
        from name in Machines.Catalogue
        from width in Machines.Widths(Machines.Named(name), 0, 4, 6)
        select new TheoryDataRow<string, int>(name, width);

    [Theory]
    [MemberData(nameof(Machine))]
    public void Flipping_the_beginning_of_a_thread_flips_its_ends_and_nothing_else(string name, int width)
    {
        var datapath = Walks.At(name, width);
        foreach (var operands in SampleOperands.Of(datapath, new Random(5)).Take(3))
        {
            var walk = Walk.Of(datapath, operands);
            var provenance = Provenance.Of(walk);
            foreach (var row in walk.Rows.Skip(1))
            {
                var told = provenance[row.Cycle].Sources;
                foreach (var register in datapath.Registers)
                {
                    for (var bit = 0; bit < register.Width; bit++)
                    {
                        var ends = Ends(told, register, bit);
                        Assert.Equal(ends, new Flip(walk, row, register, bit).Flipped());
                    }
                }
            }
        }
    }

    private static string Ends(IReadOnlyList<IReadOnlyList<BitSource>> sources, Register register, int bit) =>
        string.Join(
            ' ',
            from end in Enumerable.Range(0, sources.Count)
            from at in Enumerable.Range(0, sources[end].Count)
            let source = sources[end][at]
            where source.Kind == SourceKind.Register && source.Register == register && source.Bit == bit
            select $"{end}.{at}"
        );

    /// <summary>Runs a step twice, side by side: as it was, and with one register bit flipped that goes where wires lead it.</summary>
    private sealed class Flip
    {
        private readonly Walk walk;
        private readonly Running.Row row;
        private readonly Execution<BigInteger> right;
        private readonly BigInteger[] registers;
        private readonly Dictionary<Wire, BigInteger> wires = [];

        public Flip(Walk walk, Running.Row row, Register register, int bit)
        {
            this.walk = walk;
            this.row = row;
            right = new Execution<BigInteger>(new NumberWords(walk.Operands)) { Last = row.Last == true ? 1 : 0 };
            right.Begin(row.Before);
            registers = [.. row.Before];
            registers[register.Index] ^= BigInteger.One << bit;
        }

        /// <summary>The register bits that come out otherwise.</summary>
        public string Flipped()
        {
            foreach (var act in row.Step!.Moments.SelectMany(m => m))
            {
                Execute(act);
            }
            return string.Join(
                ' ',
                from register in walk.Datapath.Registers
                let other = registers[register.Index] ^ row.Registers[register.Index]
                from bit in Enumerable.Range(0, register.Width)
                where !(other >> bit).IsEven
                select $"{register.Index}.{bit}"
            );
        }

        private void Execute(Act act)
        {
            switch (act)
            {
                case LetAct a:
                    foreach (var wire in new[] { a.Wire, a.Second }.OfType<Wire>())
                    {
                        wires[wire] = Bits(wire.Value);
                        right.Wires[wire] = right.Word(wire.Value);
                    }
                    break;
                case TransferAct a:
                    var (mine, its) = (Bits(a.Value), right.Word(a.Value));
                    var low = a.Value.Width;
                    foreach (var place in a.Places)
                    {
                        low -= place.Width;
                        Put(registers, place, mine >> low);
                        Put(right.Registers, place, its >> low);
                    }
                    break;
                case BranchAct a:
                    foreach (var inner in right.Word(a.Condition).IsOne ? a.Then : a.Otherwise)
                    {
                        Execute(inner);
                    }
                    break;
                case CaseAct a:
                    var arm = ArmPatterns.Acting([.. a.Arms.Select(x => x.Patterns)], right.Word(a.Subject));
                    foreach (var inner in a.Arms[arm].Acts)
                    {
                        Execute(inner);
                    }
                    break;
                default:
                    break;
            }
        }

        private static void Put(BigInteger[] registers, Place place, BigInteger bits) =>
            registers[place.Register.Index] =
                (registers[place.Register.Index] & ~place.Mask) | (Numbers.Bits.Wrap(bits, place.Width) << place.Low);

        /// <summary>Wires carry what is flipped; whatever computes or decides gives what it gave.</summary>
        private BigInteger Bits(Value v)
        {
            BigInteger In(int i) => Bits(v.Inputs[i]);
            return v.Operation switch
            {
                Operation.Register => registers[v.Register!.Index],
                Operation.Wire => wires[v.Wire!],
                Operation.Slice => Numbers.Bits.Wrap(In(0) >> v.Low, v.Width),
                Operation.Join => v.Inputs.Aggregate(
                    BigInteger.Zero,
                    (high, part) => (high << part.Width) | Bits(part)
                ),
                Operation.Copies => In(0).IsOne ? Numbers.Bits.Mask(v.Width) : 0,
                Operation.Reread => In(0),
                Operation.Extend => v.Reading == Reading.Signed
                    ? Numbers.Bits.Wrap(Numbers.Bits.AsSigned(In(0), v.Inputs[0].Width), v.Width)
                    : In(0),
                Operation.ShiftLeft => Numbers.Bits.Wrap((In(0) << v.Inputs[1].Width) | In(1), v.Width),
                Operation.ShiftRight => (In(0) >> v.Inputs[1].Width) | (In(1) << (v.Width - v.Inputs[1].Width)),
                Operation.Choose => In(right.Word(v.Inputs[0]).IsOne ? 1 : 2),
                Operation.Select => In(1 + ArmPatterns.Acting(v.Arms, right.Word(v.Inputs[0]))),
                Operation.Less when v.IsSignTest => In(0) >> (v.Inputs[0].Width - 1),
                _ => right.Word(v),
            };
        }
    }

    /// <summary>
    /// In the drawing a thread begins at the cell of a bit in the row above, or on a bar or dot of its own colour: the mark of what computed
    /// or decided it.
    /// </summary>
    [Theory]
    [MemberData(nameof(Machine))]
    public void What_comes_out_of_a_unit_begins_at_its_mark(string name, int width)
    {
        var datapath = Walks.At(name, width);
        var walk = Walk.Of(datapath, SampleOperands.Of(datapath, new Random(6)).First());
        var provenance = Provenance.Of(walk);
        var scene = Weave.Of(Figure.Of(walk, Vocabulary.English));
        var groups = scene.Shapes.OfType<Group>().ToList();
        foreach (var group in groups.Where(g => g.Shapes.OfType<Strand>().Any()))
        {
            var kept = group.Shapes.OfType<Area>().Where(a => a.Fill is not null);
            var marks = kept.Select(a => (Box: Box(a.Outline), a.Fill!.Value.Hue)).ToList();
            var before = groups.Last(g => g.Link!.Cycle == group.Link!.Cycle - 1 && g != group);
            var cells = before.Shapes.OfType<Area>().Select(a => Box(a.Outline)).ToList();
            var starts = group
                .Shapes.OfType<Strand>()
                .SelectMany(s => s.Trace.Steps.Where(p => p.Kind == StepKind.Move).Select(p => (p.To, s.Hue)))
                .ToList();
            foreach (var (at, hue) in starts)
            {
                var point = new Box(at.X, at.Y, 0, 0);
                Assert.True(
                    cells.Exists(c => c.Grown(0.5).Contains(point))
                        || marks.Exists(m => m.Hue == hue && m.Box.Grown(0.5).Contains(point)),
                    $"cycle {group.Link!.Cycle}: a thread begins at {at}"
                );
            }
            var computed = provenance[group.Link!.Cycle!.Value]
                .Sources.SelectMany(s => s)
                .Count(s => s.Kind is not (SourceKind.Register or SourceKind.Constant));
            Assert.Equal(
                computed,
                starts.Count(s => !cells.Exists(c => c.Grown(0.5).Contains(new Box(s.To.X, s.To.Y, 0, 0))))
            );
        }
    }

    private static Box Box(Outline outline) =>
        outline switch
        {
            Rectangle r => r.Box,
            Disc d => new Box(d.Centre.X - d.Radius, d.Centre.Y - d.Radius, 2 * d.Radius, 2 * d.Radius),
            _ => default,
        };
}
