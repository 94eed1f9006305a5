using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Marking;

/// <summary>The marks of a class as one table, a line for each student, and who has other marks than in the run before.</summary>
internal static class MarksTable
{
    private const string Identifier = "identifier";
    private const string Name = "name";
    private const string Sheet = "sheet";
    private const string Of = "of";
    private const string Remarks = "remarks";

    private static bool HasNames(MarkedClass marked) => marked.Sheets.Any(s => s.Sheet.Name.Length > 0);

    /// <summary>Whether students have sheets, and no files of their own making.</summary>
    private static bool HasSheets(MarkedClass marked) => marked.Sheets.Any(s => s.Sheet.Answers.Count > 0);

    /// <summary>What its columns are called among ourselves, in whatever language their heads are.</summary>
    public static IReadOnlyList<string> Columns(MarkBook book) =>
        [
            Identifier,
            .. HasNames(book.Class) ? [Name] : (string[])[],
            .. HasSheets(book.Class) ? [Sheet] : (string[])[],
            MarkBook.Total,
            Of,
            .. book.Columns.Skip(1),
            Remarks,
        ];

    /// <summary>What stands above them in marks.csv.</summary>
    public static IReadOnlyList<(string Name, string Head)> Heads(MarkBook book, Vocabulary words) =>
        [.. Columns(book).Select(c => (c, Tables.Marks.FullHead(Head(c, book, words))))];

    public static Tables.Document Document(MarkBook book, Vocabulary words) =>
        new(
            "marks",
            words.Language,
            words.Say("mark.title"),
            book.Class.Answers.Title,
            [Table(book, words), .. Unmarked(book.Class, words)]
        )
        {
            Leads =
            [
                Content.Phrase(MarkWords.Scheme(book.Class.Scheme, words)),
                .. book.Class.Withdrawn.Count == 0
                    ? []
                    : new[]
                    {
                        words.Spell(
                            "mark.withdrawn",
                            ("count", book.Class.Withdrawn.Count),
                            ("questions", string.Join(", ", book.Class.Withdrawn.Order()))
                        ),
                    },
            ],
        };

    /// <summary>Files that are nobody's, or cannot be read.</summary>
    private static IEnumerable<Tables.Block> Unmarked(MarkedClass marked, Vocabulary words)
    {
        if (marked.Unmarked.Count > 0)
        {
            yield return new Tables.Paragraph(words.Spell("mark.look-files-how"));
            yield return new Items([
                .. marked.Unmarked.Select(f =>
                    Content.Phrase(
                        words.Say("mark.file-why", ("file", HiddenCharacters.Dotted(f.Path)), ("why", f.Reason))
                    )
                ),
            ]);
        }
    }

    private static Tables.Grid Table(MarkBook book, Vocabulary words)
    {
        var columns = Columns(book);
        return new Tables.Grid(
            "marks",
            words.Say("mark.title"),
            [.. columns.Select(c => Head(c, book, words))],
            [.. book.Class.Sheets.Select(s => new GridRow([.. columns.Select(c => Cell(c, s, book, words))]))]
        );
    }

    private static GridColumn Head(string column, MarkBook book, Vocabulary words) =>
        column switch
        {
            Identifier => new GridColumn(book.Class.KeyHead, ColumnRole.Label),
            Name => new GridColumn(words.Say("sheet.student"), ColumnRole.Short),
            Sheet => new GridColumn(words.Say("sheet.number"), ColumnRole.Short),
            MarkBook.Total => new GridColumn(words.Say("mark.marks"), ColumnRole.Numbers),
            Of => new GridColumn(words.Say("mark.of"), ColumnRole.Numbers),
            Remarks => new GridColumn(words.Say("mark.remarks"), ColumnRole.Sentences),
            _ => new GridColumn(column, ColumnRole.Numbers) { Full = words.Say("question.head", ("number", column)) },
        };

    private static Tables.Cell Cell(string column, MarkedSheet sheet, MarkBook book, Vocabulary words) =>
        column switch
        {
            Identifier => Tables.Cell.Of(book.Class.KeyOf(sheet.Sheet.Identifier)),
            Name => Tables.Cell.Of(sheet.Sheet.Name),
            Sheet => Tables.Cell.Of($"{sheet.Sheet.Number}"),
            Of => Number(sheet.IsHandedIn ? book.Most(sheet) : null),
            Remarks => Tables.Cell.Of(string.Join(" ", MarkWords.Remarks(sheet, book, words))),
            _ => Number(book.Final(sheet, column)),
        };

    private static Tables.Cell Number(decimal? marks) =>
        marks is null
            ? Tables.Cell.Empty
            : Tables.Cell.Of((Content)new Words.Run(RunKind.Number, MarkBook.Written(marks)));

    /// <summary>Who has another mark than before: who, in which column, from, to, why.</summary>
    public static Tables.Document Changed(MarkBook book, EarlierMarks earlier, Vocabulary words) =>
        new(
            "changed",
            words.Language,
            words.Say("mark.changed"),
            book.Class.Answers.Title,
            [
                new Tables.Grid(
                    "changed",
                    words.Say("mark.changed"),
                    [
                        new GridColumn(book.Class.KeyHead, ColumnRole.Label),
                        new GridColumn(words.Say("mark.column"), ColumnRole.Short),
                        new GridColumn(words.Say("mark.from"), ColumnRole.Numbers),
                        new GridColumn(words.Say("mark.to"), ColumnRole.Numbers),
                        new GridColumn(words.Say("mark.why"), ColumnRole.Sentences),
                    ],
                    [.. Changes(book, earlier, words)]
                ),
            ]
        );

    private static IEnumerable<GridRow> Changes(MarkBook book, EarlierMarks earlier, Vocabulary words) =>
        from sheet in book.Class.Sheets
        from column in book.Columns
        let student = sheet.Sheet.Identifier
        where earlier.Written.ContainsKey((student, column))
        let before = earlier.Written[(student, column)]
        let now = MarkBook.Written(book.Final(sheet, column))
        where before != now
        select new GridRow([
            Tables.Cell.Of(book.Class.KeyOf(student)),
            Tables.Cell.Of(column == MarkBook.Total ? words.Say("mark.marks") : column),
            Number(EarlierMarks.Number(before)),
            Number(EarlierMarks.Number(now)),
            Tables.Cell.Of(words.Say(Why(book, earlier, sheet, column))),
        ]);

    private static string Why(MarkBook book, EarlierMarks earlier, MarkedSheet sheet, string column) =>
        book.IsByHand(sheet, column) ? "mark.why-by-hand"
        : earlier.ByHand.ContainsKey((sheet.Sheet.Identifier, column)) ? "mark.why-hand-taken-back"
        : earlier.Settings != EarlierMarks.SettingsOf(book.Class) ? "mark.why-scheme"
        : earlier.Prints.GetValueOrDefault(sheet.Sheet.Identifier) != sheet.Print ? "mark.why-file"
        : "mark.why-sum";
}
