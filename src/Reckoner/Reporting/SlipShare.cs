using System.Globalization;
using Reckoner.Conditions;
using Reckoner.Numbers;
using Reckoner.Slips;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>For how many operands a slip gives wrong results, and for which.</summary>
internal static class SlipShare
{
    public static Content Of(StudiedSlip slip, SlipStudy study, Vocabulary words) =>
        study.IsExhaustive ? Counted(slip, study, words) : Sampled(slip, study, words);

    private static Content Counted(StudiedSlip slip, SlipStudy study, Vocabulary words)
    {
        var share = (100.0 * slip.Exposed / study.Cases).ToString("0.##", CultureInfo.InvariantCulture);
        // 65,278 of 65,280 is not 100 %.
        share = share == "100" && slip.Exposed < study.Cases ? "99.99" : share;
        var shown = words.Spell(
            "slips.exposed",
            ("exposed", slip.Exposed),
            ("cases", study.Cases),
            ("share", words.Decimal(share))
        );
        if (slip.When is not { } when)
        {
            return shown + Content.Text(".");
        }
        var said =
            when is Always
                ? words.Spell("slips.shown-always", ("shown", shown))
                : words.Spell(
                    "slips.exactly",
                    ("shown", shown),
                    ("when", SlipText.SaidWithValues(when, study.Datapath, words))
                );
        if (study.Next is null || slip.HoldsNext is true)
        {
            return said;
        }
        var key = slip.HoldsNext is null ? "slips.next-unknown" : "slips.next-fails";
        return said + Content.Text(" ") + words.Spell(key, ("widths", WidthText.Of(study.Next)));
    }

    private static Content Sampled(StudiedSlip slip, SlipStudy study, Vocabulary words)
    {
        if (slip.Exposed == 0 || slip.Exposed == study.Cases)
        {
            var key = slip.Exposed == 0 ? "slips.exposed-corners" : "slips.exposed-all";
            return words.Spell(key, ("cases", study.Cases));
        }
        return words.Spell(
            "slips.exposed-sampled",
            ("exposed", slip.Exposed),
            ("cases", study.Cases),
            ("share", words.Decimal(Estimate(100.0 * slip.Exposed / study.Cases)))
        );
    }

    /// <summary>No more digits than a sample can tell.</summary>
    private static string Estimate(double share) =>
        share.ToString(
            share >= 10 ? "0"
                : share >= 1 ? "0.#"
                : "0.0#",
            CultureInfo.InvariantCulture
        );
}
