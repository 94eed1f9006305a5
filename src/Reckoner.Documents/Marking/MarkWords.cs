using Reckoner.Explaining;
using Reckoner.Marking;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Documents.Marking;

/// <summary>What is said of marks, in sentences.</summary>
internal static class MarkWords
{
    public static string Scheme(MarkScheme scheme, Vocabulary words) =>
        words.Say(
            scheme switch
            {
                MarkScheme.FollowThrough => "mark.follow-through",
                MarkScheme.EachTime => "mark.each-time",
                MarkScheme.PerRow => "mark.per-row",
                MarkScheme.PerRegister => "mark.per-register",
                MarkScheme.FirstError => "mark.first-error",
            }
        );

    /// <summary>What is to be known of a line of the marks: what waits, what was found, what was set by hand.</summary>
    public static IEnumerable<string> Remarks(MarkedSheet sheet, MarkBook book, Vocabulary words)
    {
        if (!sheet.IsHandedIn)
        {
            yield return sheet.NotRead switch
            {
                [] => words.Say("mark.nothing-handed-in"),
                [var file, ..] => words.Say(
                    sheet.NotRead.Count > 1 ? "mark.several-not-read" : "mark.handed-in-not-read",
                    ("more", sheet.NotRead.Count - 1),
                    ("file", HiddenCharacters.Dotted(file.Path)),
                    ("why", file.Reason)
                ),
            };
        }
        foreach (var note in sheet.Notes)
        {
            yield return words.Text(note);
        }
        foreach (var question in sheet.Questions.Where(q => book.Class.Counted.Contains(q.Form)))
        {
            var number = MarkBook.Number(question.Form.Number);
            if (book.IsByHand(sheet, number))
            {
                yield return words.Say("mark.by-hand", ("question", number));
            }
            // What is on paper waits for everybody alike, and is told once.
            else if (question.Open is not (null or OpenReason.OnPaper) && Waits(question, words) is { } waits)
            {
                yield return words.Say("mark.of-question", ("question", number), ("what", waits));
            }
            else if (question.Credit is { Lost: > 0 } && Reason(question, words) is { Length: > 0 } reason)
            {
                yield return words.Say("mark.of-question", ("question", number), ("what", reason));
            }
            if (question.Walk is { Mark.AreResultsUnsupported: true })
            {
                yield return words.Say(
                    "mark.of-question",
                    ("question", number),
                    ("what", words.Say("mark.unsupported"))
                );
            }
        }
        if (book.IsByHand(sheet, MarkBook.Total))
        {
            yield return words.Say("mark.by-hand-total");
        }
    }

    /// <summary>Why a question waits for a person; null where it does not.</summary>
    public static string? Waits(MarkedQuestion question, Vocabulary words) =>
        question.Open is not { } open
            ? null
            : open switch
            {
                OpenReason.OnPaper => words.Say("mark.on-paper"),
                OpenReason.NotFound => words.Say("mark.not-found"),
                OpenReason.NotJudged => words.Say("mark.not-judged"),
                OpenReason.Unread => words.Say(
                    "mark.unread",
                    ("count", question.Unread.Count),
                    ("place", Place(question.Unread[0], words)),
                    ("text", Excerpt.Of(question.Unread[0].Text))
                ),
            };

    public static string Place(UnreadCell cell, Vocabulary words) =>
        cell.Row == 0 ? cell.Column : words.Say("mark.row-column", ("row", cell.Row), ("column", cell.Column));

    /// <summary>In a sentence or two, why marks were lost; empty where it is no walk.</summary>
    private static string Reason(MarkedQuestion question, Vocabulary words)
    {
        if (question.Walk?.Mark is not { } mark)
        {
            return "";
        }
        var told = Causes(mark.Verdict, words).Take(1);
        return string.Join(" ", told.Concat(Rows(mark, words)));
    }

    /// <summary>What gives just this table, the likeliest first; none where no cause is named.</summary>
    public static IEnumerable<string> Causes(Verdict verdict, Vocabulary words) =>
        WhyDocument.IsNamed(verdict) ? verdict.Explanations.Select(e => WhyDocument.Told(e, verdict.Ways, words)) : [];

    /// <summary>Which rows do not follow, are missing, too many or not finished.</summary>
    public static IEnumerable<string> Rows(TableMark mark, Vocabulary words)
    {
        var wrong = mark.WrongRows.Select(r => r.Row).ToList();
        if (wrong.Count > 0)
        {
            yield return words.Say("mark.wrong-rows", ("count", wrong.Count), ("rows", string.Join(", ", wrong)));
        }
        if (mark.Unfinished.Count > 0)
        {
            yield return words.Say(
                "mark.unfinished",
                ("count", mark.Unfinished.Count),
                ("rows", string.Join(", ", mark.Unfinished))
            );
        }
        if (mark.Missing > 0)
        {
            yield return words.Say("why.too-few", ("count", mark.Missing));
        }
        if (mark.Extra > 0)
        {
            yield return words.Say("why.too-many", ("count", mark.Extra));
        }
        if (mark.AreResultsWrong)
        {
            yield return words.Say("mark.results-wrong");
        }
    }
}
