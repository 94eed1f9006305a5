using Reckoner.Checking;
using Reckoner.Datapaths;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Idle bits by structure against those over all operands, on the whole catalogue.</summary>
public class IdleTests
{
    /// <summary>Three operands of 8 bits are more than is run over in seconds.</summary>
    private const int MostOperandBits = 18;

    [Fact]
    public void Bits_that_are_idle_by_structure_are_idle_over_all_operands_up_to_4_bits() =>
        Snapshot.Match(
            nameof(Bits_that_are_idle_by_structure_are_idle_over_all_operands_up_to_4_bits),
            Compared(width => width <= 4)
        );

    [Fact]
    [Trait("Length", "long")]
    public void Bits_that_are_idle_by_structure_are_idle_over_all_operands_of_5_to_8_bits() =>
        Snapshot.Match(
            nameof(Bits_that_are_idle_by_structure_are_idle_over_all_operands_of_5_to_8_bits),
            Compared(width => width > 4)
        );

    [Fact]
    public void Every_pinned_table_belongs_to_a_test() =>
        Assert.Empty(Snapshot.Strays(Path.GetDirectoryName(Sources.File("tests/Reckoner.Tests/Checking/x"))!));

    /// <summary>The bits of all cycles, those idle over all operands, and those of them that structure does not show.</summary>
    private static string Compared(Func<int, bool> isWanted)
    {
        var lines = Machines
            .Catalogue.AsParallel()
            .AsOrdered()
            .SelectMany(name =>
                Machines
                    .Widths(Machines.Named(name), 8)
                    .Where(isWanted)
                    .Select(width => (Name: name, Width: width, Datapath: Walks.At(name, width)))
                    .Where(m => m.Datapath.Operands.Sum(o => o.Width) <= MostOperandBits)
                    .Select(m => Line(m.Name, m.Width, m.Datapath))
            );
        return $"{"machine", -34}{"width", 6}{"bits", 7}{"idle", 7}{"missed", 8}\n" + string.Concat(lines);
    }

    private static string Line(string name, int width, Datapath datapath)
    {
        var (all, structure) = (OverAll(datapath), IdleByStructure.Of(datapath));
        Assert.Equal(all.Rows.Select(Place), structure.Rows.Select(Place));
        var pairs = all.Rows.Zip(structure.Rows).SelectMany(rows => Pairs(rows.First, rows.Second)).ToList();
        Assert.All(pairs, p => Assert.True(Agrees(p.All, p.Structure), $"{name} at {width}: {p}"));
        var idle = pairs.Count(p => p.All != Carried.Something);
        var missed = idle - pairs.Count(p => p.Structure != Carried.Something);
        return $"{name, -34}{width, 6}{pairs.Count, 7}{idle, 7}{missed, 8}\n";
    }

    private static (int, int, int, bool) Place(IdleRow row) => (row.Cycle, row.Repeat, row.Round, row.IsForAll);

    private static IEnumerable<(int Cycle, Carried All, Carried Structure)> Pairs(IdleRow all, IdleRow structure) =>
        all.Bits.SelectMany(b => b).Zip(structure.Bits.SelectMany(b => b), (a, s) => (all.Cycle, a, s));

    /// <summary>A constant is that constant; a bit that nothing needs may be constant as well; the rest is not claimed.</summary>
    private static bool Agrees(Carried all, Carried structure) =>
        structure switch
        {
            Carried.Something => true,
            Carried.Unread => all != Carried.Something,
            _ => all == structure,
        };

    /// <summary>Two registers that hold the same: their difference is constant, and yet each of them decides.</summary>
    [Fact]
    public void A_constant_that_rests_on_two_equal_bits_does_not_make_them_idle()
    {
        var datapath = Machines.Bound(
            """
            machine twice-the-same

            width n = 2 in 2..8

            operand word : n

            register A : n loads word
            register B : n loads word
            register differ : n loads 0

            step compare
              differ <- A xor B

            result difference = differ
            """
        );
        var study = IdleByStructure.Of(datapath);
        Assert.Equal("A ##, B ##, differ 00; A --, B --, differ 00", Picture(study));
        Assert.Equal(Picture(study), Picture(OverAll(datapath)));
    }

    /// <summary>The bits that decide whether a loop goes on are needed, and so is what is held when it stops.</summary>
    [Fact]
    public void What_decides_whether_a_loop_goes_on_is_not_idle()
    {
        var datapath = Machines.Bound(
            """
            machine shift-until-odd

            width n = 2 in 2..8

            operand word : n

            register A : n loads word
            register idle : n loads word

            repeat at most n while not A[0]
              A <- shr(A, 0)
            end

            result odd = A
            """
        );
        var all = OverAll(datapath);
        Assert.Equal("A ##, idle --; A 0#, idle -0; A 00, idle 00", Picture(all));
        Assert.Equal("4, 2, 1", string.Join(", ", all.Rows.Select(r => r.Cases)));
        Assert.Equal("A ##, idle --; A 0#, idle --; A 00, idle --", Picture(IdleByStructure.Of(datapath)));
    }

    /// <summary>Wide enough that nobody could run the operands.</summary>
    [Fact]
    public void At_32_bits_or_as_wide_as_it_goes_every_machine_is_judged_by_structure() => JudgedByStructure(32);

    [Fact]
    [Trait("Length", "long")]
    public void At_64_bits_or_as_wide_as_it_goes_every_machine_is_judged_by_structure() => JudgedByStructure(64);

    private static void JudgedByStructure(int widest)
    {
        foreach (var name in Machines.Catalogue)
        {
            var datapath = Walks.At(name, Math.Min(widest, Machines.Range(Machines.Named(name)).High));
            var study = IdleByStructure.Of(datapath);
            Assert.Equal(datapath.MostCycles + 1, study.Rows.Count);
            Assert.All(study.Rows, row => Assert.Null(row.Cases));
        }
    }

    private static IdleStudy OverAll(Datapath datapath) => Idle.OverAll(datapath, InterpretedEngine.Widest)!;

    private static string Picture(IdleStudy study)
    {
        var rows = study.Rows.Select(row =>
            string.Join(", ", study.Datapath.Registers.Select(r => $"{r.Name} {Reporting.IdleMarks.Of(row, r)}"))
        );
        return string.Join("; ", rows);
    }
}
