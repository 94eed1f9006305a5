using System.Globalization;
using System.Numerics;
using System.Text;
using Reckoner.Datapaths;
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
        var widths = string.Join(", ", datapath.Widths.Select(w => $"{w.Name} = {w.Value}"));
        text.Append($"{datapath.Machine.Name} {words.Say("walk.at", ("widths", widths))}\n");
        var exposable = study.Slips.Where(s => s.Exposed > 0).ToList();
        var key = study.IsExhaustive ? "slips.head" : "slips.head-sampled";
        Filled(text, words.Say(key, ("count", study.Slips.Count), ("cases", study.Cases)), 0, columns);
        text.Append('\n');
        foreach (var slip in exposable)
        {
            text.Append($"   {slip.Slip.Name}\n");
            Filled(text, Sentence(slip.Slip, words), Indent, columns);
            Filled(text, Share(slip, study, words), Indent, columns);
            Filled(text, Example(slip, datapath, words), Indent, columns);
        }
        var harmless = study.Slips.Where(s => s.Exposed == 0).ToList();
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

    private static string Share(StudiedSlip slip, SlipStudy study, Vocabulary words)
    {
        var key = study.IsExhaustive ? "slips.exposed" : "slips.exposed-sampled";
        var share = (100.0 * slip.Exposed / study.Cases).ToString("0.##", CultureInfo.InvariantCulture);
        var shown = words.Say(key, ("exposed", slip.Exposed), ("cases", study.Cases), ("share", share));
        if (slip.When is { Key: "slips.always" } && study.IsExhaustive)
        {
            return words.Say("slips.shown-always", ("shown", shown));
        }
        return slip.When is { } when && study.IsExhaustive
            ? words.Say("slips.exactly", ("shown", shown), ("when", words.Say(when.Key, ("text", when.Text))))
            : shown + ".";
    }

    private static string Example(StudiedSlip slip, Datapath datapath, Vocabulary words)
    {
        string Results(IReadOnlyList<BigInteger> bits) =>
            string.Join(", ", datapath.Results.Zip(bits, (r, b) => $"{r.Name} = {r.Number(b)}"));
        var operands = string.Join(
            ", ",
            datapath.Operands.Zip(slip.Smallest!, (o, b) => $"{o.Name} = {Evaluator.Number(o, b)}")
        );
        var example = words.Say(
            "slips.smallest",
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

    public static string Json(SlipStudy study, Vocabulary words) =>
        Reporting.Json.Document(json =>
        {
            var datapath = study.Datapath;
            json.Subject(datapath);
            json.WriteString("cases", study.Cases.ToString(CultureInfo.InvariantCulture));
            json.WriteBoolean("exhaustive", study.IsExhaustive);
            json.Objects(
                "slips",
                study.Slips,
                slip =>
                {
                    json.WriteString("name", slip.Slip.Name);
                    json.WriteString("kind", slip.Slip.Kind);
                    json.WriteNumber("line", slip.Slip.Line);
                    json.WriteString("text", Sentence(slip.Slip, words));
                    json.WriteString("exposed", slip.Exposed.ToString(CultureInfo.InvariantCulture));
                    json.WriteBoolean("same_gates", slip.SameGates);
                    if (slip.When is { } when)
                    {
                        json.WriteString("exactly_when", words.Say(when.Key, ("text", when.Text)));
                    }
                    if (slip.Smallest is null)
                    {
                        json.WriteNull("smallest");
                        return;
                    }
                    json.Object(
                        "smallest",
                        () =>
                        {
                            json.Object(
                                "operands",
                                () =>
                                {
                                    foreach (var (operand, bits) in datapath.Operands.Zip(slip.Smallest))
                                    {
                                        json.WriteString(
                                            operand.Name,
                                            Numbers.Bits.Text(Evaluator.Number(operand, bits))
                                        );
                                    }
                                }
                            );
                            json.Object("results", () => Write(slip.Results!));
                            json.Object("right", () => Write(slip.Right!));
                            if (slip.PartsAt is { } cycle)
                            {
                                json.WriteNumber("parts_at", cycle);
                            }
                        }
                    );
                }
            );

            void Write(IReadOnlyList<BigInteger> results)
            {
                foreach (var (result, bits) in datapath.Results.Zip(results))
                {
                    json.WriteString(result.Name, Numbers.Bits.Text(result.Number(bits)));
                }
            }
        });
}
