using Reckoner.Datapaths;
using Reckoner.Documents.Lessons;
using Reckoner.Explaining;
using Reckoner.Notation;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Quizzes;

/// <summary>Makes items of one question, and says what of it cannot be one.</summary>
internal sealed partial class QuizItems
{
    /// <summary>More is no short answer.</summary>
    private const int LongestAnswer = 60;

    private readonly AskedQuestion asked;
    private readonly int variant;
    private readonly QuizWays ways;
    private readonly Vocabulary words;
    private readonly List<QuizItem> items = [];
    private readonly List<QuizNote> notes = [];

    private QuizItems(AskedQuestion asked, int variant, QuizWays ways, Vocabulary words) =>
        (this.asked, this.variant, this.ways, this.words) = (asked, variant, ways, words);

    /// <param name="variant">From 1.</param>
    public static (IReadOnlyList<QuizItem> Items, IReadOnlyList<QuizNote> Notes) Of(
        AskedQuestion asked,
        int variant,
        QuizWays ways,
        Vocabulary words
    )
    {
        var made = new QuizItems(asked, variant, ways, words);
        made.Make();
        // What is left out was worth its part too.
        var parts = made.items.Count + made.notes.Count(n => n.IsLeftOut);
        var marks = asked.Question.Terms.Marks is { } all ? Math.Round(all / Math.Max(1, parts), 4) : 1;
        return ([.. made.items.Select(i => i with { Marks = marks })], made.notes);
    }

    private void Make()
    {
        var make = asked.Question.Task switch
        {
            QuestionTask.Fill or QuestionTask.Complete => (Action)Fill,
            QuestionTask.Say => Say,
            QuestionTask.Find => Find,
            QuestionTask.Which => Which,
            QuestionTask.Choose => () => LeaveOut("", "quiz.out-choose"),
            QuestionTask.Mend => Mend,
        };
        make();
    }

    private void LeaveOut(string part, string key) =>
        notes.Add(new QuizNote(asked.Question.Number, part, words.Say(key), IsLeftOut: true));

    /// <summary>The ways to work it wrongly; null where they are not known, which is noted once.</summary>
    private Ways? WaysOf(Datapath datapath)
    {
        var found = ways.Of(datapath);
        if (found is null)
        {
            Less(words.Say("quiz.unknown", ("most", RowLayout.MostBits)));
        }
        return found;
    }

    /// <summary>Notes once that no wrong answer of it is known.</summary>
    private void Less(string why)
    {
        var note = new QuizNote(asked.Question.Number, "", why, IsLeftOut: false);
        if (!notes.Contains(note))
        {
            notes.Add(note);
        }
    }

    /// <param name="part">What of the question it is, in its title.</param>
    /// <param name="name">Likewise in its identifier.</param>
    private void Add(
        string part,
        string name,
        IEnumerable<QuizBlock> body,
        IReadOnlyList<QuizGap> gaps,
        IReadOnlyList<KnownWrong> known
    )
    {
        var number = asked.Question.Number;
        var title = part.Length == 0 ? words.Say("question.head", ("number", number)) : Title(number, part);
        items.Add(
            new QuizItem(
                FormattableString.Invariant($"q{number}-v{variant}{name}"),
                number,
                variant,
                title,
                1,
                [.. body],
                gaps,
                known
            )
        );
    }

    private string Title(int number, string part) => words.Say("quiz.title", ("number", number), ("part", part));

    /// <summary>One place with its label.</summary>
    private void AddOne(
        string part,
        string name,
        IEnumerable<QuizBlock> before,
        string label,
        Spelled right,
        IReadOnlyList<ForeseenAnswer> foreseen,
        IEnumerable<QuizBlock> behind
    )
    {
        var gaps = QuizDraft.Gaps([(label, right)]);
        Add(part, name, [.. before, new QuizPlaces(gaps), .. behind], gaps, QuizDraft.Known(gaps, foreseen));
    }

    /// <summary>What is said of slips names lines of the description.</summary>
    private IEnumerable<QuizBlock> Description() =>
        asked.Datapath is { } datapath
            ? [new QuizSays(words.Say("quiz.description")), new QuizLines(Numbered(datapath))]
            : [];

    private static List<string> Numbered(Datapath datapath)
    {
        var lines = Printer.Text(datapath.Machine.Description).TrimEnd('\n').Split('\n');
        var wide = FormattableString.Invariant($"{lines.Length}").Length;
        return [.. lines.Select((l, i) => $"{FormattableString.Invariant($"{i + 1}").PadLeft(wide)}  {l}".TrimEnd())];
    }

    private static List<int> Columns(TableWork table) =>
        [.. table.Shown.Where(i => table.Grid.Columns[i].Role != ColumnRole.Sentences && !table.IsDecision(i))];

    /// <summary>A row as it is printed, with places where it is open.</summary>
    private static List<QuizCell> Row(TableWork table, int row, IReadOnlyDictionary<int, QuizGap> gaps)
    {
        var cells = Marks.Cells(table.Grid, table.Grid.Rows[row]).ToList();
        return
        [
            .. Columns(table)
                .Select(i =>
                    gaps.TryGetValue(i, out var gap)
                        ? new QuizCell("", gap)
                        : new QuizCell($"{cells[i]}", IsDigits: table.Grid.Columns[i].Role == ColumnRole.Digits)
                ),
        ];
    }

    private static readonly Dictionary<int, QuizGap> Printed = [];

    private static List<string> Heads(TableWork table) =>
        [.. Columns(table).Select(i => Marks.FullHead(table.Grid.Columns[i]))];

    private static QuizTable Whole(TableWork table) =>
        new(Heads(table), [.. Enumerable.Range(0, table.Grid.Rows.Count).Select(r => Row(table, r, Printed))]);
}
