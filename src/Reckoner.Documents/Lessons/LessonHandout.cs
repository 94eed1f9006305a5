using System.Collections.Concurrent;
using System.Globalization;
using System.Runtime.CompilerServices;
using Markdig.Extensions.Mathematics;
using Markdig.Extensions.Tables;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;
using Reckoner.Documents.Lessons.Formulas;
using Reckoner.Drawing;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>A lesson on paper: its text, tables and figures as blocks of a handout.</summary>
internal sealed class LessonHandout
{
    private readonly AnsweredLesson lesson;
    private readonly Vocabulary words;
    private readonly Edition edition;
    private readonly Edition asked;
    private readonly Dictionary<LinkInline, string> values;

    private readonly Paper paper;

    /// <summary>A line that long names have room on.</summary>
    private const int NameSigns = 36;

    private LessonHandout(AnsweredLesson lesson, Edition edition, Edition asked, Paper paper)
    {
        this.paper = paper;
        this.asked = asked;
        this.lesson = lesson;
        this.edition = edition;
        words = lesson.Words;
        values = lesson.Values.ToDictionary(v => v.Link.Node, v => v.Text);
    }

    /// <param name="paper">Figures that are too wide for it are laid out for it.</param>
    public static Handout Of(AnsweredLesson lesson, Edition edition, Paper paper) =>
        // Whoever reads everything told is asked all the same.
        Of(lesson, edition, edition == Edition.Key ? Edition.Key : Edition.Blank, paper);

    /// <param name="asked">How its questions are set: to be filled in, or filled in.</param>
    public static Handout Of(AnsweredLesson lesson, Edition edition, Edition asked, Paper paper)
    {
        var made = new LessonHandout(lesson, edition, asked, paper);
        return new Handout(lesson.Lesson.Title, lesson.Words.Language, [.. made.Blocks()]) { Foot = Imprint(lesson) };
    }

    private IEnumerable<Block> Blocks()
    {
        var body = lesson.Lesson.Body;
        if (!body.Descendants<HeadingBlock>().Any(h => h.Level == 1))
        {
            yield return new Heading(1, lesson.Lesson.Title);
        }
        var said = false;
        foreach (var block in body.SelectMany(Of))
        {
            yield return block;
            if (!said && block is Heading)
            {
                said = true;
                if (lesson.Student is { } student)
                {
                    yield return new Paragraph([
                        new Run(words.Say("sheet.name") + " "),
                        student.Length > 0 ? new Run(student, Face.Bold) : new Run(new string('_', NameSigns)),
                    ]);
                }
                if (edition != Edition.Full && lesson.Student is null)
                {
                    yield return Paragraph.Of(words.Say(edition == Edition.Blank ? "lesson.blank" : "lesson.key"));
                }
            }
        }
    }

    /// <summary>Author and licence, as far as they are said.</summary>
    public static string Imprint(AnsweredLesson lesson) =>
        string.Join(
            ". ",
            new[] { lesson.Lesson.Header.Author?.Text, lesson.Lesson.Header.Licence?.Text }.Where(t => t is not null)
        );

    private IEnumerable<Block> Of(Markdig.Syntax.Block block)
    {
        switch (block)
        {
            case HeadingBlock h:
                return [new Heading(h.Level, PlainWords.Of(h.Inline))];
            case ParagraphBlock p when LessonFormulas.Alone(p) is { } formula:
                return [new Display(formula)];
            case ParagraphBlock p:
                return LeadsToQuestion(p)
                    ? Of(p).Select(b => b is Paragraph said ? said with { IsAbove = true } : b)
                    : Of(p);
            case ListBlock l:
                return Of(l);
            case FencedCodeBlock f when lesson.BlockOf(f) is { } answered:
                return answered.Answers.SelectMany(Of);
            case FencedCodeBlock f when lesson.QuestionOf(f) is { } question:
                return QuestionBlocks.Of(question, lesson, asked, a => Pictures(a, asked));
            case MathBlock m:
                return [new Display(LessonFormulas.Of(m))];
            case CodeBlock c:
                return [new Verbatim([.. LessonReader.Lines(c).Select(l => l.Slice.ToString())])];
            case Table t:
                return [Of(t)];
            case ContainerBlock c:
                return c.SelectMany(Of);
            default:
                return [];
        }
    }

