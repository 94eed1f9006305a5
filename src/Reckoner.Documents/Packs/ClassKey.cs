using Reckoner.Documents.Lessons;
using Reckoner.Drawing;
using Reckoner.Numbers;

namespace Reckoner.Documents.Packs;

/// <summary>A line for each student: whose sheet has which number, and for each question its operands and what comes out.</summary>
internal static class ClassKey
{
    public static byte[] Pdf(SheetsOfClass all)
    {
        var words = all.Lesson.Words;
        var hasNames = all.Sheets.Any(s => s.Student.Name.Length > 0);
        List<string> head =
        [
            words.Say("sheet.identifier"),
            .. hasNames ? [words.Say("sheet.student")] : (string[])[],
            words.Say("sheet.number"),
            .. all.Lesson.Lesson.Questions.Select(q =>
                q.Number.ToString(System.Globalization.CultureInfo.InvariantCulture)
            ),
        ];
        var rows = all.Sheets.Select(s =>
            (IReadOnlyList<string>)
                [
                    s.Student.Identifier,
                    .. hasNames ? [s.Student.Name] : (string[])[],
                    $"{s.Number}",
                    .. s.Questions.Select(Short),
                ]
        );
        var title = words.Say("sheet.class-key", ("title", all.Lesson.Lesson.Title));
        return HandoutWriter.Write(
            new Handout(
                title,
                words.Language,
                [new Heading(1, title), Paragraph.Of(words.Say("sheet.class-key-how")), new Grid(null, head, [.. rows])]
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
