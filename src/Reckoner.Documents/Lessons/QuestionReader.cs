using System.Globalization;
using Markdig.Syntax;
using Reckoner.Choosing;
using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Documents.Lessons;

/// <summary>
/// Reads a block of a question: its first line says what is asked, in a word and a request, each further one a thing about it.
/// </summary>
internal static class QuestionReader
{
    /// <summary>The word behind the fence.</summary>
    public const string BlockName = "question";

    /// <summary>The word in the place of operands that gives each sheet its own.</summary>
    private const string DrawnWord = "drawn";

    private const int MostGiven = 1000;
    private const int MostSpare = 30;

    /// <summary>A task with the requests that it can be about; the first stands for itself where the line names none.</summary>
    private static readonly (QuestionTask Task, string[] Verbs)[] Tasks =
    [
        (QuestionTask.Fill, ["walk", "draw", "compare", "states"]),
        (QuestionTask.Say, ["walk"]),
        (QuestionTask.Find, ["walk"]),
        (QuestionTask.Which, ["walk"]),
        (QuestionTask.Choose, ["operands"]),
        (QuestionTask.Mend, ["show"]),
        (QuestionTask.Complete, ["draw"]),
    ];

    /// <summary>A view that is asked for so often that its request needs no verb.</summary>
    private const string Paper = "paper";

    /// <summary>What a further line may say, as one would write it.</summary>
    private static readonly string[] Forms =
    [
        "marks 6",
        "from 3",
        "given rows 2 4",
        "given columns D",
        "room 3 lines",
        "no reasons",
        "no rule",
        "no decisions",
        "decisions as digits",
        "constant registers printed",
        "spare rows 3",
        "showing CONDITION",
        "repeats",
        "neighbours",
        "allow SHORTCUT",
    ];

    public static IReadOnlyList<string> TaskWords { get; } = [.. Tasks.Select(t => Word(t.Task))];

    public static string Word(QuestionTask task) => task.ToString().ToLowerInvariant();

    /// <summary>Null with what is wrong in the report.</summary>
    /// <param name="lines">Those of the block that are not empty, one at least.</param>
    public static LessonQuestion? Read(
        FencedCodeBlock node,
        int number,
        IReadOnlyList<Span> lines,
        Source source,
        Report report
    )
    {
        var words = HeaderReader.Words(new RequestWord(source[lines[0]], lines[0]));
        var terms = lines
            .Skip(1)
            .Aggregate((QuestionTerms?)new QuestionTerms(), (t, l) => t is null ? null : Read(t, l, source, report));
        var at = Array.FindIndex(Tasks, t => Word(t.Task) == words[0].Text);
        if (at < 0)
        {
            report.Add(
                Id.QuestionTask,
                words[0].Span,
                ("word", words[0].Text),
                ("tasks", TaskWords),
                ("near", NearNames.Of(words[0].Text, TaskWords))
            );
            return null;
        }
        var (task, verbs) = Tasks[at];
        var rest = words.Skip(1).ToList();
        List<RequestWord> names = task == QuestionTask.Say ? [.. rest.TakeWhile(w => w.Text != verbs[0])] : [];
        if (
            task == QuestionTask.Say
            && (names.Count == 0 || names.Count == rest.Count || names.DistinctBy(n => n.Text).Count() < names.Count)
        )
        {
            report.Add(Id.QuestionSay, lines[0]);
            return null;
        }
        rest.RemoveRange(0, names.Count);
        if (rest.Count == 0 || !verbs.Contains(rest[0].Text))
        {
            var verb = rest.Count > 0 && rest[0].Text == Paper ? "draw" : verbs[0];
            rest.Insert(0, new RequestWord(verb, rest.Count > 0 ? rest[0].Span : words[0].Span));
        }
        var drawn = rest.FindIndex(w => w.Text == DrawnWord);
        var question = new LessonQuestion(
            node,
            number,
            task,
            lines[0],
            names,
            [.. rest.Where((_, i) => i != drawn)],
            (terms ?? new QuestionTerms()) with
            {
                Said = [.. lines.Skip(1).Select(l => new RequestWord(source[l].Trim(), l))],
            }
        )
        {
            Drawn = drawn < 0 ? null : rest[drawn],
        };
        return terms is null || !MayBeDrawn(question, report) || !MaySay(question, lines, source, report)
            ? null
            : question;
    }

    /// <summary>A line that says something of the table of a walk means nothing for another question, and none is said twice.</summary>
    private static bool MaySay(LessonQuestion question, IReadOnlyList<Span> lines, Source source, Report report)
    {
        if (Twice(lines, source) is var (again, first))
        {
            report.Add(Id.SaidTwice, again, ("word", source[again].Trim()), ("line", source.LineOf(first.Start)));
            return false;
        }
        if (question is { Task: QuestionTask.Fill, Request: [{ Text: "walk" }, ..] })
        {
            return true;
        }
        foreach (var line in lines.Skip(1).Where(l => OfRows.Contains(FirstWord(l, source))))
        {
            report.Add(Id.QuestionLine, line, ("forms", Forms.Where(f => !OfRows.Contains(f.Split(' ')[0])).ToArray()));
            return false;
        }
        return true;
    }

