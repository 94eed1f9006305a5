using Reckoner.Choosing;
using Reckoner.Diagnostics;
using Reckoner.Slips;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>The fewest operands that expose every slip, or that tell the slips apart.</summary>
internal static class FewestDocument
{
    /// <param name="isApart">Whether they tell slips apart.</param>
    public static Document Of(OperandsSubject subject, SlipsShown shown, bool isApart, Vocabulary words) =>
        subject.Document(
            [
                .. Chosen(subject, shown, isApart, words),
                .. Listed(subject.Scoped("operands.alike", "operands.alike-sampled"), shown.Alike, words),
                .. Listed(
                    subject.Scoped("operands.hidden", "operands.hidden-sampled"),
                    shown.Hidden.Select(s => new[] { s }),
                    words
                ),
            ],
            words
        );

    private static IEnumerable<Block> Chosen(OperandsSubject subject, SlipsShown shown, bool isApart, Vocabulary words)
    {
        Fact[] facts =
        [
            .. subject.Facts,
            ("chosen", shown.Chosen.Count),
            ("slips", shown.Slips.Count),
            ("least", shown.AtLeast ?? 0),
            ("hidden", shown.Hidden.Count),
        ];
        if (shown.Chosen.Count == 0)
        {
            return
            [
                new Paragraph(
                    words.Spell(subject.Scoped("operands.nothing-exposed", "operands.nothing-exposed-sampled"), facts)
                ),
            ];
        }
        return
        [
            new Paragraph([
                words.Spell(
                    isApart
                        ? subject.Scoped("operands.apart", "operands.apart-sampled")
                        : subject.Scoped("operands.exposing", "operands.exposing-sampled"),
                    facts
                ),
                words.Spell(shown.IsFewest ? "operands.fewest" : "operands.fewest-open", facts),
            ]),
            .. ExamplesGrid.Of(subject.Datapath, shown.Chosen, words, isMarked: true),
            SlipsGrid.Of(subject.Datapath, shown, words),
        ];
    }

    /// <summary>Groups of slips, if there are any, under what is said of them.</summary>
    private static IEnumerable<Block> Listed(string key, IEnumerable<IReadOnlyList<Slip>> groups, Vocabulary words)
    {
        var each = groups.Select(g => Content.Phrase(string.Join(", ", g.Select(s => s.Name)))).ToList();
        return each.Count == 0 ? [] : [new Paragraph(words.Spell(key)), new Items(each)];
    }
}
