using System.Numerics;
using Reckoner.Diagnostics;
using Reckoner.Explaining;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Why somebody got what they got: what gives just that, the likeliest first.</summary>
internal static class WhyDocument
{
    private const int MostTold = 6;

    public static Document Of(Verdict verdict, Vocabulary words)
    {
        var blocks = new List<Block> { new Paragraph(words.Spell(Key(verdict), Facts(verdict))) };
        if (IsNamed(verdict))
        {
            var told = verdict.Explanations.Take(MostTold).Select(e => Content.Phrase(Told(e, verdict.Ways, words)));
            blocks.Add(new Items([.. told]));
            if (verdict.Explanations.Count - MostTold is var more and > 0)
            {
                blocks.Add(new Paragraph(words.Spell("why.more", ("count", more)), ParagraphRole.Note));
            }
        }
        if (verdict.TellingApart is { } operands && IsNamed(verdict))
        {
            blocks.Add(new Paragraph(Telling(verdict, operands, words)));
        }
        if (verdict.Rows is { } rows && rows.Wrong > 0)
        {
            blocks.Add(new Paragraph([.. Rows(verdict, rows, words)], ParagraphRole.Note));
        }
        if (verdict.Seen.Assumed is { Count: > 0 } assumed)
        {
            blocks.Add(new Paragraph([.. assumed.Select(a => words.Spell(Key(a)))], ParagraphRole.Note));
        }
        return new Document(
            verdict.Datapath.Machine.Name,
            words.Language,
            Names.Of(verdict.Datapath, words),
            verdict.Datapath.Machine.Title?.In(words.Language),
            blocks
        )
        {
            Leads = [Content.Phrase(Got(verdict, words))],
        };
    }

    /// <summary>Below the margin rows are described, and no cause is named.</summary>
    public static bool IsNamed(Verdict verdict) =>
        verdict.Kind switch
        {
            VerdictKind.Surely or VerdictKind.Probably or VerdictKind.Perhaps => true,
            VerdictKind.Right or VerdictKind.OtherWay or VerdictKind.Described or VerdictKind.Unexplained => false,
        };

    private static string Key(Verdict verdict) =>
        verdict.Kind switch
        {
            VerdictKind.Right => "why.right",
            VerdictKind.OtherWay => "why.other-way",
            VerdictKind.Surely => "why.surely",
            VerdictKind.Probably => "why.probably",
            VerdictKind.Perhaps => "why.perhaps",
            VerdictKind.Described => "why.described",
            VerdictKind.Unexplained => "why.unexplained",
        };

    internal static string Key(TableAssumption assumed) =>
        assumed switch
        {
            TableAssumption.ColumnsInOrder => "why.assumed-order",
            TableAssumption.NoLoad => "why.assumed-no-load",
            TableAssumption.ZerosInFront => "why.assumed-zeros",
            TableAssumption.LettersAsDigits => "why.assumed-letters",
            TableAssumption.HalfSteps => "why.assumed-half-steps",
        };

    private static Fact[] Facts(Verdict verdict) =>
        [
            ("count", verdict.Explanations.Count),
            ("together", verdict.Causes > 1 ? new Term("why.together", ("causes", verdict.Causes)) : ""),
            ("most", verdict.MostCauses),
            ("machine", verdict.Explanations.Count > 0 ? Way(verdict.Explanations[0]) : ""),
        ];

    /// <summary>The machine as which it was worked, with its slip where that is harmless.</summary>
    internal static string Way(Explanation explanation) =>
        explanation.Machine.Slip is { } slip ? $"{explanation.Machine.Name} --slip {slip}" : explanation.Machine.Name;

    /// <summary>What was to be worked out, what was got and what is right, where results were told.</summary>
    private static string Got(Verdict verdict, Vocabulary words)
    {
        var (datapath, got) = (verdict.Datapath, verdict.Seen.Results);
        var operands = OperandsText.Operands(datapath, Big(verdict.Operands), words);
        var told = datapath.Results.Zip(got).Where(r => r.Second is not null).ToList();
        if (told.Count == 0)
        {
            return words.Say("why.operands", ("operands", operands));
        }
        var right = verdict.Ways.Right.Final(verdict.Operands);
        return words.Say(
            "why.got",
            ("operands", operands),
            ("got", string.Join(", ", told.Select(r => Equation(r.First, r.Second!.Value)))),
            (
                "right",
                string.Join(
                    ", ",
                    datapath.Results.Where((_, i) => got[i] is not null).Select(r => Equation(r, right[Index(r)]))
                )
            )
        );

        string Equation(Datapaths.Result result, BigInteger bits) =>
            Wrapping.Equation(result.In(words.Language), result.Number(bits));

        int Index(Datapaths.Result result) => datapath.Results.ToList().IndexOf(result);
    }

    internal static string Told(Explanation explanation, Ways ways, Vocabulary words)
    {
        var causes = explanation.Mishaps.Select(m => MishapText.Of(m, ways.Datapath, words));
        var told = string.Join(" ", explanation.IsAnotherWay(ways) ? causes.Prepend(AsBy(explanation)) : causes);
        return explanation.FirstSeen switch
        {
            null => told,
            0 => $"{told} {words.Say("why.seen-load")}",
            { } cycle => $"{told} {words.Say("why.seen", ("cycle", cycle))}",
        };

        string AsBy(Explanation explained) => words.Say("why.as-by", ("machine", Way(explained)));
    }

    private static Content Telling(Verdict verdict, ulong[] operands, Vocabulary words)
    {
        var (datapath, ways) = (verdict.Datapath, verdict.Ways);
        return words.Spell(
            "why.telling",
            ("operands", OperandsText.Operands(datapath, Big(operands), words)),
            ("first", Results(verdict.Explanations[0])),
            ("second", Results(verdict.Explanations[1]))
        );

        string Results(Explanation explanation) =>
            OperandsText.Results(datapath, Big(explanation.Final(ways, operands)!), words);
    }

    private static IEnumerable<Content> Rows(Verdict verdict, FollowThrough rows, Vocabulary words)
    {
        if (verdict.WrongRows.Count > 0)
        {
            yield return words.Spell(
                "why.wrong-rows",
                ("count", verdict.WrongRows.Count),
                ("rows", string.Join(", ", verdict.WrongRows)),
                ("of", rows.Rows.Count)
            );
        }
        if (rows.TooFew > 0)
        {
            yield return words.Spell("why.too-few", ("count", rows.TooFew));
        }
        if (rows.TooMany > 0)
        {
            yield return words.Spell("why.too-many", ("count", rows.TooMany));
        }
    }

    internal static BigInteger[] Big(ulong[] bits) => [.. bits.Select(b => (BigInteger)b)];
}