    /// <summary>What stands right before a question is about it.</summary>
    private bool LeadsToQuestion(ParagraphBlock paragraph) =>
        paragraph.Parent is { } parent
        && parent.IndexOf(paragraph) + 1 is var next
        && next < parent.Count
        && parent[next] is FencedCodeBlock fence
        && lesson.QuestionOf(fence) is not null;

    private IEnumerable<Block> Of(RequestAnswer answer) =>
        answer.Match(
            walk: a => WalkBlocks.Of(a, words, edition),
            figure: a => Pictures(a, edition),
            report: a => AnswerBlocks.Of(a, edition),
            pageEnd: _ => [new PageEnd()],
            room: a => [new Room(a.Lines)]
        );

    /// <summary>
    /// What figures were laid out for: it takes several drawings to find, and a sheet, all sheets together and the key ask for the same.
    /// </summary>
    private static readonly ConditionalWeakTable<
        FigureAnswer,
        ConcurrentDictionary<Paper, Lazy<FigureTarget?>>
    > Targets = [];

    /// <summary>One to be filled in and its key take the same room, whatever stands below their rows.</summary>
    private IEnumerable<Block> Pictures(FigureAnswer answer, Edition edition)
    {
        var target = Targets
            .GetOrCreateValue(answer)
            .GetOrAdd(
                paper,
                p => new Lazy<FigureTarget?>(() =>
                    PaperFigures.Target(
                        t => [.. answer.Scenes(isBlank: false, t), .. answer.Scenes(isBlank: true, t)],
                        p
                    )
                )
            )
            .Value;
        var scenes = answer.Scenes(edition == Edition.Blank, target);
        var twins = WalkBlocks.Filled(edition) ? answer.Scenes(edition != Edition.Blank, target) : [];
        return scenes.Select(
            (s, i) => new Picture(s) { Twin = twins.ElementAtOrDefault(i), IsForPage = target is not null }
        );
    }

    /// <summary>A paragraph is parted where an image stands in it.</summary>
    private IEnumerable<Block> Of(ParagraphBlock paragraph)
    {
        var runs = new List<Run>();
        foreach (var inline in paragraph.Inline ?? [])
        {
            if (inline is LinkInline { IsImage: true } link && Photograph(link) is { } photograph)
            {
                if (runs.Exists(r => r.Words.Trim().Length > 0))
                {
                    yield return new Paragraph([.. runs]);
                }
                runs.Clear();
                yield return photograph;
            }
            else
            {
                runs.AddRange(Runs(inline, Face.Plain));
            }
        }
        if (runs.Exists(r => r.Words.Trim().Length > 0))
        {
            yield return new Paragraph([.. runs]);
        }
    }

    private Photograph? Photograph(LinkInline link) =>
        LessonImages.OnPaper(lesson.Images[link.Url ?? ""], PlainWords.Of(link));

    /// <summary>
    /// Items of lists inside a list stand behind the item they belong to. The list is parted where requests, code or a table stand in
    /// an item.
    /// </summary>
    private IEnumerable<Block> Of(ListBlock list)
    {
        var items = new List<(string Label, IReadOnlyList<Run> Runs)>();
        foreach (var (item, label) in Labelled(list))
        {
            items.Add((label, Paragraphs(item, "")));
            items.AddRange(item.OfType<ListBlock>().SelectMany(l => Nested(l, "")).Select(runs => ("", runs)));
            var others = item.Descendants().OfType<Markdig.Syntax.Block>().Where(b => b is CodeBlock or Table).ToList();
            if (others.Count > 0)
            {
                yield return Listed(items, list);
                items.Clear();
            }
            foreach (var block in others.SelectMany(Of))
            {
                yield return block;
            }
        }
        if (items.Count > 0)
        {
            yield return Listed(items, list);
        }
    }

