using Reckoner.Diagnostics;

namespace Reckoner.Documents.Marking;

/// <summary>A sheet that came back, or did not.</summary>
/// <param name="Files">What was handed in for it; the first is what was marked.</param>
/// <param name="Questions">Empty where nothing was handed in.</param>
internal sealed record MarkedSheet(
    AnsweredSheet Sheet,
    IReadOnlyList<string> Files,
    IReadOnlyList<MarkedQuestion> Questions
)
{
    /// <summary>Whether there is something to mark.</summary>
    public bool IsHandedIn => Files.Count > 0;

    /// <summary>What lay where this student hands in, and is not marked.</summary>
    public IReadOnlyList<UnmarkedFile> NotRead { get; init; } = [];

    /// <summary>What its page is called: nothing in it is anybody's but letters, digits, hyphens and low lines.</summary>
    public string FileName =>
        Sheet.Answers.Count > 0
            ? Sheet.Number.Plain
            : $"{string.Concat(Sheet.Identifier.Take(60).Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-'))}-{Sheet.Number.Value + 1}";

    /// <summary>What is to be known of its files.</summary>
    public IReadOnlyList<Term> Notes { get; init; } = [];

    /// <summary>Two of its files say different things, and nothing tells which counts.</summary>
    public bool IsContradicted { get; init; }

    /// <summary>What was written, so that another run sees whether it is still the same.</summary>
    public string Print { get; init; } = "";
}

/// <summary>A file that is not marked, with the reason.</summary>
/// <param name="Owner">Whose it is by its name, or by the folder it lies in; null where that says nothing.</param>
internal sealed record UnmarkedFile(string Path, Term Reason, AnsweredSheet? Owner = null);

/// <summary>A column of the class list by which a gradebook tells students apart.</summary>
/// <param name="Of">What stands there for each identifier.</param>
internal sealed record MarkKey(string Head, IReadOnlyDictionary<string, string> Of);

/// <summary>Sheets in which the same rows are wrong, or which have the rows of another's operands.</summary>
/// <param name="Question">In which.</param>
internal sealed record AlikeSheets(int Question, IReadOnlyList<AnsweredSheet> Sheets, bool IsOfOthersOperands);

/// <summary>The sheets of a class, each marked or with the reason why not; every file that was handed in is in it.</summary>
/// <param name="PassedOver">Files that systems leave of their own accord.</param>
internal sealed record MarkedClass(
    AnswersOfClass Answers,
    IReadOnlyList<MarkedSheet> Sheets,
    IReadOnlyList<UnmarkedFile> Unmarked,
    IReadOnlyList<string> PassedOver
)
{
    /// <summary>By the number of the question.</summary>
    public required IReadOnlyDictionary<int, MarkingKit> Kits { get; init; }

    public required Reckoner.Marking.MarkScheme Scheme { get; init; }

    /// <summary>Questions that do not count.</summary>
    public IReadOnlySet<int> Withdrawn { get; init; } = new HashSet<int>();

    public IReadOnlyList<AlikeSheets> Alike { get; init; } = [];

    /// <summary>What the first column of the marks says instead of identifiers; null for these.</summary>
    public MarkKey? Key { get; init; }

    /// <summary>The head of that column.</summary>
    public string KeyHead => Key?.Head ?? Answers.Key;

    /// <summary>What stands there for a student.</summary>
    public string KeyOf(string identifier) => Key?.Of.GetValueOrDefault(identifier) ?? identifier;

    public IEnumerable<AskedForm> Counted => Answers.Questions.Where(q => !Withdrawn.Contains(q.Number));

    /// <summary>The walks of a question that were filled in, with the verdict on each.</summary>
    public IEnumerable<(MarkedSheet Sheet, MarkedWalk Walk)> Walks(int question) =>
        from sheet in Sheets
        from marked in sheet.Questions
        where marked.Form.Number == question && marked.Walk is not null
        select (sheet, marked.Walk);
}
