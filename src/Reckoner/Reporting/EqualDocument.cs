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
    /// <param name="count">How many were asked for.</param>
    public static Document Of(
        OperandsSubject subject,
        EqualDraw? draw,
        Func<EqualWays> ways,
        int count,
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
                : draw.Drawn.Count == 0 ? TooFew(subject, draw.Class, ways(), count, words)
                : Drawn(subject, draw, count, words),
            words
        );

    private static Fact[] Facts(OperandsSubject subject, EqualClass one, int count, Vocabulary words) =>
        [.. subject.Facts, ("asked", count), ("size", one.Size), ("class", Said(one, words))];

    private static IEnumerable<Block> Drawn(OperandsSubject subject, EqualDraw draw, int count, Vocabulary words)
    {
        var facts = Facts(subject, draw.Class, count, words);
        List<Content> said = [words.Spell(subject.Scoped("operands.equal", "operands.equal-sampled"), facts)];
        if (draw.Class.Size < count)
        {
            said.Add(words.Spell("operands.equal-again", facts));
        }
        else if (draw.NoneTrivial)
        {
            said.Add(words.Spell("operands.equal-telling"));
        }
        return [new Paragraph(said), .. ExamplesGrid.Of(subject.Datapath, draw.Drawn, words, isMarked: false)];
    }

    private static IEnumerable<Block> TooFew(
        OperandsSubject subject,
        EqualClass largest,
        EqualWays ways,
        int count,
        Vocabulary words
    ) =>
        [
            new Paragraph(
                words.Spell(
                    subject.Scoped("operands.too-few", "operands.too-few-sampled"),
                    Facts(subject, largest, count, words)
                )
            ),
            new Paragraph(words.Spell("operands.ways")),
            new Items([.. EqualWaysText.Of(subject, largest, ways, count, words)]),
        ];

    /// <summary>A class in words: its cycles, then how often each outcome comes about.</summary>
    internal static string Said(EqualClass one, Vocabulary words) =>
        string.Join(
            ", ",
            one.Outcomes.Select(o =>
                    words.Say(
                        o.Times == 0 ? "operands.class-never" : "operands.class-outcome",
                        ("text", o.Text),
                        ("times", o.Times)
                    )
                )
                .Prepend(words.Say("operands.class-cycles", ("cycles", one.Cycles)))
        );
}
