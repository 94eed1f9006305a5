using Reckoner.Choosing;
using Reckoner.Diagnostics;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Operands of equal difficulty, or why there are too few and what can be done.</summary>
internal static class EqualDocument
{
    /// <param name="draw">Null where there are no operands at all.</param>
    /// <param name="ways">Asked for where there are too few.</param>
    public static Document Of(
        OperandsSubject subject,
        EqualAsked asked,
        EqualDraw? draw,
        Func<EqualWays> ways,
        Vocabulary words
    ) =>
        subject.Document(
            draw is null
                    ?
                    [
                        new Paragraph(
                            words.Spell(subject.Scoped("operands.none", "operands.none-sampled"), subject.Facts)
                        ),
                    ]
                : draw.Drawn.Count == 0 ? TooFew(subject, asked, draw, ways(), words)
                : Drawn(subject, asked, draw, words),
            words
        );

    private static Fact[] Facts(OperandsSubject subject, EqualAsked asked, EqualDraw draw, Vocabulary words) =>
        [
            .. subject.Facts,
            ("asked", asked.Count),
            ("size", draw.Class?.Size ?? 0),
            ("left", draw.Left),
            ("class", draw.Class is { } one ? EqualClassText.Of(one, words) : ""),
        ];

    private static IEnumerable<Block> Drawn(OperandsSubject subject, EqualAsked asked, EqualDraw draw, Vocabulary words)
    {
        var facts = Facts(subject, asked, draw, words);
        List<Content> said = [words.Spell(subject.Scoped("operands.equal", "operands.equal-sampled"), facts)];
        if (asked.Again)
        {
            said.Add(words.Spell("operands.equal-second", facts));
        }
        foreach (var (one, taken) in draw.Neighbours)
        {
            said.Add(
                words.Spell("operands.equal-neighbour", ("taken", taken), ("class", EqualClassText.Of(one, words)))
            );
        }
        if (draw.Drawn.Count > draw.Left + draw.Neighbours.Sum(n => n.Taken))
        {
            said.Add(words.Spell("operands.equal-again", facts));
        }
        said.Add(Shortcuts(asked.Allowed, words));
        if (draw.Class!.Work.Exposed is null)
        {
            said.Add(words.Spell("operands.equal-no-slips"));
        }
        return
        [
            new Paragraph(said),
            .. ExamplesGrid.Of(subject.Datapath, draw.Drawn, words, isMarked: false),
            new Paragraph(
                words.Spell(
                    "operands.equal-unused",
                    ("ones", EqualClassText.Extent(draw.Unused!.Ones, words)),
                    ("changes", EqualClassText.Extent(draw.Unused.Changes, words))
                ),
                ParagraphRole.Note
            ),
        ];
    }

    private static Content Shortcuts(EqualAllowed allowed, Vocabulary words) =>
        allowed.Shortcuts.Count == 0
            ? words.Spell("operands.no-shortcut")
            : words.Spell(
                "operands.shortcuts-allowed",
                ("names", string.Join(", ", allowed.Shortcuts.Select(Choosing.Shortcuts.Name)))
            );

    private static IEnumerable<Block> TooFew(
        OperandsSubject subject,
        EqualAsked asked,
        EqualDraw draw,
        EqualWays ways,
        Vocabulary words
    )
    {
        var facts = Facts(subject, asked, draw, words);
        List<Content> said =
        [
            draw.Class is null ? words.Spell("operands.all-short", facts)
            : draw.Left < draw.Class.Size ? words.Spell("operands.too-few-left", facts)
            : words.Spell(subject.Scoped("operands.too-few", "operands.too-few-sampled"), facts),
        ];
        if (draw.Class is not null && asked.Allowed.Shortcuts.Count < Choosing.Shortcuts.All.Count)
        {
            said.Add(words.Spell("operands.shortcuts-out"));
        }
        return
        [
            new Paragraph(said),
            new Paragraph(words.Spell("operands.ways")),
            new Items([.. EqualWaysText.Of(draw, ways, words)]),
        ];
    }
}
