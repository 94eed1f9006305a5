using System.Globalization;
using System.Text;
using Reckoner.Drawing;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>
/// A question as HTML that can be filled in. Each place has a name: the question's number and what a table
/// or a field calls it, with a full stop between. What belongs there stands nowhere in it.
/// </summary>
internal sealed class QuestionPage
{
    private const int SentenceRoom = 40;
    private const int NumberRoom = 12;

    private readonly StringBuilder html = new();
    private readonly Vocabulary words;
    private readonly string number;

    /// <summary>How many there were so far.</summary>
    private int tables;

    private QuestionPage(AskedQuestion asked, Vocabulary words)
    {
        this.words = words;
        number = asked.Question.Number.ToString(CultureInfo.InvariantCulture);
    }

    public static string Html(AskedQuestion asked, Vocabulary words)
    {
        var page = new QuestionPage(asked, words);
        var head = Escaped(QuestionBlocks.Head(asked, words));
        page.Line($"<section class=\"question\" data-question=\"{page.number}\" aria-label=\"{head}\">");
        page.Line($"<h3>{head}</h3>");
        page.Line($"<p>{Escaped(asked.Prompt)}</p>");
        foreach (var work in asked.Works)
        {
            page.Write(work);
        }
        page.Line("</section>");
        return page.html.ToString();
    }

    private static string Escaped(string text) => LessonPage.Escaped(text);

    private void Line(string text) => html.Append(text).Append('\n');

    private void Write(Work work)
    {
        var write = work.Match<Action>(
            table: w => () => Write(w),
            fields: w => () => Write(w),
            figure: w => () => Write(w.Figure),
            text: w => () => Line($"<pre>{Escaped(string.Join('\n', w.Lines))}</pre>"),
            options: w =>
                () => Line($"<ol type=\"a\">{string.Concat(w.Options.Select(o => $"<li>{Escaped(o)}</li>"))}</ol>"),
            lines: w => () => Room("room", w.Lines)
        );
        write();
    }

    private void Write(TableWork work)
    {
        var grid = work.Grid;
        var shown = work.Shown;
        tables++;
        var caption = work.Caption ?? "";
        html.Append(LessonStage.Wide(caption));
        Line($"<table class=\"work\">\n<caption>{Escaped(caption)}</caption>\n<thead>\n<tr>");
        foreach (var i in shown)
        {
            Line($"<th scope=\"col\">{Escaped(Marks.Head(grid.Columns[i]))}</th>");
        }
        Line("</tr>\n</thead>\n<tbody>");
        // Digits are as many in every row; for all else the room is the same whatever belongs there.
        var sizes = Enumerable
            .Range(0, grid.Columns.Count)
            .Select(i =>
                grid.Columns[i].Role == ColumnRole.Sentences ? SentenceRoom
                : WalkBlocks.IsDigits(grid, i)
                    ? grid
                        .Rows.SelectMany(r => r.Cells[i].Lines)
                        .Select(l => l.ToString().Length)
                        .DefaultIfEmpty(NumberRoom)
                        .Max()
                : NumberRoom
            )
            .ToList();
        for (var r = 0; r < grid.Rows.Count; r++)
        {
            var cells = Marks.Cells(grid, grid.Rows[r]).Select(c => string.Join("; ", c.Lines)).ToList();
            var label = cells[0];
            html.Append("<tr>");
            foreach (var i in shown)
            {
                var isOpen = work.Open[r].Contains(i);
                var name = $"{number}.{work.Place(tables, r, i)}";
                html.Append(
                    isOpen ? $"<td>{Place(work, i, name, label, sizes[i])}</td>"
                    : i == 0 ? $"<th scope=\"row\">{Escaped(cells[i])}</th>"
                    : $"<td>{Escaped(cells[i])}</td>"
                );
            }
            Line("</tr>");
        }
        var spare = work.OpenSpare;
        for (var r = 0; r < work.Spare; r++)
        {
            var label = work.SpareLabel(r);
            html.Append("<tr>");
            foreach (var i in shown)
            {
                var name = $"{number}.{work.Place(tables, grid.Rows.Count + r, i)}";
                html.Append(
                    i == 0 ? $"<th scope=\"row\">{Escaped(label)}</th>"
                    : spare.Contains(i) ? $"<td>{Place(work, i, name, label, sizes[i])}</td>"
                    : $"<td>{Escaped(work.SpareText(i))}</td>"
                );
            }
            Line("</tr>");
        }
        Line("</tbody>\n</table>\n</div>");
        foreach (var sign in work.Signs)
        {
            Line($"<p class=\"below\">{Escaped(sign)}</p>");
        }
    }

    private void Write(FieldsWork work)
    {
        html.Append("<p>").Append(Escaped(work.Lead)).Append(work.Lead.Length > 0 ? " " : "");
        foreach (var field in work.Fields)
        {
            html.Append(
                CultureInfo.InvariantCulture,
                $"<label>{Escaped(field.Label)} = {Place($"{number}.{field.Name}", field.Label, Math.Max(12, field.Room))}</label> "
            );
        }
        Line("</p>");
    }

    private void Write(FigureAnswer figure)
    {
        foreach (var scene in figure.Scenes(isBlank: true))
        {
            html.Append(LessonStage.Wide(scene.Title));
            // As outlines, since a page that is handed out brings no fonts along.
            html.Append(SvgWriter.Write(scene, Palette.Light, TextForm.Outlines));
            Line("</div>");
        }
        Room("figure", 4);
    }

    private void Room(string name, int lines) =>
        Line(
            $"<p><textarea name=\"{number}.{name}\" rows=\"{lines.ToString(CultureInfo.InvariantCulture)}\" aria-label=\"{Escaped(words.Say("question.answer"))}\"></textarea></p>"
        );

    /// <summary>A cell to write into, or to choose in where one of few ways is to be said.</summary>
    private static string Place(TableWork work, int column, string name, string row, int letters)
    {
        var label = $"{work.Grid.Columns[column].Name}, {row}";
        var ways = work.Decisions.FirstOrDefault(d => d.Column == column)?.Ways ?? [];
        return ways.Count == 0
            ? Place(name, label, letters)
            : $"<select name=\"{Escaped(name)}\" aria-label=\"{Escaped(label)}\"><option></option>"
                + string.Concat(ways.Select(w => $"<option>{Escaped(w)}</option>"))
                + "</select>";
    }

    private static string Place(string name, string label, int letters) =>
        $"<input name=\"{Escaped(name)}\" aria-label=\"{Escaped(label)}\" size=\"{Math.Max(4, letters).ToString(CultureInfo.InvariantCulture)}\" autocomplete=\"off\" spellcheck=\"false\">";
}
