using Reckoner.Documents.Lessons;
using Reckoner.Sheets;

namespace Reckoner.Documents.Packs;

/// <summary>A sheet: whose it is, its number, and the questions with its own operands.</summary>
internal sealed record SheetOf(Student Student, SheetNumber Number, IReadOnlyList<AskedQuestion> Questions);

/// <summary>The sheets of a class.</summary>
/// <param name="Lesson">What all have in common; its own questions are those of the first sheet.</param>
internal sealed record SheetsOfClass(AnsweredLesson Lesson, IReadOnlyList<SheetOf> Sheets, SheetSecret Secret)
{
    /// <summary>The files that they were made from besides machines of the catalogue, each with the hash of its text.</summary>
    public required IReadOnlyList<(string File, string Hash)> Made { get; init; }

    /// <summary>Sheets of those who are no longer on the list: should they come back, they get the same.</summary>
    public required IReadOnlyList<EarlierSheet> Left { get; init; }

    /// <summary>The head of the column of the list by which students are told apart.</summary>
    public required string Key { get; init; }

    /// <summary>For how many sheets each question that is drawn has a class of operands; by its number.</summary>
    public required IReadOnlyDictionary<int, int> DrawnFor { get; init; }

    /// <summary>The lesson as a sheet has it.</summary>
    public AnsweredLesson Of(SheetOf sheet) =>
        Lesson with
        {
            Questions = sheet.Questions,
            Student = Lesson.Lesson.Header.Shows?.Text switch
            {
                "name" => sheet.Student.Name,
                "identifier" => sheet.Student.Identifier,
                "both" => $"{sheet.Student.Name} ({sheet.Student.Identifier})".TrimStart(),
                _ => "",
            },
        };
}
