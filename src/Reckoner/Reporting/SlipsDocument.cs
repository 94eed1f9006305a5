using Reckoner.Numbers;
using Reckoner.Slips;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>The slips of a machine: what each is, how many operands show it, the smallest, and when it bites.</summary>
internal static class SlipsDocument
{
    public static Document Of(SlipStudy study, Vocabulary words)
    {
        var exposable = study.Slips.Where(s => s.Smallest is not null).ToList();
        var harmless = study.Slips.Where(s => s.Smallest is null).ToList();
        var blocks = new List<Block>
        {
            new Pairs([.. exposable.Select(s => Exposable(s, study, words))], PairsForm.Under),
        };
        if (harmless.Count > 0)
        {
            blocks.Add(new Paragraph(words.Spell(study.IsExhaustive ? "slips.harmless" : "slips.hidden")));
            blocks.Add(new Pairs([.. harmless.Select(s => Harmless(s, words))], PairsForm.Under));
        }
        return new Document(
            study.Datapath.Machine.Name,
            words.Language,
            Names.Of(study.Datapath, words),
            Subtitle: null,
            blocks
        )
        {
            Leads =
            [
                Tried(study, words),
                .. exposable.Exists(s => s.When is not null) ? [Next(study, words)] : Nothing,
            ],
        };
    }

    private static readonly Content[] Nothing = [];

    private static Content Tried(SlipStudy study, Vocabulary words) =>
        words.Spell(
            study.IsExhaustive ? "slips.head" : "slips.head-sampled",
            ("count", study.Slips.Count),
            ("cases", study.Cases),
            ("what", OperandsText.What(study.Datapath)),
            ("sample", study.Drawn)
        );

    /// <summary>At which other width conditions were compared.</summary>
    private static Content Next(SlipStudy study, Vocabulary words)
    {
        if (study.Next is not { } next)
        {
            return words.Spell("slips.next-none");
        }
        var hasPowers = study.Slips.Any(s =>
            s.When is { } when && SlipText.Said(when, words) != SlipText.SaidWithValues(when, words)
        );
        return words.Spell(hasPowers ? "slips.next-width-powers" : "slips.next-width", ("widths", WidthText.Of(next)));
    }

    private static Pair Exposable(StudiedSlip slip, SlipStudy study, Vocabulary words) =>
        new(
            Content.Phrase(slip.Slip.Name),
            [
                Content.Phrase(SlipText.Sentence(slip.Slip, words)),
                SlipShare.Of(slip, study, words),
                Example(slip, study, words) + Content.Text(" ") + Parting(slip, words),
            ]
        );

    private static Pair Harmless(StudiedSlip slip, Vocabulary words)
    {
        var sentence = Content.Phrase(SlipText.Sentence(slip.Slip, words));
        var said = slip.SameGates ? sentence + Content.Text(" ") + words.Spell("slips.same-gates") : sentence;
        return new Pair(
            Content.Phrase(slip.Slip.Name),
            slip.Everywhere is { } everywhere ? [said, Everywhere(everywhere, words)] : [said]
        );
    }

    private static Content Everywhere(SlipEverywhere everywhere, Vocabulary words) =>
        everywhere switch
        {
            { IsProved: true } => words.Spell("slips.everywhere-proved"),
            { WrongAt: { } datapath } => words.Spell(
                "slips.everywhere-wrong",
                ("widths", WidthText.Of(datapath.Widths)),
                ("operands", OperandsText.Operands(datapath, everywhere.WrongFor, words)),
                ("results", OperandsText.Results(datapath, everywhere.Results, words))
            ),
            _ => words.Spell("slips.everywhere-open"),
        };

    private static Content Example(StudiedSlip slip, SlipStudy study, Vocabulary words)
    {
        var datapath = study.Datapath;
        return words.Spell(
            study.IsExhaustive ? "slips.smallest" : "slips.smallest-tried",
            ("operands", OperandsText.Operands(datapath, slip.Smallest!, words)),
            ("results", OperandsText.Results(datapath, slip.Results!, words)),
            ("right", OperandsText.Results(datapath, slip.Right!, words))
        );
    }

    /// <summary>Where the walks part.</summary>
    private static Content Parting(StudiedSlip slip, Vocabulary words) =>
        slip.PartsAt switch
        {
            null => words.Spell("slips.parts-results"),
            0 => words.Spell("slips.parts-load"),
            { } cycle => words.Spell("slips.parts", ("cycle", cycle)),
        };
}
