using System.Globalization;
using Reckoner.Datapaths;
using Reckoner.Measuring;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// Machines side by side: what each is built of, what it saved over the one it follows, and their walks on the same operands,
/// round by round. Each machine has a letter, since their names would fill the page.
/// </summary>
public sealed class CompareDocument
{
    private readonly Comparison comparison;
    private readonly IReadOnlyList<Walk> walks;
    private readonly HouseStyle style;
    private readonly Vocabulary words;

    private CompareDocument(Comparison comparison, IReadOnlyList<Walk> walks, HouseStyle style, Vocabulary words)
    {
        this.comparison = comparison;
        this.walks = walks;
        this.style = style;
        this.words = words;
    }

    /// <param name="walks">One for each machine, or none.</param>
    public static Document Of(Comparison comparison, IReadOnlyList<Walk> walks, HouseStyle style, Vocabulary words) =>
        new CompareDocument(comparison, walks, style, words).Made();

    private IReadOnlyList<Hardware> Versions => comparison.Versions;

    private static string Letter(int version) => ((char)('A' + version)).ToString();

    private string Letter(Hardware version) => Letter(Versions.ToList().IndexOf(version));

    /// <summary>A column for a machine; two of one name, of which one has a slip, keep their letters.</summary>
    internal static GridColumn Column(Datapath datapath, int version, ColumnRole role) =>
        new(Letter(version), role) { Full = $"{Letter(version)}: {datapath.Machine.Name}" };

    private Document Made()
    {
        var blocks = new List<Block>
        {
            new Pairs([
                .. Versions.Select((v, i) => new Pair(Content.Phrase(Letter(i)), Content.Phrase(Heading(v.Datapath)))),
            ]),
            Built(),
        };
        var saved = Versions
            .Where(v => comparison.Followed(v) is not null)
            .Select(v => Saved(v, comparison.Followed(v)!))
            .ToList();
        if (saved.Count > 0)
        {
            blocks.Add(new Pairs(saved));
        }
        blocks.Add(new Paragraph(words.Spell("compare.not-counted")));
        if (walks.Count > 0)
        {
            blocks.Add(Results());
            blocks.Add(WalksAligned.Of(walks, style, words));
            blocks.Add(new Paragraph(words.Spell("compare.sign", ("sign", Marks.Differs)), ParagraphRole.Signs));
        }
        return new Document("comparison", words.Language, words.Say("compare.title"), null, blocks)
        {
            Paper = style.Paper,
        };
    }

    private string Heading(Datapath datapath)
    {
        var name = Names.Of(datapath, words);
        return datapath.Machine.Title is { } title
            ? words.Say("aloud.said", ("name", name), ("what", title.In(words.Language)))
            : name;
    }

    // ---- what each is built of

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

    // ---- what each saved

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
        ];
        return new Pair(
            words.Spell("compare.follows", ("version", Letter(version)), ("before", Letter(before))),
            Content.Join(words.Say("walk.between-effects"), changes)
        );
    }

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

    // ---- what they give

    private Grid Results()
    {
        var names = Versions.SelectMany(v => v.Datapath.Results).Select(r => r.Name).Distinct();
        var operands = walks[0]
            .Datapath.Operands.Select(o => $"{o.Name} = {Evaluator.Number(o, walks[0].Operands[o.Index])}");
        return new Grid(
            "results",
            words.Say("compare.results", ("operands", string.Join(words.Say("walk.between-names"), operands))),
            [
                new GridColumn(words.Say("compare.result"), ColumnRole.Label),
                .. walks.Select((w, i) => Column(w.Datapath, i, ColumnRole.Short)),
            ],
            [
                .. names.Select(name => new GridRow([Cell.Of(name), .. walks.Select(w => Result(w, name))])),
                new GridRow([
                    Cell.Of(words.Say("hardware.cycles")),
                    .. walks.Select(w => Cell.Of(Run.Number(w.Cycles))),
                ]),
                new GridRow([
                    Cell.Of(words.Say("compare.laws")),
                    .. walks.Select(w => Cell.Of(words.Say(w.Holds ? "walk.holds" : "walk.broken"))),
                ]),
            ]
        );
    }

    private static Cell Result(Walk walk, string name)
    {
        var results = walk.Datapath.Results.Zip(walk.Results).Where(r => r.First.Name == name).ToList();
        return results.Count == 0 ? Cell.Empty : Cell.Of(Run.Number(results[0].First.Number(results[0].Second)));
    }
}
