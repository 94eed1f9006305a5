using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Running;
using Reckoner.Timelines;
using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// Where bits come from, against the timeline's words, which know nothing of it: with what was decided and what the units gave
/// held as it was, turning a register bit over before an edge turns exactly those bits over that are said to come out of it.
/// </summary>
public class ProvenanceTests
{
    private const int Walked = 12;

    public static TheoryData<string> Short => [.. Machines.Catalogue.Where(Portion.IsShort)];

    public static TheoryData<string> Long => [.. Machines.Catalogue.Where(name => !Portion.IsShort(name))];

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Long))]
    public void So_it_is_in_long_descriptions(string name)
    {
        A_bit_turned_over_turns_over_exactly_those_that_come_out_of_it(name);
        A_bit_is_the_bit_that_it_came_out_of(name);
        Bits_that_come_out_of_a_unit_have_a_place_where_they_came_down(name);
    }

    [Theory]
    [MemberData(nameof(Short))]
    public void A_bit_turned_over_turns_over_exactly_those_that_come_out_of_it(string name)
    {
        var seed = Seeds.Next();
        var machine = Machines.Named(name);
        var cases = 0;
        foreach (var width in Machines.Widths(machine, 5).Take(3))
        {
            var datapath = Machines.Bound(machine, width);
            var operands = SampleOperands.Of(datapath, new Random(seed)).Where(o => datapath.IsGiven(o)).Take(Walked);
            foreach (var walk in operands.Select(o => Walk.Of(datapath, o)))
            {
                var what = $"{name} at {width}: {string.Join(", ", walk.Operands)}";
                Seeds.Told(seed, what, () => cases += Check(walk));
            }
        }
        Assert.True(cases > 0, "no edge was looked at");
    }

    private static int Check(Walk walk)
    {
        var cases = 0;
        foreach (var (row, provenance) in walk.Rows.Zip(Provenance.Of(walk)).Skip(1))
        {
            var held = new HeldEdge(walk.Datapath, row);
            Assert.Equal(row.Registers, held.After(row.Before));
            foreach (var register in walk.Datapath.Registers)
            {
                for (var bit = 0; bit < register.Width; bit++)
                {
                    var turned = row.Before.ToArray();
                    turned[register.Index] ^= BigInteger.One << bit;
                    Assert.Equal(
                        Ends(provenance, register, bit),
                        Differing(walk.Datapath, row.Registers, held.After(turned))
                    );
                    cases++;
                }
            }
        }
        return cases;
    }

    private static IEnumerable<string> Ends(ProvenanceRow row, Register from, int bit) =>
        row.Sources.SelectMany(
            (sources, register) =>
                sources
                    .Select((source, place) => (source, place))
                    .Where(s => s.source.Register == from && s.source.Bit == bit)
                    .Select(s => $"{register}[{s.place}]")
        );

    private static IEnumerable<string> Differing(
        Datapath datapath,
        IReadOnlyList<BigInteger> a,
        IReadOnlyList<BigInteger> b
    ) =>
        datapath.Registers.SelectMany(r =>
            Enumerable
                .Range(0, r.Width)
                .Where(bit => !((a[r.Index] ^ b[r.Index]) >> bit).IsEven)
                .Select(bit => $"{r.Index}[{bit}]")
        );

    /// <summary>Bits that come out of a unit or a table are those that it gave; what is constant is so.</summary>
    [Theory]
    [MemberData(nameof(Short))]
    public void A_bit_is_the_bit_that_it_came_out_of(string name)
    {
        var machine = Machines.Named(name);
        var datapath = Machines.Bound(machine, Machines.Widths(machine, 6).Last());
        var walk = Walks.Of(datapath, [.. datapath.Operands.Select(o => Numbers.Bits.Mask(o.Width) - o.Index)]);
        var outputs = 0;
        foreach (var (row, provenance) in walk.Rows.Zip(Provenance.Of(walk)))
        {
            var summed = row.Moments.SelectMany(m => m.Happenings).OfType<Summed>().ToList();
            foreach (var register in datapath.Registers)
            {
                for (var bit = 0; bit < register.Width; bit++)
                {
                    var source = provenance.Sources[register.Index][bit];
                    var given = source.Kind switch
                    {
                        SourceKind.Register => row.Before[source.Register!.Index] >> source.Bit,
                        SourceKind.Operand => walk.Operands[source.Operand!.Index] >> source.Bit,
                        SourceKind.Constant => source.Bit,
                        SourceKind.Unit when summed.Find(s => ReferenceEquals(s.Value, source.Value)) is { } sum =>
                            source.Bit == sum.Width ? (sum.GivesCarry ? 1 : 0) : sum.Bits >> source.Bit,
                        _ => row.Registers[register.Index] >> bit,
                    };
                    outputs += source.Kind == SourceKind.Unit ? 1 : 0;
                    Assert.Equal(given.IsEven, (row.Registers[register.Index] >> bit).IsEven);
                }
            }
        }
        Assert.True(outputs > 0, "no unit gave anything that was kept");
    }

    /// <summary>What a unit gave is first written somewhere, and all of it that is kept comes from there.</summary>
    [Theory]
    [MemberData(nameof(Short))]
    public void Bits_that_come_out_of_a_unit_have_a_place_where_they_came_down(string name)
    {
        var machine = Machines.Named(name);
        var datapath = Machines.Bound(machine, Machines.Widths(machine, 6).Last());
        var walk = Walks.Of(datapath, [.. datapath.Operands.Select(o => Numbers.Bits.Mask(o.Width) - o.Index)]);
        foreach (var row in Provenance.Of(walk).Skip(1))
        {
            Assert.All(
                row.Sources.SelectMany(s => s).Where(s => s.Kind is SourceKind.Unit or SourceKind.Table),
                source =>
                    Assert.Contains(
                        row.Landings,
                        l =>
                            ReferenceEquals(l.Value, source.Value)
                            && source.Bit >= l.LowestBit
                            && source.Bit <= l.LowestBit + l.High - l.Low
                    )
            );
        }
    }
}

