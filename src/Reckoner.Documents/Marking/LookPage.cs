using Reckoner.Words;

namespace Reckoner.Documents.Marking;

/// <summary>What a person has to look at before the marks are given out; for the teacher's eyes.</summary>
internal static class LookPage
{
    /// <summary>Of one question of one sheet: of what is no table at all every cell cannot be read.</summary>
    private const int MostCells = 12;

    public static string Of(MarkBook book, Vocabulary words)
    {
        var (marked, page) = (book.Class, new MarkPage(words));
        page.Say("h1", words.Say("mark.look-title"));
        page.Quiet(marked.Answers.Title);
        page.Quiet(words.Say("mark.look-how"));
        Unread(page, book, words);
        Files(page, marked, words);
        Notes(page, book, words);
        Paper(page, book, words);
        Missing(page, marked, words);
        Alike(page, marked, words);
        if (marked.PassedOver.Count > 0)
        {
            page.Quiet(
                words.Say(
                    "mark.passed-over",
                    ("count", marked.PassedOver.Count),
                    ("files", string.Join(", ", marked.PassedOver.Take(8)))
                )
            );
        }
        return page.Whole(words.Say("mark.look-title"));
    }

    private static string Who(AnsweredSheet sheet) =>
        sheet.Name.Length > 0 ? $"{sheet.Identifier}, {sheet.Name}" : sheet.Identifier;

    /// <summary>Cells that cannot be read, of questions for which nothing was set by hand.</summary>
    private static void Unread(MarkPage page, MarkBook book, Vocabulary words)
    {
        var rows = (
            from sheet in book.Class.Sheets
            from question in sheet.Questions
            where
                question.Open is not (null or OpenReason.OnPaper)
                && book.Class.Counted.Contains(question.Form)
                && book.Final(sheet, MarkBook.Number(question.Form.Number)) is null
            // How many there are in all is told with the marks.
            from cell in Cells(question, words).Take(MostCells)
            select (IReadOnlyList<string>)
                [
                    Who(sheet.Sheet),
                    MarkBook.Number(question.Form.Number),
                    cell.Place,
                    Excerpt.Of(cell.Text),
                    HiddenCharacters.Dotted(sheet.Files[0]),
                ]
        ).ToList();
        if (rows.Count > 0)
        {
            page.Head(words.Say("mark.look-unread"), "");
            page.Table(
                words.Say("mark.look-unread-how"),
                [
                    book.Class.Answers.Key,
                    words.Say("mark.question"),
                    words.Say("mark.place"),
                    words.Say("mark.written"),
                    words.Say("mark.file"),
                ],
                rows
            );
        }
    }

    private static IEnumerable<(string Place, string Text)> Cells(MarkedQuestion question, Vocabulary words) =>
        question.Unread.Count > 0
            ? question.Unread.Select(c => (MarkWords.Place(c, words), c.Text))
            : [("", MarkWords.Waits(question, words)!)];

    private static void Files(MarkPage page, MarkedClass marked, Vocabulary words)
    {
        if (marked.Unmarked.Count > 0)
        {
            page.Head(words.Say("mark.look-files"), "");
            page.Table(
                words.Say("mark.look-files-how"),
                [words.Say("mark.file"), marked.Answers.Key, words.Say("mark.why")],
                marked.Unmarked.Select(f =>
                    (IReadOnlyList<string>)
                        [HiddenCharacters.Dotted(f.Path), f.Owner is null ? "" : Who(f.Owner), words.Text(f.Reason)]
                )
            );
        }
    }

    private static void Notes(MarkPage page, MarkBook book, Vocabulary words)
    {
        var rows = (
            from sheet in book.Class.Sheets
            let notes = sheet
                .Notes.Select(n => words.Text(n))
                .Concat(
                    sheet
                        .Questions.Where(q => q.Walk is { Mark.AreResultsUnsupported: true })
                        .Select(q =>
                            words.Say(
                                "mark.of-question",
                                ("question", q.Form.Number),
                                ("what", words.Say("mark.unsupported"))
                            )
                        )
                )
                .ToList()
            where notes.Count > 0
            select (IReadOnlyList<string>)
                [
                    Who(sheet.Sheet),
                    string.Join(" ", notes),
                    HiddenCharacters.Dotted(string.Join(", ", sheet.Files.Take(4))),
                ]
        ).ToList();
        if (rows.Count > 0)
        {
            page.Head(words.Say("mark.look-notes"), "");
            page.Table(
                words.Say("mark.look-notes-how"),
                [book.Class.Answers.Key, words.Say("mark.remarks"), words.Say("mark.file")],
                rows
            );
        }
    }

    /// <summary>Questions on paper, as long as no mark was set for them.</summary>
    private static void Paper(MarkPage page, MarkBook book, Vocabulary words)
    {
        var open = (
            from question in book.Class.Counted
            let count = book.Class.Sheets.Count(s =>
                s.Questions.Any(q => q.Form == question && q.Open == OpenReason.OnPaper)
                && book.Final(s, MarkBook.Number(question.Number)) is null
            )
            where count > 0
            select words.Say("mark.look-paper", ("question", question.Number), ("count", count))
        ).ToList();
        if (open.Count > 0)
        {
            page.Head(words.Say("mark.look-paper-head"), "");
            page.Items(open);
        }
        page.Items(
            book.Class.Counted.Where(q => q.Hardware is not null && book.Class.Kits[q.Number].Datapath is null)
                .Select(q => words.Say("mark.look-machine", ("question", q.Number)))
        );
    }

    private static void Missing(MarkPage page, MarkedClass marked, Vocabulary words)
    {
        var missing = marked.Sheets.Where(s => !s.IsHandedIn && s.NotRead.Count == 0).ToList();
        if (missing.Count > 0)
        {
            page.Head(words.Say("mark.look-missing"), "");
            page.Say("p", string.Join("; ", missing.Select(s => Who(s.Sheet))));
        }
    }

    private static void Alike(MarkPage page, MarkedClass marked, Vocabulary words)
    {
        if (marked.Alike.Count == 0)
        {
            return;
        }
        page.Head(words.Say("mark.look-alike"), "");
        page.Quiet(words.Say("mark.look-alike-how"));
        page.Items(
            marked.Alike.Select(a =>
                words.Say(
                    a.IsOfOthersOperands ? "mark.alike-operands" : "mark.alike-rows",
                    ("question", a.Question),
                    ("students", string.Join("; ", a.Sheets.Select(Who)))
                )
            )
        );
    }
}
