using Reckoner.Documents.Lessons;
using Reckoner.Sheets;

namespace Reckoner.Documents.Packs;

/// <summary>A sheet: whose it is, its number, and how it is read.</summary>
internal sealed record SheetOf(Student Student, SheetNumber Number, SheetForm Form);

/// <summary>The sheets of a class.</summary>
/// <param name="Lessons">What all have in common, as it is read in each form; without questions.</param>
/// <param name="Ask">
/// The questions of a sheet, with its own operands; null where one cannot be asked, which has been said. It is asked by one thread
/// at a time.
/// </param>
internal sealed record SheetsOfClass(
    IReadOnlyDictionary<SheetForm, AnsweredLesson> Lessons,
    IReadOnlyList<SheetOf> Sheets,
    SheetSecret Secret,
    Func<SheetOf, IReadOnlyList<AskedQuestion>?> Ask
)
{
    /// <summary>The files that they were made from besides machines of the catalogue, each with the hash of its text.</summary>
    public required IReadOnlyList<(string File, string Hash)> Made { get; init; }

    /// <summary>Sheets of those who are no longer on the list: should they come back, they get the same.</summary>
    public required IReadOnlyList<EarlierSheet> Left { get; init; }

    /// <summary>The head of the column of the list by which students are told apart.</summary>
    public required string Key { get; init; }

    /// <summary>How equal the work is of what was drawn, a sentence or two for each question that is drawn; by its number.</summary>
    public required IReadOnlyList<(int Question, string Said)> Equal { get; init; }

    public AnsweredLesson Lesson => Lessons[SheetForm.Usual];

    /// <summary>The lesson as a sheet has it.</summary>
    public AnsweredLesson Of(SheetOf sheet, IReadOnlyList<AskedQuestion> questions) =>
        Lessons[sheet.Form] with
        {
            Questions = questions,
            Student = Lesson.Lesson.Header.Shows?.Text switch
            {
                "name" => sheet.Student.Name,
                "identifier" => sheet.Student.Identifier,
                "both" => $"{sheet.Student.Name} ({sheet.Student.Identifier})".TrimStart(),
                _ => "",
            },
        };
}
