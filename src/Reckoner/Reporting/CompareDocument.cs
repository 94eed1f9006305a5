using Reckoner.Datapaths;
using Reckoner.Measuring;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// Machines side by side: what each is built of, what it saved over the one it follows, and their walks on the same operands,
/// round by round. Each machine has a letter, since their names would fill the page.
/// </summary>
internal sealed partial class CompareDocument
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
        if (comparison.Costs.Count > 0)
        {
            blocks.Add(new Paragraph(words.Spell("compare.by-model")));
        }
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
}
