using System.Numerics;
using Reckoner.Checking;
using Reckoner.Conditions;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Slips;
using Reckoner.Words;

namespace Reckoner.Page.State;

/// <summary>What every operand of a width gave.</summary>
/// <param name="Condition">For a wrong machine, where its laws break at a small width.</param>
internal sealed record Verdict(Datapath Datapath, IReadOnlyList<SectionCount> Sections, FailureCondition? Condition)
{
    public bool Holds => Sections.All(s => s.Failures.IsZero);

    /// <summary>The operands that break a law, or else another claim; null where all holds.</summary>
    public FailingCase? Smallest => Sections.Select(s => s.Smallest).FirstOrDefault(s => s is not null);

    /// <summary>Sentences, the one about the laws first.</summary>
    public IEnumerable<string> Said(Vocabulary words)
    {
        foreach (var section in Sections)
        {
            var wrong = !section.Failures.IsZero;
            yield return section.Section == CheckSection.Laws
                ? Laws(section, words)
                : Sentence(
                    words.Say(
                        wrong ? $"check.{section.Name}.fail" : $"check.{section.Name}",
                        ("cases", section.Cases),
                        ("failures", section.Failures),
                        ("machine", Datapath.Machine.Followed?.Name ?? "")
                    )
                );
            if (section.Smallest is { } smallest)
            {
                yield return words.Say("page.smallest", ("operands", Operands(smallest.Operands, words)));
            }
            if (section.Section == CheckSection.Laws && Condition is { When: { } when } found)
            {
                yield return words.Say(
                    when is Always ? "page.wrong-always" : "page.wrong-when",
                    ("widths", Widths(found.Datapath)),
                    ("failures", found.Failures),
                    ("cases", found.Cases),
                    ("when", SlipText.SaidWithValues(when, found.Datapath, words))
                );
            }
        }
    }

    private string Laws(SectionCount section, Vocabulary words)
    {
        if (Datapath.Laws.Count == 0)
        {
            return words.Say("walk.no-laws");
        }
        var what = words.Say(
            Datapath.Operands.Count switch
            {
                1 => "operands.single",
                2 => "operands.pairs",
                _ => "operands.sets",
            }
        );
        return words.Say(
            section.Failures.IsZero ? "page.right" : "page.wrong",
            ("cases", section.Cases),
            ("failures", section.Failures),
            ("what", Datapath.Given.Count == 0 ? what : words.Say("operands.given", ("what", what))),
            ("widths", Widths(Datapath))
        );
    }

    private static string Sentence(string said) => char.ToUpperInvariant(said[0]) + said[1..] + ".";

    public static string Widths(Datapath datapath) => WidthText.Of(datapath.Widths);

    /// <summary>"1 / 2": the numbers alone, in the order of the text.</summary>
    public string Operands(IReadOnlyList<BigInteger> bits, Vocabulary words) =>
        string.Join(", ", Datapath.Operands.Zip(bits, (o, b) => $"{o.In(words.Language)} = {Bits.Text(o.Number(b))}"));
}
