using System.Globalization;
using Reckoner.Documents.Lessons;
using Reckoner.Drawing;
using Reckoner.Numbers;

namespace Reckoner.Documents.Packs;

/// <summary>A line for each student: whose sheet has which number, and for each question its operands and what comes out.</summary>
internal sealed class ClassKey(SheetsOfClass all)
{
    /// <summary>Behind operands of another class of difficulty than most have.</summary>
    private const char OtherClass = '*';

    private readonly List<IReadOnlyList<string>> rows = [];

    /// <summary>Classes of other difficulty, in words, with the questions and sheets that have operands of them.</summary>
    private readonly Dictionary<(int Question, string Class), List<string>> others = [];

    private readonly bool hasNames = all.Sheets.Any(s => s.Student.Name.Length > 0);

    private string[] Name(string name) => hasNames ? [name] : [];

    public void Add(SheetOf sheet, IReadOnlyList<AskedQuestion> questions)
    {
        rows.Add([
            sheet.Student.Identifier,
            .. Name(sheet.Student.Name),
            $"{sheet.Number}",
            .. questions.Select(q => q.OtherClass is null ? Short(q) : $"{Short(q)} {OtherClass}"),
        ]);
        foreach (var question in questions)
        {
            if (question.OtherClass is { } other)
            {
                var key = (question.Question.Number, other);
                others.TryAdd(key, []);
                others[key].Add($"{sheet.Number}");
            }
        }
    }

    public byte[] Pdf()
    {
        var words = all.Lesson.Words;
        List<string> head =
        [
            words.Say("sheet.identifier"),
            .. Name(words.Say("sheet.student")),
            words.Say("sheet.number"),
            .. all.Lesson.Lesson.Questions.Select(q => q.Number.ToString(CultureInfo.InvariantCulture)),
        ];
        var title = words.Say("sheet.class-key", ("title", all.Lesson.Lesson.Title));
        return HandoutWriter.Write(
            new Handout(
                title,
                words.Language,
                [
                    new Heading(1, title),
                    Paragraph.Of(words.Say("sheet.class-key-how")),
                    new Grid(null, head, rows),
                    .. others.Select(o =>
                        Paragraph.Of(
                            words.Say(
                                "sheet.class-key-other",
                                ("sign", $"{OtherClass}"),
                                ("question", o.Key.Question),
                                ("class", o.Key.Class),
                                ("sheets", string.Join(", ", o.Value))
                            )
                        )
                    ),
                    .. all.Equal.Select(e =>
                        Paragraph.Of(words.Say("sheet.class-key-equal", ("question", e.Question), ("said", e.Said)))
                    ),
                ]
            ),
            Palette.Grey,
            LessonPack.PaperOf(all.Lesson)
        );
    }

    /// <summary>"29, 6: 4, 5", and what fields hold where the question is not about one walk.</summary>
    private static string Short(AskedQuestion asked)
    {
        var fields = string.Join(
            ", ",
            asked.Works.OfType<FieldsWork>().SelectMany(f => f.Fields).Select(f => f.Expected)
        );
        return asked.Walk is not { } walk
            ? fields
            : $"{string.Join(", ", walk.Datapath.Operands.Select(o => Bits.Text(o.Number(walk.Operands[o.Index]))))}: "
                + (
                    fields.Length > 0
                        ? fields
                        : string.Join(
                            ", ",
                            walk.Datapath.Results.Zip(walk.Results).Select(r => Bits.Text(r.First.Number(r.Second)))
                        )
                );
    }
}
