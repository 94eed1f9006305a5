using Reckoner.Choosing;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>The best few operands that show something.</summary>
internal static class BestDocument
{
    /// <param name="slips">What slips that were asked for give for them; null where none was.</param>
    public static Document Of(
        OperandsSubject subject,
        IReadOnlyList<ChosenOperands> best,
        SlipsShown? slips,
        Vocabulary words
    ) => subject.Document(Blocks(subject, best, slips, words), words);

    private static IEnumerable<Block> Blocks(
        OperandsSubject subject,
        IReadOnlyList<ChosenOperands> best,
        SlipsShown? slips,
        Vocabulary words
    )
    {
        if (best.Count == 0)
        {
            return
            [
                new Paragraph(words.Spell(subject.Scoped("operands.none", "operands.none-sampled"), subject.Facts)),
            ];
        }
        List<Content> found = [words.Spell(subject.Scoped("operands.found", "operands.found-sampled"), subject.Facts)];
        if (best.Count > 1)
        {
            found.Add(words.Spell("operands.order"));
        }
        return
        [
            new Paragraph(found),
            .. ExamplesGrid.Of(subject.Datapath, best, words, isMarked: slips is not null),
            .. slips is null ? Array.Empty<Block>() : [SlipsGrid.Of(subject.Datapath, slips, words)],
        ];
    }
}
