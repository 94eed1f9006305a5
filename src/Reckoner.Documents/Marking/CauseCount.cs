using Reckoner.Datapaths;
using Reckoner.Explaining;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Documents.Marking;

/// <summary>Something that went wrong in a class, however often and in whichever rows.</summary>
/// <param name="What">In a sentence.</param>
/// <param name="Example">Operands that expose it, with what comes out; null where none do.</param>
internal sealed record CauseCount(string What, int Count, string? Example)
{
    /// <summary>The most frequent first; of each table the likeliest explanation counts.</summary>
    public static IReadOnlyList<CauseCount> Of(MarkedClass marked, int question, Vocabulary words)
    {
        if (marked.Kits[question] is not { Datapath: { } datapath, Ways: { } ways })
        {
            return [];
        }
        var causes =
            from walk in marked.Walks(question)
            let verdict = walk.Walk.Mark.Verdict
            where WhyDocument.IsNamed(verdict)
            from mishap in verdict.Explanations[0].Mishaps
            group mishap by Said(mishap, datapath, words) into alike
            orderby alike.Count() descending, alike.Key
            select new CauseCount(alike.Key, alike.Count(), Exposing(alike.First(), ways, words));
        return [.. causes];
    }

    /// <summary>Without the rows in which it happened.</summary>
    private static string Said(Mishap mishap, Datapath datapath, Vocabulary words) =>
        mishap.Match(
            slipped: m => SlipText.Sentence(m.Slip, words),
            workedOtherwise: m => MishapText.Of(m, datapath, words),
            misread: m => MishapText.Of(m, datapath, words),
            miscopied: m => words.Say("mark.cause-copied", ("register", m.Register.Name)),
            rowsOff: m =>
                words.Say(
                    m.How switch
                    {
                        RowsKind.NotWritten or RowsKind.LeftOut => "mark.cause-left-out",
                        RowsKind.Repeated or RowsKind.WentOn => "mark.cause-too-many",
                        RowsKind.StoppedEarly => "mark.cause-stopped",
                    }
                ),
            resultOff: _ => words.Say("mark.cause-result")
        );

    private static string? Exposing(Mishap mishap, Ways ways, Vocabulary words)
    {
        Func<ulong[], ulong[]?>? final = mishap.Match<Func<ulong[], ulong[]?>?>(
            slipped: m =>
                ways.Slips.FirstOrDefault(s => s.Slip.Name == m.Slip.Name) is { } slip ? o => slip.Way.Final(o) : null,
            workedOtherwise: m =>
                ways.Others.FirstOrDefault(o => o.Way.Datapath == m.As) is { } other ? o => other.Way.Final(o) : null,
            misread: m => o => m.Reading.Of(ways.Datapath, o) is { } read ? ways.Right.Final(read) : null,
            miscopied: _ => null,
            rowsOff: _ => null,
            resultOff: _ => null
        );
        if (final is null)
        {
            return null;
        }
        var example = ways
            .Samples.Where(o => final(o) is { } its && !its.AsSpan().SequenceEqual(ways.Right.Final(o)))
            .MinBy(o => (o.Contains(0UL), o.Max(), o.Aggregate(0UL, (sum, b) => sum + b)));
        return example is null
            ? null
            : words.Say(
                "mark.example",
                ("operands", OperandsText.Operands(ways.Datapath, WhyDocument.Big(example), words)),
                ("wrong", OperandsText.Results(ways.Datapath, WhyDocument.Big(final(example)!), words)),
                ("right", OperandsText.Results(ways.Datapath, WhyDocument.Big(ways.Right.Final(example)), words))
            );
    }
}
