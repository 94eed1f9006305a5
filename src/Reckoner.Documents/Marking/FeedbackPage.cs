using System.Globalization;
using Reckoner.Classroom;
using Reckoner.Explaining;
using Reckoner.Marking;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Documents.Marking;

/// <summary>What goes back to a student: what was written, where it first went wrong, why, and what should have stood there.</summary>
internal sealed class FeedbackPage
{
    private const int MostCauses = 3;

    private readonly MarkBook book;
    private readonly MarkedSheet sheet;
    private readonly Vocabulary words;
    private readonly MarkPage page;

    private FeedbackPage(MarkBook book, MarkedSheet sheet, Vocabulary words)
    {
        (this.book, this.sheet, this.words) = (book, sheet, words);
        page = new MarkPage(words);
    }

    public static string Of(MarkBook book, MarkedSheet sheet, Vocabulary words) =>
        new FeedbackPage(book, sheet, words).Html();

    private string Html()
    {
        var student = sheet.Sheet.Name.Length > 0 ? sheet.Sheet.Name : sheet.Sheet.Identifier;
        page.Say("h1", book.Class.Answers.Title);
        page.Quiet(
            sheet.Sheet.Answers.Count > 0
                ? words.Say("mark.sheet-of", ("student", student), ("number", $"{sheet.Sheet.Number}"))
                : student
        );
        page.Line($"<p class=\"sum\">{MarkPage.Escaped(Sum(book.Final(sheet, MarkBook.Total), book.Most(sheet)))}</p>");
        page.Quiet(MarkWords.Scheme(book.Class.Scheme, words));
        foreach (var question in sheet.Questions)
        {
            Write(question);
        }
        return page.Whole($"{book.Class.Answers.Title}, {sheet.Sheet.Number}");
    }

    private string Sum(decimal? marks, decimal most) =>
        marks is null
            ? words.Say("mark.waits", ("most", MarkBook.Spoken(most, words)))
            : words.Say("mark.got", ("marks", MarkBook.Spoken(marks, words)), ("most", MarkBook.Spoken(most, words)));

    private void Write(MarkedQuestion question)
    {
        var number = MarkBook.Number(question.Form.Number);
        var isWithdrawn = book.Class.Withdrawn.Contains(question.Form.Number);
        page.Head(
            words.Say("question.head", ("number", question.Form.Number)),
            isWithdrawn ? words.Say("mark.not-counted") : Sum(book.Final(sheet, number), question.Most)
        );
        if (book.IsByHand(sheet, number))
        {
            page.Say("p", words.Say("mark.set-by-hand"));
        }
        if (MarkWords.Waits(question, words) is { } waits)
        {
            page.Say("p", waits);
        }
        if (question.Walk is { } walk)
        {
            Write(walk, question);
        }
        foreach (var cells in question.Cells)
        {
            Write(cells);
        }
        Write(question.Places, question.Walk?.Mark);
        if (question.Assumed.Count > 0)
        {
            page.Quiet(string.Join(" ", question.Assumed.Select(a => words.Say(WhyDocument.Key(a)))));
        }
    }

    // ---- a walk

    private void Write(MarkedWalk walk, MarkedQuestion question)
    {
        var mark = walk.Mark;
        page.Quiet(OperandsText.Operands(walk.Datapath, WhyDocument.Big(walk.Operands), words));
        Table(walk);
        page.Say("p", Counted(mark, question));
        Why(mark);
        if (mark.AreResultsUnsupported)
        {
            page.Say("p", words.Say("mark.unsupported"));
        }
        if (!mark.IsRight)
        {
            Right(walk);
        }
    }

    /// <summary>"8 rows; lost: 1. 7 of 8 rows, and so 7 of 8 marks."</summary>
    private string Counted(TableMark mark, MarkedQuestion question) =>
        words.Say(
            book.Class.Scheme == MarkScheme.PerRegister ? "mark.counted-registers" : "mark.counted",
            ("count", mark.Credit.Most),
            ("lost", Math.Min(mark.Credit.Lost, mark.Credit.Most)),
            ("got", mark.Credit.Got),
            ("marks", MarkBook.Spoken(question.Marks, words)),
            ("most", MarkBook.Spoken(question.Most, words))
        );

