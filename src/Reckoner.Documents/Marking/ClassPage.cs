using System.Globalization;
using Reckoner.Words;

namespace Reckoner.Documents.Marking;

/// <summary>A class at one glance, to be shown to it: nobody's name, number or file stands there.</summary>
internal static class ClassPage
{
    private const int MostCauses = 12;
    private const int ToTalkAbout = 3;

    public static string Of(MarkBook book, Vocabulary words)
    {
        var (marked, page) = (book.Class, new MarkPage(words));
        page.Say("h1", marked.Answers.Title);
        var totals = marked.Sheets.Select(s => book.Final(s, MarkBook.Total)).ToList();
        var known = totals.OfType<decimal>().ToList();
        page.Quiet(
            words.Say(
                "mark.class",
                ("count", marked.Sheets.Count),
                ("handed", marked.Sheets.Count(s => s.IsHandedIn || s.NotRead.Count > 0)),
                ("known", known.Count)
            )
        );
        page.Quiet(MarkWords.Scheme(marked.Scheme, words));
        var causes = marked
            .Counted.SelectMany(q => CauseCount.Of(marked, q.Number, words).Select(c => (Question: q.Number, Cause: c)))
            .OrderByDescending(c => c.Cause.Count)
            .ToList();
        Talk(page, causes, words);
        Distribution(page, known, words);
        foreach (var question in marked.Counted)
        {
            Question(page, book, question, causes, words);
        }
        return page.Whole(marked.Answers.Title);
    }

    private static void Talk(MarkPage page, List<(int Question, CauseCount Cause)> causes, Vocabulary words)
    {
        var three = causes.Where(c => c.Cause.Example is not null).Take(ToTalkAbout).ToList();
        if (three.Count == 0)
        {
            return;
        }
        page.Head(words.Say("mark.to-talk-about", ("count", three.Count)), "");
        page.Line("<ol class=\"three\">");
        foreach (var (question, cause) in three)
        {
            page.Line(
                $"<li>{MarkPage.Escaped(cause.What)} <span class=\"quiet\">{MarkPage.Escaped(words.Say("mark.times", ("count", cause.Count), ("question", question)))}</span><br>{MarkPage.Escaped(cause.Example!)}</li>"
            );
        }
        page.Line("</ol>");
    }

    private static void Distribution(MarkPage page, List<decimal> totals, Vocabulary words)
    {
        if (totals.Count == 0)
        {
            return;
        }
        page.Head(words.Say("mark.distribution"), words.Say("mark.mean", ("marks", Mean(totals, words))));
        var (low, high) = ((int)Math.Floor(totals.Min()), (int)Math.Floor(totals.Max()));
        // Wide ranges in steps, so that the page stays one.
        var step = Math.Max(1, (high - low + 1 + 19) / 20);
        var bars = Enumerable
            .Range(0, (high - low) / step + 1)
            .Select(i => low + i * step)
            .Select(from =>
                (
                    step == 1 ? Text(from) : words.Say("mark.range", ("from", from), ("to", from + step - 1)),
                    totals.Count(t => t >= from && t < from + step)
                )
            )
            .Reverse()
            .ToList();
        page.Bars(words.Say("mark.distribution-how"), words.Say("mark.marks"), words.Say("mark.students"), bars);
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Mean(IReadOnlyList<decimal> marks, Vocabulary words) =>
        words.Decimal(marks.Average().ToString("0.0", CultureInfo.InvariantCulture));

    private static void Question(
        MarkPage page,
        MarkBook book,
        AskedForm question,
        List<(int Question, CauseCount Cause)> causes,
        Vocabulary words
    )
    {
        var marked = book.Class;
        var marks = marked
            .Sheets.Select(s => book.Final(s, MarkBook.Number(question.Number)))
            .OfType<decimal>()
            .ToList();
        page.Head(
            words.Say("question.head", ("number", question.Number)),
            marks.Count == 0 ? words.Say("mark.none-yet")
                : question.Marks is { } most
                    ? words.Say("mark.mean-of", ("marks", Mean(marks, words)), ("most", MarkBook.Spoken(most, words)))
                : words.Say("mark.mean", ("marks", Mean(marks, words)))
        );
        var walks = marked.Walks(question.Number).Select(w => w.Walk).ToList();
        if (walks.Count > 0)
        {
            var right = walks.Count(w => w.Mark.IsRight);
            page.Say("p", words.Say("mark.right-walks", ("count", walks.Count), ("right", right)));
        }
        var cycles = walks
            .SelectMany(w => w.Mark.WrongRows.Select(r => r.Row))
            .GroupBy(r => r)
            .OrderBy(g => g.Key)
            .Select(g => (g.Key == 0 ? words.Say("walk.load") : Text(g.Key), g.Count()))
            .ToList();
        if (cycles.Count > 0)
        {
            page.Bars(words.Say("mark.cycles"), words.Say("walk.cycle"), words.Say("mark.students"), cycles);
        }
        var its = causes.Where(c => c.Question == question.Number).Select(c => c.Cause).ToList();
        if (its.Count > 0)
        {
            page.Bars(
                words.Say("mark.causes"),
                words.Say("mark.cause"),
                words.Say("mark.how-often"),
                [.. its.Take(MostCauses).Select(c => (c.What, c.Count))]
            );
            if (its.Count > MostCauses)
            {
                page.Quiet(words.Say("why.more", ("count", its.Count - MostCauses)));
            }
        }
        Places(page, marked, question, words);
    }

    /// <summary>How many wrote what is right into each place.</summary>
    private static void Places(MarkPage page, MarkedClass marked, AskedForm question, Vocabulary words)
    {
        var places = marked
            .Sheets.SelectMany(s => s.Questions.Where(q => q.Form == question && q.Walk is null))
            .SelectMany(q => q.Places)
            .GroupBy(p => p.Field.Label)
            .Select(g => (g.Key, g.Count(p => p.Standing == PlaceStanding.Right)))
            .ToList();
        if (places.Exists(p => p.Item2 > 0))
        {
            page.Bars(words.Say("mark.places"), words.Say("mark.asked"), words.Say("mark.right-how-often"), places);
        }
    }
}