    private static string FirstWord(Span line, Source source) => source[line].Trim().Split(' ')[0];

    /// <summary>A line that says again, or otherwise, what one before it says; null where there is none.</summary>
    private static (Span Again, Span First)? Twice(IReadOnlyList<Span> lines, Source source)
    {
        var said = new Dictionary<string, Span>();
        foreach (var line in lines.Skip(1))
        {
            var word = FirstWord(line, source);
            var text = source[line].Trim();
            var key =
                text is "no decisions" ? "decisions"
                : word is "no" or "given" or "allow" ? text
                : word;
            if (!said.TryAdd(key, line))
            {
                return (line, said[key]);
            }
        }
        return null;
    }

    private static readonly string[] OfRows = ["from", "given", "no", "decisions", "constant", "spare"];

    /// <summary>Operands can be drawn for whatever is a walk of one machine; what says how they are drawn needs such.</summary>
    private static bool MayBeDrawn(LessonQuestion question, Report report)
    {
        var ofOne = question.Request[0].Text is "walk" or "draw";
        if (question.Drawn is { } drawn && !ofOne)
        {
            report.Add(Id.QuestionDrawn, drawn.Span, ("request", question.Request[0].Text));
            return false;
        }
        if (
            question.Drawn is null
            && (question.Terms.Showing is not null || question.Terms.Allowed != EqualAllowed.Nothing)
        )
        {
            report.Add(Id.QuestionDrawn, question.Line, ("request", question.Request[0].Text));
            return false;
        }
        return true;
    }

    /// <summary>The terms with what one more line says; null where that is nothing.</summary>
    private static QuestionTerms? Read(QuestionTerms terms, Span line, Source source, Report report)
    {
        var words = HeaderReader.Words(new RequestWord(source[line], line));
        var read = words.Select(w => w.Text).ToArray() switch
        {
            ["marks", var marks] when Marks(marks) is { } worth => terms with { Marks = worth },
            ["from", var cycle] when Numbers([cycle]) is [var from] => terms with { From = from },
            ["given", "rows" or "row", .. var rows] when Numbers(rows) is { Count: > 0 } given => terms with
            {
                GivenRows = [.. terms.GivenRows, .. given],
            },
            ["given", "columns" or "column", _, ..] => terms with
            {
                GivenColumns = [.. terms.GivenColumns, .. words.Skip(2)],
            },
            ["room", var room, "lines" or "line"] when Numbers([room]) is [> 0 and <= RoomAnswer.Most and var lines] =>
                terms with
                {
                    Room = lines,
                },
            ["no", "reasons"] => terms with { WithoutReasons = true },
            ["showing", _, ..] => terms with { Showing = Behind(words[0], line, source) },
            ["no", "rule"] => terms with { WithoutRule = true },
            ["no", "decisions"] => terms with { Decisions = AskedDecisions.None },
            ["decisions", "as", "digits"] => terms with { Decisions = AskedDecisions.Digits },
            ["constant", "registers", "printed"] => terms with { PrintsConstants = true },
            ["spare", "rows" or "row", var spare] when Numbers([spare]) is [> 0 and <= MostSpare and var rows] =>
                terms with
                {
                    Spare = rows,
                },
            ["repeats"] => terms with { Allowed = terms.Allowed with { Repeats = true } },
            ["neighbours"] => terms with { Allowed = terms.Allowed with { Neighbours = true } },
            ["allow", .. var names] when Named(names) is { Count: > 0 } shortcuts => terms with
            {
                Allowed = terms.Allowed with { Shortcuts = [.. terms.Allowed.Shortcuts.Union(shortcuts)] },
            },
            _ => null,
        };
        if (read is null)
        {
            report.Add(Id.QuestionLine, line, ("forms", Forms));
        }
        return read;
    }

    /// <summary>Null where one is the name of none.</summary>
    private static List<Shortcut>? Named(IReadOnlyList<string> names)
    {
        var known = names.Select(n => Shortcuts.All.Where(s => Shortcuts.Name(s) == n.TrimEnd(',')).ToList()).ToList();
        return known.TrueForAll(k => k.Count == 1) ? [.. known.SelectMany(k => k)] : null;
    }

    /// <summary>A condition is the rest of its line, in quotes or not.</summary>
    private static RequestWord Behind(RequestWord word, Span line, Source source)
    {
        var rest = new Span(word.Span.End, line.End);
        var text = source[rest];
        var start = rest.Start + (text.Length - text.TrimStart().Length);
        var trimmed = text.Trim();
        return trimmed is ['"', .. var inner, '"']
            ? new RequestWord(inner, new Span(start + 1, line.End - 1))
            : new RequestWord(trimmed, new Span(start, line.End));
    }

    private static decimal? Marks(string text) =>
        decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var marks)
        && marks is > 0 and <= MostGiven
        && marks * 2 == decimal.Truncate(marks * 2)
            ? marks
            : null;

    private static List<int>? Numbers(IReadOnlyList<string> words)
    {
        var numbers = new List<int>();
        foreach (var word in words)
        {
            if (
                !int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
                || number > MostGiven
            )
            {
                return null;
            }
            numbers.Add(number);
        }
        return numbers;
    }
}
