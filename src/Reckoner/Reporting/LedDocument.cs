using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Refining;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>How one machine becomes another: the steps with their reasons and which registers are which, or where the two part.</summary>
internal static class LedDocument
{
    public static Document Of(Led led, Vocabulary words) =>
        new(
            led.From.Machine.Name,
            words.Language,
            words.Say("refine.from-to", ("first", Names.Of(led.From, words)), ("second", Names.Of(led.To, words))),
            null,
            [.. Blocks(led, words)]
        )
        {
            Leads = [Lead(led, words)],
        };

    private static Content Lead(Led led, Vocabulary words) =>
        led.Parts is not null ? words.Spell(led.IsSmallest ? "refine.part" : "refine.part-somewhere")
        : led.IsFound && led.Steps.Count == 0 ? words.Spell("refine.leads-nowhere")
        : led.IsFound ? words.Spell("refine.leads", ("count", led.Steps.Count))
        : led.IsComplete ? words.Spell("refine.no-way")
        : words.Spell("refine.no-way-yet");

    private static IEnumerable<Block> Blocks(Led led, Vocabulary words)
    {
        if (led.Parts is { } parts)
        {
            yield return new Pairs([
                new Pair(
                    words.Spell("refine.for"),
                    [
                        Content.Phrase(WidthText.Of(parts.From.Widths)),
                        Content.Phrase(Operands(parts.From, parts.Operands, words)),
                    ]
                ),
                new Pair(
                    Content.Phrase(parts.From.Machine.Name),
                    Content.Phrase(Results(parts.From, parts.Given, words))
                ),
                new Pair(
                    Content.Phrase(parts.To.Machine.Name),
                    Content.Phrase(Results(parts.To, parts.GivenThere, words))
                ),
            ]);
        }
        if (led.Steps.Count > 0)
        {
            yield return new Pairs(
                [
                    .. led.Steps.Select(s => new Pair(
                        Content.Phrase(
                            words.Say(
                                "refine.version",
                                ("number", s.Number),
                                ("moves", ReasonWords.Move(s.Moves[^1], words))
                            )
                        ),
                        [.. s.Steps[^1].Reasons.Select(r => ReasonWords.Of(r, led.From.Machine.Description, words))]
                    )),
                ],
                PairsForm.Under
            );
        }
        if (led.IsFound)
        {
            yield return new Paragraph(
                words.Spell(
                    led.ComparedAll ? "refine.registers" : "refine.registers-some",
                    ("widths", Exhausted.Text(led.ComparedAt))
                )
            );
            yield return new Grid(
                "registers",
                words.Say("refine.registers-alike"),
                [
                    new GridColumn(led.To.Machine.Name, ColumnRole.Label),
                    new GridColumn(
                        led.Steps.Count == 0 ? led.From.Machine.Name : words.Say("refine.last-version"),
                        ColumnRole.Short
                    ),
                ],
                [.. led.Registers.Select(r => new GridRow([Cell.Of(r.There), Cell.Of(r.Here)]))]
            );
            yield return new Paragraph(
                [.. RunThere(led, words), .. led.Steps.Count > 0 ? RefineDocument.Tried(led.Steps, words) : []],
                ParagraphRole.Note
            );
        }
    }

    private static IEnumerable<Content> RunThere(Led led, Vocabulary words)
    {
        if (led.RunAt.Count > 0)
        {
            yield return words.Spell(
                "refine.run-there",
                ("machine", led.To.Machine.Name),
                ("widths", Exhausted.Text(led.RunAt))
            );
        }
    }

    private static string Operands(Datapath datapath, IReadOnlyList<BigInteger> bits, Vocabulary words) =>
        string.Join(", ", datapath.Operands.Select(o => $"{o.In(words.Language)} = {o.Number(bits[o.Index])}"));

    private static string Results(Datapath datapath, IReadOnlyList<BigInteger> numbers, Vocabulary words) =>
        string.Join(", ", datapath.Results.Zip(numbers, (r, n) => $"{r.In(words.Language)} = {n}"));
}
