using System.Globalization;
using System.Numerics;
using System.Text;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Slips;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>The slips of a machine: what each is, how many operands show it, the smallest, and when it bites.</summary>
public static class SlipText
{
    private const int Indent = 6;

    public static string Of(SlipStudy study, Vocabulary words, int columns)
    {
        var text = new StringBuilder();
        var datapath = study.Datapath;
        text.Append($"{Names.Of(datapath, words)}\n");
        var exposable = study.Slips.Where(s => s.Smallest is not null).ToList();
        Filled(text, Head(study, words), 0, columns);
        if (exposable.Exists(s => s.When is not null))
        {
            Filled(text, Next(study, words), 0, columns);
        }
        text.Append('\n');
        foreach (var slip in exposable)
        {
            text.Append($"   {slip.Slip.Name}\n");
            Filled(text, Sentence(slip.Slip, words), Indent, columns);
            Filled(text, Share(slip, study, words), Indent, columns);
            Filled(text, Example(slip, study, words), Indent, columns);
        }
        var harmless = study.Slips.Where(s => s.Smallest is null).ToList();
        if (harmless.Count > 0)
        {
            text.Append('\n');
            Filled(text, words.Say(study.IsExhaustive ? "slips.harmless" : "slips.hidden"), 0, columns);
            text.Append('\n');
            foreach (var slip in harmless)
            {
                text.Append($"   {slip.Slip.Name}\n");
                var why = slip.SameGates ? " " + words.Say("slips.same-gates") : "";
                Filled(text, Sentence(slip.Slip, words) + why, Indent, columns);
            }
        }
        return text.ToString();
    }

    private static string Head(SlipStudy study, Vocabulary words) =>
        words.Say(
            study.IsExhaustive ? "slips.head" : "slips.head-sampled",
            ("count", study.Slips.Count),
            ("cases", study.Cases),
            ("what", OperandsReport.What(study.Datapath)),
            ("sample", study.Drawn)
        );

    private static string Next(SlipStudy study, Vocabulary words) =>
        study.Next is { } next ? words.Say("slips.next-width", ("widths", Widths(next))) : words.Say("slips.next-none");

    private static string Widths(IEnumerable<(string Name, BigInteger Value)> widths) => WidthText.Of(widths);

    private static void Filled(StringBuilder text, string said, int indent, int columns)
    {
        foreach (var line in Wrapping.Lines(said, columns - indent))
        {
            text.Append(' ', indent).Append(line).Append('\n');
        }
    }

    /// <summary>What was done wrong, with its line.</summary>
    public static string Sentence(Slip slip, Vocabulary words) =>
        words.Say("slips.line", ("line", slip.Line), ("what", words.Say($"slip.{slip.Kind}", slip.Facts)));

    /// <summary>A condition in words.</summary>
    public static string Said(Condition condition, Vocabulary words) =>
        condition.Parts is [var first, var second]
            ? words.Say(condition.Key, ("first", Said(first, words)), ("second", Said(second, words)))
            : words.Say(condition.Key, ("text", condition.Text));

    private static string Share(StudiedSlip slip, SlipStudy study, Vocabulary words)
    {
        if (!study.IsExhaustive)
        {
            return Sampled(slip, study, words);
        }
        var share = (100.0 * slip.Exposed / study.Cases).ToString("0.##", CultureInfo.InvariantCulture);
        // 65,278 of 65,280 is not 100 %.
        share = share == "100" && slip.Exposed < study.Cases ? "99.99" : share;
        var shown = words.Say("slips.exposed", ("exposed", slip.Exposed), ("cases", study.Cases), ("share", share));
        if (slip.When is not { } when)
        {
            return shown + ".";
        }
        var said =
            when == Condition.Always
                ? words.Say("slips.shown-always", ("shown", shown))
                : words.Say("slips.exactly", ("shown", shown), ("when", Said(when, words)));
        if (study.Next is null || slip.HoldsNext is true)
        {
            return said;
        }
        var key = slip.HoldsNext is null ? "slips.next-unknown" : "slips.next-fails";
        return said + " " + words.Say(key, ("widths", Widths(study.Next)));
    }

    private static string Sampled(StudiedSlip slip, SlipStudy study, Vocabulary words)
    {
        if (slip.Exposed == 0 || slip.Exposed == study.Cases)
        {
            var key = slip.Exposed == 0 ? "slips.exposed-corners" : "slips.exposed-all";
            return words.Say(key, ("cases", study.Cases));
        }
        var share = Estimate(100.0 * slip.Exposed / study.Cases);
        return words.Say("slips.exposed-sampled", ("exposed", slip.Exposed), ("cases", study.Cases), ("share", share));
    }

    /// <summary>No more digits than a sample can tell.</summary>
    private static string Estimate(double share) =>
        share.ToString(
            share >= 10 ? "0"
                : share >= 1 ? "0.#"
                : "0.0#",
            CultureInfo.InvariantCulture
        );

    private static string Example(StudiedSlip slip, SlipStudy study, Vocabulary words)
    {
        var datapath = study.Datapath;
        string Results(IReadOnlyList<BigInteger> bits) =>
            string.Join(", ", datapath.Results.Zip(bits, (r, b) => Wrapping.Equation(r.Name, r.Number(b))));
        var operands = string.Join(
            ", ",
            datapath.Operands.Zip(slip.Smallest!, (o, b) => Wrapping.Equation(o.Name, Evaluator.Number(o, b)))
        );
        var example = words.Say(
            study.IsExhaustive ? "slips.smallest" : "slips.smallest-tried",
            ("operands", operands),
            ("results", Results(slip.Results!)),
            ("right", Results(slip.Right!))
        );
        var parts = slip.PartsAt switch
        {
            null => words.Say("slips.parts-results"),
            0 => words.Say("slips.parts-load"),
            { } cycle => words.Say("slips.parts", ("cycle", cycle)),
        };
        return $"{example} {parts}";
    }
}
