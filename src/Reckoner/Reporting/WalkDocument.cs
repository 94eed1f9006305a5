using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>A walk as a document: operands, what names stand for, the table, the results, whether the laws hold.</summary>
internal static class WalkDocument
{
    /// <summary>Null where the style asks for what the machine does not have; that is told.</summary>
    /// <param name="oneByOne">Whether each event is a sentence of its own, for reading aloud.</param>
    public static (Document? Document, IReadOnlyList<Diagnostic> Found) Of(
        Walk walk,
        HouseStyle style,
        Vocabulary words,
        bool oneByOne
    )
    {
        var speech = Speech.Of(walk.Datapath, words, style);
        var (grid, legend, found) = WalkGrid.Of(walk, style, speech, oneByOne);
        if (found.Count > 0)
        {
            return (null, found);
        }
        var blocks = new List<Block>();
        blocks.AddRange(Before(walk, words));
        if (legend.Count > 0)
        {
            blocks.Add(new Pairs([.. legend.Select(l => new Pair(l.Name, l.Said))]));
        }
        blocks.AddRange(Holding(walk, words));
        blocks.Add(grid);
        blocks.AddRange(NotStored(grid, words));
        blocks.AddRange(After(walk, words));
        var machine = walk.Datapath.Machine;
        return (
            new Document(
                machine.Name,
                words.Language,
                Names.Of(walk.Datapath, words),
                machine.Title?.In(words.Language),
                blocks
            )
            {
                Paper = style.Paper,
            },
            []
        );
    }

    private static Content Number(BigInteger number, BigInteger bits, int width) =>
        (Content)Run.Number(number) + Content.Text(" = ") + Digits.Plain.Of(bits, width);

    private static IEnumerable<Block> Before(Walk walk, Vocabulary words)
    {
        yield return new Pairs([
            .. walk.Datapath.Operands.Select(o =>
            {
                var bits = walk.Operands[o.Index];
                return new Pair(Content.Phrase(o.In(words.Language)), Number(o.Number(bits), bits, o.Width));
            }),
        ]);
        if (!walk.IsGiven)
        {
            var given = walk.Datapath.NotGiven(walk.Operands)!;
            yield return new Paragraph(
                words.Spell("walk.outside", ("given", Formula(ClaimText.Of(given, walk.Datapath, words))))
            );
        }
    }

    private static Run Formula(string text) => Run.Formula(text);

    /// <summary>What the sign in heads and labels means.</summary>
    private static IEnumerable<Block> NotStored(Grid grid, Vocabulary words)
    {
        if (grid.Columns.Any(c => c.OnWires) || grid.Rows.Any(r => !r.Stored))
        {
            yield return new Paragraph(words.Spell("table.not-stored", ("sign", Marks.OnWires)), ParagraphRole.Signs);
        }
    }

    /// <summary>What holds in every round, with names; its numbers stand in the table.</summary>
    private static IEnumerable<Block> Holding(Walk walk, Vocabulary words)
    {
        if (walk.Holding is not { } holding)
        {
            yield break;
        }
        yield return new Paragraph(words.Spell("walk.invariant"));
        yield return Formulas(holding.Formulas);
        yield return new Paragraph(words.Spell("prove.exit"));
        yield return Formulas(holding.Ends);

        static Pairs Formulas(IReadOnlyList<string> formulas) =>
            new([.. formulas.Select(f => new Pair(Run.Formula(f), Content.Empty))]);
    }

    private static IEnumerable<Block> After(Walk walk, Vocabulary words)
    {
        var datapath = walk.Datapath;
        yield return new Paragraph(
            words.Spell(
                datapath.MayStopEarly ? "walk.cycles-early" : "walk.cycles",
                ("count", walk.Cycles),
                ("most", datapath.MostCycles)
            )
        );
        var results = datapath.Results.Zip(walk.Results).ToList();
        yield return new Pairs([
            .. results.Select(r => new Pair(
                Content.Phrase(r.First.In(words.Language)),
                Number(r.First.Number(r.Second), r.Second, r.First.Width)
            )),
        ]);
        if (walk.Claims.Count == 0)
        {
            yield return new Paragraph(words.Spell(walk.IsGiven ? "walk.no-laws" : "walk.outside-unstated"));
            yield break;
        }
        if (!walk.IsGiven)
        {
            yield return new Paragraph(words.Spell("walk.outside-stated"));
        }
        var numbers = datapath.Widths.ToDictionary(w => w.Name, w => w.Value);
        foreach (var operand in datapath.Operands)
        {
            numbers[operand.Name] = operand.Number(walk.Operands[operand.Index]);
        }
        foreach (var (result, bits) in results)
        {
            numbers[result.Name] = result.Number(bits);
        }
        yield return new Pairs([
            .. walk.Claims.Select(c => new Pair(
                words.Spell(WalkText.VerdictKey(c)),
                Claim(c, numbers, datapath, words)
            )),
        ]);
    }

    private static Content Claim(
        JudgedClaim claim,
        Dictionary<string, BigInteger> numbers,
        Datapath datapath,
        Vocabulary words
    )
    {
        var said = ClaimText.Of(claim.Claim, datapath, words);
        Content text = Formula(said);
        if (claim.Undefined is { } undefined)
        {
            return text + Content.Text(": ") + Content.Text(ClaimText.Of(undefined, datapath, words));
        }
        var applied = ClaimText.WithNumbers(claim.Claim, numbers, datapath, words);
        return claim.Applies && applied != said ? text + Content.Text(": ") + Formula(applied) : text;
    }
}