    private static Listing Listed(List<(string Label, IReadOnlyList<Run> Runs)> items, ListBlock list) =>
        new([.. items.Select(i => i.Runs)], list.IsOrdered) { Labels = [.. items.Select(i => i.Label)] };

    private static IEnumerable<(ListItemBlock Item, string Label)> Labelled(ListBlock list)
    {
        _ = int.TryParse(list.OrderedStart, NumberStyles.None, CultureInfo.InvariantCulture, out var first);
        return list.OfType<ListItemBlock>()
            .Select(
                (item, i) => (item, list.IsOrdered ? string.Create(CultureInfo.InvariantCulture, $"{first + i}.") : "–")
            );
    }

    private IEnumerable<IReadOnlyList<Run>> Nested(ListBlock list, string lead) =>
        Labelled(list)
            .SelectMany(i =>
                i.Item.OfType<ListBlock>()
                    .SelectMany(l => Nested(l, lead + "– "))
                    .Prepend(Paragraphs(i.Item, $"{lead}{i.Label} "))
            );

    /// <summary>The paragraphs of an item as one, those of a quotation in it too.</summary>
    private IReadOnlyList<Run> Paragraphs(ListItemBlock item, string lead)
    {
        var own = item.SelectMany(b => b is QuoteBlock q ? q.Descendants() : (IEnumerable<MarkdownObject>)[b])
            .OfType<LeafBlock>()
            .Where(b => b.Inline is not null);
        return
        [
            new Run(lead),
            .. own.SelectMany((b, i) => Runs(b.Inline, Face.Plain).Prepend(new Run(i == 0 ? "" : " "))),
        ];
    }

    private Grid Of(Table table)
    {
        var rows = table.OfType<TableRow>().Select(r => r.OfType<TableCell>().Select(Words).ToList()).ToList();
        var width = rows.Max(r => r.Count);
        var filled = rows.Select(r => (IReadOnlyList<string>)[.. r, .. Enumerable.Repeat("", width - r.Count)])
            .ToList();
        return new Grid(null, filled[0], [.. filled.Skip(1)]);
    }

    private string Words(TableCell cell) =>
        string.Concat(cell.OfType<LeafBlock>().SelectMany(b => Runs(b.Inline, Face.Plain)).Select(r => r.Words));

    private IEnumerable<Run> Runs(ContainerInline? inlines, Face face) =>
        inlines is null ? [] : inlines.SelectMany(i => Runs(i, face));

    private IEnumerable<Run> Runs(Inline inline, Face face) =>
        inline switch
        {
            LiteralInline t => [new Run(t.Content.ToString(), face)],
            CodeInline c => [new Run(c.Content, Face.Mono)],
            MathInline m => [Formula(LessonFormulas.Of(m))],
            HtmlEntityInline e => [new Run(e.Transcoded.ToString(), face)],
            LineBreakInline b => [new Run(b.IsHard ? "\n" : " ", face)],
            AutolinkInline a => [new Run(a.Url, face)],
            LinkInline l when values.TryGetValue(l, out var value) => [Value(l, value, face)],
            LinkInline { IsImage: true } l => [new Run(words.Say("lesson.image", ("alt", PlainWords.Of(l))), face)],
            LinkInline l => Runs((ContainerInline)l, face).Append(new Run($" ({l.Url})", face)),
            EmphasisInline e => Runs((ContainerInline)e, Face.Bold),
            ContainerInline c => Runs(c, face),
            _ => [],
        };

    private static Run Formula(Formula formula) => new(FormulaText.Plain(formula)) { Formula = formula };

    /// <summary>Operands and widths are given; the rest is what is to be found.</summary>
    private Run Value(LinkInline link, string value, Face face) =>
        edition == Edition.Full || lesson.IsGiven(link) ? new Run(value, face) : WalkBlocks.Place(value, edition);
}
