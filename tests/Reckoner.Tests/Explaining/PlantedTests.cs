using Reckoner.Explaining;
using Xunit;

namespace Reckoner.Tests.Explaining;

/// <summary>Causes put into tables over the whole catalogue are found again.</summary>
public class PlantedTests(ITestOutputHelper output)
{
    public static TheoryData<string> Catalogue => [.. Kits.Names];

    [Theory]
    [MemberData(nameof(Kits.Few), MemberType = typeof(Kits))]
    public void What_was_planted_is_in_the_first_group_or_nothing_at_all_explains_it(string name) => Planted(name, 26);

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Catalogue))]
    public void So_it_is_of_ten_thousand_tables_a_machine(string name) => Planted(name, 10_000);

    /// <summary>
    /// A kind that is never planted is never looked for: in most machines each can be, and what is drawn above plants it now and then.
    /// </summary>
    [Fact]
    [Trait("Length", "long")]
    public void Every_kind_is_planted_in_most_machines()
    {
        var machines = Machines.Catalogue.Select(n => Kits.Find(n)).OfType<Ways>().ToList();
        var random = new Random(1);
        var planted = Planter.Kinds.ToDictionary(
            kind => kind,
            kind => machines.Count(m => Enumerable.Range(0, 40).Any(_ => new Planter(m, random).Of(kind) is not null))
        );
        // Machines that are wrong on purpose, and so "other", are there for some families alone.
        Assert.All(
            planted,
            k => Assert.True(k.Value > machines.Count / (k.Key == "other" ? 4 : 2), $"{k.Key}: {k.Value}")
        );
    }

    private void Planted(string name, int count)
    {
        if (Kits.Find(name) is not { } ways)
        {
            return;
        }
        var seed = Seeds.Next();
        var planter = new Planter(ways, new Random(seed));
        var figures = Planter.Kinds.ToDictionary(k => k, _ => new int[4]);
        var missing = new List<string>();
        for (var i = 0; i < count; i++)
        {
            if (planter.Of(Planter.Kinds[i % Planter.Kinds.Length]) is not { } planted)
            {
                continue;
            }
            var verdict = Explainer.Of(ways, planted.Operands, Kits.Table(ways, planted.Rows), 1);
            var figure = figures[planted.Kind];
            figure[0]++;
            var group = verdict.Explanations;
            var place = group
                .ToList()
                .FindIndex(e => e.Causes > 0 && Merging.IsSame(ways, e.Mishaps[0], planted.Mishap));
            figure[1] += place == 0 || group.Count > 0 && group[0].Causes == 0 ? 1 : 0;
            figure[2] += group.Count;
            figure[3] += verdict.Kind is VerdictKind.Surely or VerdictKind.Probably ? 1 : 0;
            if (place < 0 && (group.Count == 0 || group[0].Causes > 0))
            {
                missing.Add(
                    $"{planted.Mishap}: {string.Join(" ", planted.Operands)}, found {string.Join("; ", group.Select(g => string.Join(" + ", g.Mishaps)))}"
                );
            }
        }
        foreach (var (kind, f) in figures)
        {
            output.WriteLine(
                $"{kind, -18} {f[0], 6} first {f[1], 6} group {(double)f[2] / Math.Max(1, f[0]):0.0} named {f[3]}"
            );
        }
        Assert.True(missing.Count == 0, $"RECKONER_SEED={seed}\n{missing.Count}: {string.Join("\n", missing.Take(6))}");
    }
}
