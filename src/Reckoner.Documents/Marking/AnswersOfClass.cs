using System.Numerics;
using Reckoner.Documents.Lessons;
using Reckoner.Sheets;

namespace Reckoner.Documents.Marking;

/// <summary>What belongs on the sheets of a class, as it was written down when they were made.</summary>
/// <param name="Key">The head of the column of the list by which students are told apart.</param>
internal sealed record AnswersOfClass(
    string Title,
    string Language,
    string Key,
    IReadOnlyList<AskedForm> Questions,
    IReadOnlyList<AnsweredSheet> Sheets
);

/// <summary>A question, as far as all sheets have it in common.</summary>
/// <param name="Marks">What it is worth; null where nothing was said.</param>
internal sealed record AskedForm(int Number, QuestionTask Task, decimal? Marks)
{
    public AskedHardware? Hardware { get; init; }

    /// <summary>What chosen operands have to show.</summary>
    public string? Condition { get; init; }

    /// <summary>The slip that chosen operands have to expose.</summary>
    public string? Exposing { get; init; }
}

/// <summary>The hardware that a question is about.</summary>
/// <param name="Hash">Of its description.</param>
/// <param name="Slip">What was planted in it.</param>
/// <param name="Text">Its description, where it is none of the catalogue's.</param>
internal sealed record AskedHardware(
    string Machine,
    string Hash,
    string? Slip,
    string? Text,
    IReadOnlyDictionary<string, BigInteger> Widths
);

internal sealed record AnsweredSheet(
    SheetNumber Number,
    string Identifier,
    string Name,
    IReadOnlyList<AnsweredQuestion> Answers
);

/// <param name="Operands">By name; empty where it is not about one walk.</param>
internal sealed record AnsweredQuestion(
    int Number,
    IReadOnlyList<(string Name, BigInteger Number)> Operands,
    IReadOnlyList<AnsweredTable> Tables,
    IReadOnlyList<AnsweredField> Fields
);

/// <param name="Reasons">The heads of columns of sentences.</param>
internal sealed record AnsweredTable(
    int Number,
    IReadOnlyList<string> Columns,
    IReadOnlyList<string> Reasons,
    IReadOnlyList<AnsweredRow> Rows
);

/// <param name="Cells">What belongs there.</param>
/// <param name="Open">The columns that were to be filled in, by their index, each with the name of the place.</param>
internal sealed record AnsweredRow(int? Cycle, IReadOnlyList<string> Cells, IReadOnlyDictionary<int, string> Open);

/// <param name="Label">What stands before it on the sheet.</param>
internal sealed record AnsweredField(string Name, string Label, string Expected);
