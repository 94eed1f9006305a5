using System.Text.RegularExpressions;
using Reckoner.Classroom;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>What is said to somebody who works a walk out by hand.</summary>
internal static partial class SittingText
{
    /// <summary>What is decided, as the description writes it.</summary>
    public static string Question(Fork fork, Vocabulary words) => WrittenText.Of(fork.Question, words);

    /// <summary>A way of a decision: what the description says of it, or else its answer.</summary>
    public static string Way(Fork fork, int way, Vocabulary words) =>
        fork.Ways[way] switch
        {
            { Phrase: { } phrase } => phrase.In(words.Language),
            { Label: { } label } => words.Say("classroom.is", ("value", Question(fork, words)), ("label", label)),
            _ => words.Say(way == 0 ? "walk.yes" : "walk.no", ("value", Question(fork, words))),
        };

    /// <summary>The statements that are executed then, as they are written; none where nothing is.</summary>
    public static IReadOnlyList<string> Statements(ForkWay way) =>
        [.. way.Acts.Where(a => !a.IsIdle).Select(a => Bare(a.Source[a.Source.LineSpan(a.Line)]).Trim())];

    /// <summary>A line of a description without its spoken words: what they say is asked for, or is said elsewhere.</summary>
    public static string Bare(string line) => Spoken().Replace(line, "");

    [GeneratedRegex(@"( says| else)? ""[^""]*""( [a-z]{2,3} ""[^""]*"")*| [a-z]{2,3} ""[^""]*""")]
    private static partial Regex Spoken();

    /// <summary>The lines of the description that do something in a cycle.</summary>
    public static IReadOnlyList<int> Acting(Row row, Source source) =>
        [
            .. row
                .Moments.SelectMany(m => m.Happenings)
                .Where(h => h is not Stayed and not Remarked && h.Source == source)
                .Select(h => h.Line)
                .Distinct()
                .Order(),
        ];

    /// <summary>What each adder and table is given and gives in a cycle.</summary>
    public static IReadOnlyList<string> Units(Row row, Datapath datapath, Vocabulary words)
    {
        var speech = Speech.Of(datapath, words, HouseStyle.None) with { UsesPhrases = false };
        return
        [
            .. row
                .Moments.SelectMany(m => m.Happenings)
                .Where(h => h is Summed or Multiplied or CarrySaved or LookedUp)
                .Select(h => $"{Sentences.Told(h, speech)}"),
        ];
    }

    /// <summary>How it went: the rows in one sentence, and what was missed, by cause, in another where something was.</summary>
    public static IReadOnlyList<string> Report(SittingReport report, Vocabulary words)
    {
        var said = new List<string>
        {
            report.AtOnce == report.Rows
                ? words.Say("classroom.all-at-once", ("rows", report.Rows))
                : words.Say("classroom.at-once", ("right", report.AtOnce), ("rows", report.Rows)),
        };
        if (report.Told > 0)
        {
            said.Add(words.Say("classroom.told", ("rows", report.Told)));
        }
        if (report.Causes.Count > 0)
        {
            var what = string.Join("; ", report.Causes.Select(c => Missed(c, words)));
            said.Add(words.Say("classroom.missed", ("what", what)));
        }
        return said;
    }

    private static string Missed(Missed missed, Vocabulary words)
    {
        var cycles = words.Say(
            "classroom.cycles",
            ("count", missed.Cycles.Count),
            ("cycles", string.Join(", ", missed.Cycles))
        );
        return missed.Kind switch
        {
            CauseKind.Decision => words.Say(
                "classroom.missed-decision",
                ("question", Question(missed.Fork!, words)),
                ("cycles", cycles)
            ),
            CauseKind.Slip => words.Say(
                "classroom.missed-slip",
                ("what", words.Say($"slip.{missed.First!.Slip!.Kind}", missed.First.Slip.Facts).TrimEnd('.')),
                ("cycles", cycles)
            ),
            CauseKind.NotWritten => words.Say("classroom.missed-not-written", Of(missed, cycles, words)),
            CauseKind.Moved => words.Say("classroom.missed-moved", Of(missed, cycles, words)),
            CauseKind.OneBit => words.Say("classroom.missed-one-bit", Of(missed, cycles, words)),
            CauseKind.Bits => words.Say("classroom.missed-bits", Of(missed, cycles, words)),
        };
    }

    private static IReadOnlyList<Fact> Of(Missed missed, string cycles, Vocabulary words) =>
        [("register", Names.Of(missed.First!.Word.Register, words)), ("cycles", cycles)];
}
