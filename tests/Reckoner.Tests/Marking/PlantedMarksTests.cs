using Reckoner.Explaining;
using Reckoner.Marking;
using Reckoner.Tests.Explaining;
using Xunit;

namespace Reckoner.Tests.Marking;

/// <summary>Each cause costs once, whatever it spoils: tables of the whole catalogue with a cause in them that is known.</summary>
public class PlantedMarksTests
{
    public static TheoryData<string> Catalogue => [.. Machines.Catalogue];

    [Fact]
    public void A_planted_cause_costs_one_row()
    {
        var (seed, random) = (Seeds.Next(), new Random());
        var names = Machines.Catalogue.OrderBy(_ => random.Next()).Take(3).ToList();
        Seeds.Told(seed, string.Join(' ', names), () => names.ForEach(n => Planted(n, seed, 52)));
    }

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Catalogue))]
    public void So_it_does_in_ten_thousand_tables_a_machine(string name)
    {
        var seed = Seeds.Next();
        Seeds.Told(seed, name, () => Planted(name, seed, 10_000));
    }

    private static void Planted(string name, int seed, int count)
    {
        if (Kits.Find(name) is not { } ways)
        {
            return;
        }
        var planter = new Planter(ways, new Random(seed));
        var judged = new Dictionary<string, int>();
        for (var i = 0; i < count; i++)
        {
            var kind = Planter.Kinds[i % Planter.Kinds.Length];
            if (planter.Of(kind) is not { } planted)
            {
                continue;
            }
            var mark = Marked(ways, planted, MarkScheme.FollowThrough, 1);
            var what = $"{name}, {planted.Mishap}: {string.Join(' ', planted.Operands)}";
            // What stopped early lacks rows, and each that is not there costs; a slip that ends it there costs once.
            var most = planted.Mishap is RowsOff { How: RowsKind.StoppedEarly, Count: var missing } ? missing : 1;
            if (mark.Verdict.Explanations is [{ Causes: 0 }, ..])
            {
                Assert.True(mark.Credit.Lost == 0, what);
            }
            else
            {
                Assert.True(mark.Credit.Lost >= 1 && mark.Credit.Lost <= most, $"{what} costs {mark.Credit.Lost}");
            }
            judged[kind] = judged.GetValueOrDefault(kind) + 1;
            // Whoever is judged row by row from the right table never gets more for a slip that spoils rows.
            var rows = Marked(ways, planted, MarkScheme.PerRow, 1);
            var right = ways.Right.Table(planted.Operands);
            var differing = Enumerable
                .Range(1, right.Count - 1)
                .Count(r => r >= planted.Rows.Count || planted.Rows[r] != right[r]);
            if (mark.Verdict.Kind != VerdictKind.OtherWay)
            {
                Assert.Equal(differing + Math.Max(0, planted.Rows.Count - right.Count), rows.Credit.Lost);
            }
        }
        // Machines of one row have no kind of mishap but a few; most have all.
        Assert.True(judged.Count > 0 || ways.Right.MostCycles < 2, name);
    }

    /// <summary>Two causes cost two at most, and never more than the rows that do not follow.</summary>
    [Fact]
    public void Two_flipped_bits_cost_two_and_a_right_table_nothing()
    {
        var ways = Kits.At("divide-still-divisor", 6);
        var (seed, right) = (Seeds.Next(), new List<UInt128>());
        var random = new Random(seed);
        for (var i = 0; i < 60; i++)
        {
            var operands = ways.Samples[random.Next(ways.Samples.Count)];
            right = ways.Right.Table(operands);
            foreach (var scheme in Enum.GetValues<MarkScheme>())
            {
                Assert.Equal(0, Marked(ways, new Planted("", operands, right, null!), scheme, 2).Credit.Lost);
            }
            var rows = right.ToList();
            List<int> at = [random.Next(1, 3), random.Next(4, 7)];
            foreach (var row in at)
            {
                rows[row] ^= UInt128.One << random.Next(ways.Layout.Bits);
            }
            var mark = Marked(ways, new Planted("", operands, rows, null!), MarkScheme.FollowThrough, 2);
            Assert.True(mark.Credit.Lost is 1 or 2, $"RECKONER_SEED={seed}: {mark.Credit.Lost}");
            Assert.True(
                mark.Credit.Lost
                    <= Marked(ways, new Planted("", operands, rows, null!), MarkScheme.EachTime, 2).Credit.Lost
            );
        }
    }

    private static TableMark Marked(Ways ways, Planted planted, MarkScheme scheme, int most)
    {
        var cycles = ways.Right.Table(planted.Operands).Count - 1;
        var form = TableForm.Whole(ways.Datapath, cycles);
        return TableMark.Of(ways, planted.Operands, Kits.Table(ways, planted.Rows), form, scheme, most);
    }
}
