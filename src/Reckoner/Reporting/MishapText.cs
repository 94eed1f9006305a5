using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Explaining;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>What went wrong in a table worked out by hand, in one sentence each.</summary>
internal static class MishapText
{
    public static string Of(Mishap mishap, Datapath datapath, Vocabulary words) =>
        mishap.Match(
            slipped: m => Of(m, words),
            workedOtherwise: m =>
                words.Say(
                    "why.worked-otherwise",
                    ("machine", m.As.Machine.Name),
                    ("title", m.As.Machine.Title?.In(words.Language) ?? m.As.Machine.Name)
                ),
            misread: m => Of(m.Reading, datapath, words),
            miscopied: m => Of(m, words),
            rowsOff: m => words.Say(Key(m.How), ("row", RowTerm(m.AtRow)), ("count", m.Count)),
            resultOff: m =>
                words.Say(Key(m.How), ("result", datapath.Results[m.Result].In(words.Language)), ("place", m.Place))
        );

    /// <summary>"the load", or "cycle 3".</summary>
    public static Term RowTerm(int row) => row == 0 ? new Term("why.load") : new Term("why.cycle", ("cycle", row));

    private static string Of(Slipped slipped, Vocabulary words)
    {
        var slip = SlipText.Sentence(slipped.Slip, words);
        return slipped.Extent switch
        {
            SlipExtent.Throughout => slip,
            SlipExtent.InRows => words.Say(
                "why.slip-in-rows",
                ("count", slipped.Rows.Count),
                ("cycles", string.Join(", ", slipped.Rows)),
                ("what", slip)
            ),
            SlipExtent.FromRow => words.Say("why.slip-from", ("cycle", slipped.Rows[0]), ("what", slip)),
        };
    }

    private static string Of(OperandReading reading, Datapath datapath, Vocabulary words)
    {
        var names = reading.Operand is { } operand ? [operand] : datapath.Operands;
        return words.Say(
            reading.Kind switch
            {
                Misreading.AsBinary => "why.read-as-binary",
                Misreading.AsOctal => "why.read-as-octal",
                Misreading.AsHexadecimal => "why.read-as-hexadecimal",
                Misreading.WithoutSign => "why.read-without-sign",
                Misreading.AsSignAndMagnitude => "why.read-as-magnitude",
                Misreading.AsOnesComplement => "why.read-as-ones-complement",
                Misreading.Negated => "why.read-negated",
                Misreading.Reversed => "why.read-reversed",
                Misreading.Exchanged => "why.read-exchanged",
            },
            ("operands", string.Join(words.Say("walk.between-names"), names.Select(o => o.In(words.Language)))),
            ("count", names.Count)
        );
    }

    private static string Of(Miscopied copied, Vocabulary words) =>
        words.Say(
            "why.copied",
            ("row", RowTerm(copied.AtRow)),
            (
                "what",
                words.Say(
                    copied.How switch
                    {
                        CopyingKind.OneBit => "why.copied-one-bit",
                        CopyingKind.Exchanged => "why.copied-exchanged",
                        CopyingKind.MovedLeft => "why.copied-moved-left",
                        CopyingKind.MovedRight => "why.copied-moved-right",
                        CopyingKind.DigitLeftOut => "why.copied-left-out",
                        CopyingKind.DigitTwice => "why.copied-twice",
                        CopyingKind.Kept => "why.copied-kept",
                        CopyingKind.Columns => "why.copied-columns",
                    },
                    ("register", copied.Register.Name),
                    ("other", copied.Other?.Name ?? ""),
                    ("place", copied.Place),
                    ("above", copied.Place + 1)
                )
            ),
            ("onward", new Term(copied.IsCarriedOn ? "why.carried-on" : "why.not-carried-on"))
        );

    private static string Key(RowsKind kind) =>
        kind switch
        {
            RowsKind.NotWritten => "why.rows-not-written",
            RowsKind.LeftOut => "why.rows-left-out",
            RowsKind.Repeated => "why.rows-repeated",
            RowsKind.StoppedEarly => "why.rows-stopped-early",
            RowsKind.WentOn => "why.rows-went-on",
        };

    private static string Key(ResultKind kind) =>
        kind switch
        {
            ResultKind.OneBit => "why.result-one-bit",
            ResultKind.Exchanged => "why.result-exchanged",
            ResultKind.Negated => "why.result-negated",
            ResultKind.ResultsExchanged => "why.results-exchanged",
        };
}
