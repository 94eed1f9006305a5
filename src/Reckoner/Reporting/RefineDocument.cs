using System.Globalization;
using System.Numerics;
using Reckoner.Costing;
using Reckoner.Measuring;
using Reckoner.Numbers;
using Reckoner.Refining;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>What could be saved in a machine: a row for each version, then what leads to each.</summary>
internal static class RefineDocument
{
    public static Document Of(Refined refined, Vocabulary words)
    {
        var blocks = new List<Block> { Table(refined, words) };
        if (refined.Proposals.Count > 0)
        {
            blocks.Add(Reasons(refined, words));
            blocks.Add(Tried(refined, words));
        }
        return new Document(
            refined.Datapath.Machine.Name,
            words.Language,
            Names.Of(refined.Datapath, words),
            refined.Datapath.Machine.Title?.In(words.Language),
            blocks
        )
        {
            Leads = [Lead(refined, words)],
        };
    }

    private static Content Lead(Refined refined, Vocabulary words)
    {
        var count = ("count", (object)refined.Proposals.Count);
        return refined.Proposals.Count == 0 ? words.Spell(refined.IsComplete ? "refine.none" : "refine.none-yet")
            : refined.IsComplete ? words.Spell("refine.found", count)
            : words.Spell("refine.found-so-far", count);
    }

    private static Grid Table(Refined refined, Vocabulary words) =>
        new(
            "versions",
            words.Say("refine.versions"),
            [
                new GridColumn(words.Say("refine.number"), ColumnRole.Label),
                new GridColumn(words.Say("refine.register-bits"), ColumnRole.Short),
                new GridColumn(words.Say("refine.adder-bits"), ColumnRole.Short),
                new GridColumn(words.Say("refine.choices"), ColumnRole.Short),
                new GridColumn(words.Say("cost.cycles"), ColumnRole.Short),
                new GridColumn(words.Say("cost.area"), ColumnRole.Short),
                new GridColumn(words.Say("cost.clock"), ColumnRole.Short),
                new GridColumn(words.Say("cost.time"), ColumnRole.Short),
                .. IsAsked(refined) ? [new GridColumn(words.Say("refine.every-width"), ColumnRole.Short)] : Nobody,
            ],
            [
                Row(words.Say("refine.as-it-is"), refined.Hardware, refined.Cost, IsAsked(refined) ? [Cell.Empty] : []),
                .. refined.Proposals.Select(p =>
                    Row(Bits.Text(p.Number), p.Hardware, p.Cost, IsAsked(refined) ? [Proof(p, words)] : [])
                ),
            ]
        );

    private static string Moves(Proposal proposal, Vocabulary words) =>
        string.Join(", ", proposal.Moves.Select(m => ReasonWords.Move(m, words)));

    private static readonly GridColumn[] Nobody = [];

    private static bool IsAsked(Refined refined) => refined.Proposals.Any(p => p.IsProved is not null);

    /// <summary>Nothing where there was no time for it.</summary>
    private static Cell Proof(Proposal proposal, Vocabulary words) =>
        proposal.IsProved is { } isProved
            ? Cell.Of(words.Say(isProved ? "refine.proved" : "refine.not-proved"))
            : Cell.Empty;

    private static GridRow Row(string number, Hardware hardware, MachineCost cost, IEnumerable<Cell> proof) =>
        new([
            Cell.Of(number),
            Cell.Of(Bits.Text(hardware.RegisterBits.Count)),
            Cell.Of(Bits.Text(hardware.AdderBits)),
            Cell.Of(Bits.Text(hardware.ChoiceBits)),
            Cell.Of(Range(cost.Cycles.Least, cost.Cycles.Most)),
            Cell.Of(Bits.Text(cost.Area)),
            Cell.Of(Bits.Text(cost.Clock)),
            Cell.Of(Range(cost.Time.Least, cost.Time.Most)),
            .. proof,
        ]);

    private static string Range(BigInteger least, BigInteger most) =>
        least == most ? Bits.Text(most) : $"{least}..{most}";

    private static Pairs Reasons(Refined refined, Vocabulary words) =>
        new(
            [
                .. refined.Proposals.Select(p => new Pair(
                    Content.Phrase(words.Say("refine.version", ("number", p.Number), ("moves", Moves(p, words)))),
                    [
                        .. p
                            .Steps.SelectMany(s => s.Reasons)
                            .Select(r => ReasonWords.Of(r, refined.Datapath.Machine.Description, words)),
                        .. Mean(p, words),
                    ]
                )),
            ],
            PairsForm.Under
        );

    private static IEnumerable<Content> Mean(Proposal proposal, Vocabulary words) =>
        proposal.Mean is var (now, before) && now < before
            ?
            [
                words.Spell(
                    "refine.mean",
                    ("widths", WidthText.Of(proposal.MeanWidths)),
                    ("now", Two(now, words)),
                    ("before", Two(before, words))
                ),
            ]
            : [];

    private static string Two(double number, Vocabulary words) =>
        words.Decimal(number.ToString("F2", CultureInfo.InvariantCulture));

    private static Paragraph Tried(Refined refined, Vocabulary words) =>
        new(
            [
                .. Tried(refined.Proposals, words),
                words.Spell("refine.model"),
                words.Spell(refined.IsFrontier ? "refine.take-of-all" : "refine.take", ("number", 1)),
            ],
            ParagraphRole.Note
        );

    /// <summary>At which widths operands were run: for all of them the same, or else those of the fewest.</summary>
    internal static IEnumerable<Content> Tried(IReadOnlyList<Proposal> proposals, Vocabulary words)
    {
        var fewest = proposals.MinBy(p => p.Widths.Count)!;
        yield return words.Spell("refine.tried", ("widths", Exhausted.Text(fewest.Widths)));
        if (fewest.WidthsOfSome.Count > 0)
        {
            yield return words.Spell("refine.tried-some", ("widths", Exhausted.Text(fewest.WidthsOfSome)));
            if (!proposals.All(p => p.IsProved == true))
            {
                var isAlone = proposals.Any(p => p.IsProved == true);
                yield return words.Spell(isAlone ? "refine.no-proof-alone" : "refine.no-proof");
            }
        }
    }
}