/// <summary>One edge as words over the registers before it; everything but wiring is held as a walk gave it.</summary>
internal sealed class HeldEdge
{
    private readonly WordGraph graph = new();
    private readonly int[] after;
    private readonly BigInteger[] walked;

    public HeldEdge(Datapath datapath, Row row)
    {
        var unrolling = new Unrolling(graph, _ => throw new InvalidOperationException("operands are gone"));
        unrolling.Begin([.. datapath.Registers.Select(graph.Register)]);
        unrolling.Last = graph.Constant(row.Last == true ? 1 : 0, 1);
        foreach (var moment in row.Step!.Moments)
        {
            unrolling.Moment(moment);
        }
        after = unrolling.Registers;
        walked = Evaluated(row.Before, held: null);
    }

    public IReadOnlyList<BigInteger> After(IReadOnlyList<BigInteger> before)
    {
        var values = Evaluated(before, walked);
        return [.. after.Select(place => values[place])];
    }

    private BigInteger[] Evaluated(IReadOnlyList<BigInteger> before, BigInteger[]? held)
    {
        var values = new BigInteger[graph.Words.Count];
        for (var i = 0; i < values.Length; i++)
        {
            var word = graph.Words[i];
            values[i] = word.Operation switch
            {
                WordOperation.Choose when held is not null => values[word.Inputs[held[word.Inputs[0]].IsOne ? 1 : 2]],
                WordOperation.Not when held is not null && TurnedTwice(word.Inputs[0], held) is { } bit => values[bit],
                _ when held is null || IsWiring(word) => TimelineRun.Bits(word, graph, before, values),
                _ => held[i],
            };
        }
        return values;
    }

    /// <summary>What a choice, as it fell, turned over: turned over once more it is itself again.</summary>
    private int? TurnedTwice(int place, BigInteger[] held)
    {
        while (graph.Words[place].Operation == WordOperation.Choose)
        {
            place = graph.Words[place].Inputs[held[graph.Words[place].Inputs[0]].IsOne ? 1 : 2];
        }
        return graph.Words[place].Operation == WordOperation.Not ? graph.Words[place].Inputs[0] : null;
    }

    private static bool IsWiring(Word word) =>
        word.Operation
            is WordOperation.Register
                or WordOperation.Constant
                or WordOperation.Slice
                or WordOperation.Join
                or WordOperation.Copies;
}