    private void Why(TableMark mark)
    {
        if (mark.IsRight)
        {
            page.Say(
                "p",
                mark.Verdict.Kind == VerdictKind.OtherWay
                    ? words.Say("why.other-way", ("machine", WhyDocument.Way(mark.Verdict.Explanations[0])))
                    : words.Say("mark.all-right")
            );
            return;
        }
        page.Items(MarkWords.Rows(mark, words));
        var causes = MarkWords.Causes(mark.Verdict, words).Take(MostCauses).ToList();
        if (causes.Count > 0)
        {
            page.Say(
                "p",
                words.Say(
                    mark.Verdict.Kind == VerdictKind.Surely ? "mark.cause-surely" : "mark.cause-perhaps",
                    ("count", causes.Count)
                )
            );
            page.Items(causes);
        }
    }

    /// <summary>The own rows; below each that does not follow stands what does.</summary>
    private void Table(MarkedWalk walk)
    {
        var (datapath, mark) = (walk.Datapath, walk.Mark);
        Begin(words.Say("mark.your-table"), datapath, isSaid: true);
        foreach (var row in mark.Rows.Rows)
        {
            var isWrong = mark.IsWrong(row);
            var isFirst = row.Row == mark.FirstWrong;
            page.Line(
                $"<tr{(isWrong ? " class=\"wrong\"" : "")}><th scope=\"row\">{Label(row.Row)}</th>"
                    + string.Concat(datapath.Registers.Select(r => $"<td>{Digits(row, r, mark, isWrong)}</td>"))
                    + $"<td class=\"said\">{MarkPage.Escaped(Said(row, mark, isWrong, isFirst))}</td></tr>"
            );
            if (isWrong)
            {
                page.Line(
                    $"<tr class=\"should\"><th scope=\"row\"></th>"
                        + string.Concat(
                            datapath.Registers.Select(r =>
                                $"<td>{MarkPage.Escaped(Columns.Text(r, mark.Verdict.Ways.Layout.Field(row.Expected, r.Index)))}</td>"
                            )
                        )
                        + $"<td class=\"said\">{MarkPage.Escaped(words.Say("mark.follows-from-above"))}</td></tr>"
                );
            }
        }
        var seen = mark.Verdict.Seen.Rows;
        for (var i = mark.Rows.Rows.Count; i < seen.Count; i++)
        {
            var extra = new FollowedRow(i, seen[i].Bits, seen[i], RowStanding.Wrong);
            // Rows of the form are nobody's mistake where the own walk ends above them.
            var isTooMany = i >= mark.Form.Open.Count && mark.Extra > 0;
            page.Line(
                $"<tr{(isTooMany ? " class=\"wrong\"" : "")}><th scope=\"row\">{Label(i)}</th>"
                    + string.Concat(
                        datapath.Registers.Select(r => $"<td>{Digits(extra, r, mark, isWrong: false)}</td>")
                    )
                    + $"<td class=\"said\">{MarkPage.Escaped(isTooMany ? words.Say("mark.too-many") : mark.Verdict.Kind == VerdictKind.OtherWay ? "" : words.Say("mark.ended-above"))}</td></tr>"
            );
        }
        page.Line("</tbody>\n</table></div>");
    }

    private void Begin(string caption, Datapaths.Datapath datapath, bool isSaid)
    {
        page.Line(
            $"<div class=\"wide\"><table class=\"work{(isSaid ? " told" : "")}\" style=\"--columns: {datapath.Registers.Count + 1}\">\n<caption>{MarkPage.Escaped(caption)}</caption>\n<thead><tr>"
        );
        page.Line(
            $"<th scope=\"col\">{MarkPage.Escaped(words.Say("walk.cycle"))}</th>"
                + string.Concat(datapath.Registers.Select(r => $"<th scope=\"col\">{MarkPage.Escaped(r.Name)}</th>"))
                + (isSaid ? "<th></th>" : "")
                + "</tr></thead>\n<tbody>"
        );
    }

    private string Label(int row) =>
        row == 0 ? MarkPage.Escaped(words.Say("walk.load")) : row.ToString(CultureInfo.InvariantCulture);

    private string Said(FollowedRow row, TableMark mark, bool isWrong, bool isFirst) =>
        mark.Verdict.Kind == VerdictKind.OtherWay ? ""
        : isWrong ? words.Say(isFirst ? "mark.first-here" : "mark.wrong-here")
        : mark.Form.IsPrinted(row.Row) ? words.Say("mark.printed")
        : row.Standing switch
        {
            RowStanding.Right => words.Say("mark.right"),
            RowStanding.Follows => words.Say("mark.follows"),
            RowStanding.Unfinished => words.Say("mark.not-finished"),
            RowStanding.Wrong => "",
        };

    /// <summary>Digits that are wrong are bold and underlined, those that were left empty are dots.</summary>
    private static string Digits(FollowedRow row, Datapaths.Register register, TableMark mark, bool isWrong)
    {
        var layout = mark.Verdict.Ways.Layout;
        var (bits, known) = (layout.Field(row.Seen.Bits, register.Index), layout.Field(row.Seen.Known, register.Index));
        var expected = layout.Field(row.Expected, register.Index);
        var isJudged = layout.Field(mark.Form.Compared(layout, row.Row), register.Index) != 0;
        var (html, place) = ("", register.Width);
        foreach (var sign in Columns.Text(register, bits))
        {
            if (sign == ' ')
            {
                html += " ";
                continue;
            }
            place--;
            var isKnown = ((known >> place) & 1) != 0;
            var isOff = isWrong && isKnown && isJudged && (((bits ^ expected) >> place) & 1) != 0;
            html +=
                !isKnown ? "<i>·</i>"
                : isOff ? $"<b>{sign}</b>"
                : $"{sign}";
        }
        return html;
    }

    /// <summary>The walk as it should have been.</summary>
    private void Right(MarkedWalk walk)
    {
        var ways = walk.Mark.Verdict.Ways;
        Begin(words.Say("mark.right-table"), walk.Datapath, isSaid: false);
        var rows = ways.Right.Table(walk.Operands);
        for (var i = 0; i < rows.Count; i++)
        {
            var row = rows[i];
            page.Line(
                $"<tr><th scope=\"row\">{Label(i)}</th>"
                    + string.Concat(
                        walk.Datapath.Registers.Select(r =>
                            $"<td>{MarkPage.Escaped(Columns.Text(r, ways.Layout.Field(row, r.Index)))}</td>"
                        )
                    )
                    + "</tr>"
            );
        }
        page.Line("</tbody>\n</table></div>");
        page.Say(
            "p",
            words.Say(
                "mark.right-results",
                (
                    "results",
                    OperandsText.Results(walk.Datapath, WhyDocument.Big(ways.Right.Final(walk.Operands)), words)
                )
            )
        );
    }

    // ---- everything else

    private void Write(MarkedCells cells)
    {
        page.Quiet(words.Say("mark.cell-by-cell"));
        var table = cells.Table;
        page.Line(
            $"<div class=\"wide\"><table class=\"work\">\n<caption>{MarkPage.Escaped(words.Say("mark.your-table"))}</caption>\n<thead><tr>"
                + string.Concat(table.Columns.Select(c => $"<th scope=\"col\">{MarkPage.Escaped(c)}</th>"))
                + "</tr></thead>\n<tbody>"
        );
        for (var r = 0; r < table.Rows.Count; r++)
        {
            var row = r;
            var isWrong = cells.Wrong[r].Count > 0;
            page.Line(
                $"<tr{(isWrong ? " class=\"wrong\"" : "")}>"
                    + string.Concat(
                        cells
                            .Typed[r]
                            .Select(
                                (c, i) =>
                                    $"<td>{(cells.Wrong[row].Contains(i) ? $"<b>{MarkPage.Escaped(c.Length > 0 ? c : "·")}</b>" : MarkPage.Escaped(c))}</td>"
                            )
                    )
                    + "</tr>"
            );
            if (isWrong)
            {
                page.Line(
                    $"<tr class=\"should\">{string.Concat(table.Rows[r].Cells.Select((c, i) => $"<td>{(cells.Wrong[row].Contains(i) ? MarkPage.Escaped(c) : "")}</td>"))}</tr>"
                );
            }
        }
        page.Line("</tbody>\n</table></div>");
    }

    private void Write(IReadOnlyList<MarkedPlace> places, TableMark? mark)
    {
        if (places.Count == 0)
        {
            return;
        }
        page.Table(
            words.Say("mark.your-answers"),
            [words.Say("mark.asked"), words.Say("mark.written"), ""],
            places.Select(p =>
                (IReadOnlyList<string>)
                    [
                        p.Field.Label,
                        p.Typed,
                        p.Standing switch
                        {
                            PlaceStanding.Right
                                when mark is not null && FieldJudge.Same(p.Typed, p.Should) != PlaceStanding.Right =>
                                words.Say("mark.follows-from-row"),
                            PlaceStanding.Right => words.Say("mark.right"),
                            PlaceStanding.Wrong => words.Say("mark.should", ("text", p.Should)),
                            PlaceStanding.Empty => words.Say("mark.empty", ("text", p.Should)),
                            PlaceStanding.Unread => words.Say("mark.cannot-read"),
                        },
                    ]
            )
        );
    }
}
