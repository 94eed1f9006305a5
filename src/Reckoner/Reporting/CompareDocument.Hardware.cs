using System.Globalization;
using Reckoner.Costing;
using Reckoner.Measuring;
using Reckoner.Numbers;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

internal sealed partial class CompareDocument
{
    private Grid Built()
    {
        var rows = new List<GridRow>
        {
            Row(words.Say("hardware.cycles"), v => [Cycles(v)]),
            Row(words.Say("compare.rounds"), v => [Rounds(v)]),
            Row(words.Say("compare.register-bits"), v => [v.RegisterBits.ToString()]),
        };
        foreach (var name in comparison.Registers)
        {
            rows.Add(
                Row(
                    words.Say("compare.register", ("name", name)),
                    v => [.. v.Datapath.Registers.Where(r => r.Name == name).Select(r => r.Size.ToString())]
                )
            );
        }
        foreach (var kind in comparison.Kinds)
        {
            rows.Add(
                Row(UnitText.KindOf(kind, words), v => [.. v.Units.Where(u => u.Kind == kind).Select(UnitText.WidthOf)])
            );
        }
        if (comparison.Costs.Count > 0)
        {
            rows.AddRange([
                Row(words.Say("compare.area"), v => [Bits.Text(Cost(v).Area)]),
                Row(words.Say("compare.clock"), v => [Bits.Text(Cost(v).Clock)]),
                Row(words.Say("compare.time"), v => [CostText.Time(Cost(v))]),
            ]);
        }
        return new Grid(
            "hardware",
            words.Say("compare.built"),
            [
                new GridColumn(words.Say("compare.part"), ColumnRole.Label),
                .. Versions.Select((v, i) => Column(v.Datapath, i, ColumnRole.Short)),
            ],
            rows
        );
    }

    private GridRow Row(string name, Func<Hardware, IReadOnlyList<string>> shown) =>
        new([Cell.Of(name), .. Versions.Select(v => new Cell([.. shown(v).Select(Content.Phrase)]))]);

    private MachineCost Cost(Hardware version) => comparison.CostOf(version)!;

    private static string Cycles(Hardware version)
    {
        var (least, most) = version.Cycles;
        return least == most ? Text(most) : $"{Text(least)}..{Text(most)}";
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Rounds(Hardware version) =>
        string.Join(
            " + ",
            version
                .Datapath.Schedule.Where(s => s.IsLoop)
                .Select(s => s.While is null ? Text(s.Count) : $"0..{Text(s.Count)}")
        );

    private Pair Saved(Hardware version, Hardware before)
    {
        List<Content> changes =
        [
            Change(words.Say("compare.register-bits"), before.RegisterBits, version.RegisterBits),
            .. comparison
                .Kinds.Where(k => Comparison.BitsOf(version, k).Count + Comparison.BitsOf(before, k).Count > 0)
                .Select(k =>
                    Change(
                        words.Say("compare.unit-bits", ("unit", UnitText.KindOf(k, words))),
                        Comparison.BitsOf(before, k),
                        Comparison.BitsOf(version, k)
                    )
                ),
            Change(words.Say("hardware.cycles"), Size.Of(before.Cycles.Most), Size.Of(version.Cycles.Most)),
            .. comparison.Costs.Count == 0
                ? Array.Empty<Content>()
                :
                [
                    Change("compare.area", Cost(before).Area, Cost(version).Area),
                    Change("compare.clock", Cost(before).Clock, Cost(version).Clock),
                    Change("compare.time", Cost(before).Time.Most, Cost(version).Time.Most),
                ],
        ];
        return new Pair(
            words.Spell("compare.follows", ("version", Letter(version)), ("before", Letter(before))),
            Content.Join(words.Say("walk.between-effects"), changes)
        );
    }

    private Content Change(string key, long before, long now) =>
        Change(words.Say(key), Size.Of((int)before), Size.Of((int)now));

    private Content Change(string what, Size before, Size now) =>
        words.Spell(
            now.Count < before.Count ? "compare.fewer"
                : now.Count > before.Count ? "compare.more"
                : "compare.same",
            ("what", what),
            ("before", Text(before.Count)),
            ("now", Text(now.Count)),
            ("change", now.Count < before.Count ? (before - now).ToString() : (now - before).ToString())
        );
}
