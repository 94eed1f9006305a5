using Reckoner.Diagnostics;

namespace Reckoner.Sheets;

/// <summary>Somebody who gets a sheet.</summary>
/// <param name="Identifier">Told apart by it from all others.</param>
/// <param name="Name">Empty where the list has none.</param>
/// <param name="Form">How it is to be printed for them.</param>
internal sealed record Student(string Identifier, string Name, SheetForm Form);

/// <summary>Heads of columns of a class list; of each the first that is found counts.</summary>
/// <param name="Identifiers">Of a column of identifiers, which there must be.</param>
/// <param name="Names">Of one of names.</param>
/// <param name="Forms">Of one that says how a sheet is to be printed.</param>
internal sealed record ClassHeads(
    IReadOnlyList<string> Identifiers,
    IReadOnlyList<string> Names,
    IReadOnlyList<string> Forms
)
{
    /// <summary>Heads that somebody named, so that there must be such columns.</summary>
    public IReadOnlyList<string> Named { get; init; } = [];
}

/// <summary>
/// Reads a class list: values between separators, a head above them. Of each line nothing is read but the identifier, the name and the form.
/// </summary>
internal static class ClassList
{
    /// <summary>More sheets are not made at once.</summary>
    public const int Most = 5000;

    /// <summary>Longer is no identifier and no name.</summary>
    public const int Longest = 120;

    /// <param name="text">As <see cref="ListText"/> reads it.</param>
    /// <param name="forms">What each form is called; of several words any.</param>
    /// <returns>In the order of the list; null with what is wrong in the report.</returns>
    public static IReadOnlyList<Student>? Read(
        Source text,
        ClassHeads heads,
        IReadOnlyDictionary<SheetForm, IReadOnlyList<string>> forms,
        Report report
    )
    {
        var rows = ListRows.Of(text.Text, out var open).Where(r => r.Cells.Any(c => c.Length > 0)).ToList();
        if (open is { } quote)
        {
            report.Add(Id.ClassQuote, text.LineSpan(quote));
            return null;
        }
        if (rows.Count < 2)
        {
            report.Add(Id.ClassEmpty, text.LineSpan(1), ("file", text.Name));
            return null;
        }
        var head = rows[0].Cells;
        if (Column(head, heads.Identifiers) is not { } identifier)
        {
            report.Add(
                Id.ClassNoIdentifier,
                Line(rows[0]),
                ("columns", Told(head)),
                ("known", heads.Identifiers.Take(3).ToList())
            );
            return null;
        }
        if (heads.Named.FirstOrDefault(n => Column(head, [n]) is null) is { } missing)
        {
            report.Add(Id.ClassNoColumn, Line(rows[0]), ("column", missing), ("columns", Told(head)));
            return null;
        }
        if (Unclear(head, heads) is { Count: > 0 } unclear)
        {
            report.Add(Id.ClassColumns, Line(rows[0]), ("columns", Told(unclear)));
            return null;
        }
        if (rows.Count - 1 > Most)
        {
            report.Add(Id.ClassTooLong, Line(rows[Most + 1]), ("count", rows.Count - 1), ("limit", Most));
            return null;
        }
        var (name, form) = (Column(head, heads.Names), Column(head, heads.Forms));
        var students = new List<Student>();
        var lines = new Dictionary<string, int>();
        foreach (var row in rows.Skip(1))
        {
            if (row.Cells.Skip(head.Count).Any(c => c.Length > 0))
            {
                report.Add(Id.ClassMoreCells, Line(row), ("count", row.Cells.Count), ("columns", head.Count));
                return null;
            }
            var wish = form is { } where ? Cell(row, where) : "";
            if (Form(wish, forms) is not { } its)
            {
                report.Add(
                    Id.ClassForm,
                    Line(row),
                    ("word", wish),
                    ("known", forms.Where(f => f.Key != SheetForm.Usual).Select(f => f.Value[0]).ToList())
                );
                return null;
            }
            var student = new Student(Cell(row, identifier), name is { } at ? Cell(row, at) : "", its);
            if (student.Identifier.Length == 0)
            {
                report.Add(Id.ClassNobody, Line(row), ("column", head[identifier]));
                return null;
            }
            if (Math.Max(student.Identifier.Length, student.Name.Length) > Longest)
            {
                report.Add(Id.ClassTooWide, Line(row), ("limit", Longest));
                return null;
            }
            // A cell in quotes may go on for lines, and what stands in others is not read.
            if (string.Concat(student.Identifier, student.Name) is var read && HiddenCharacters.Dotted(read) != read)
            {
                report.Add(Id.ClassHidden, Line(row));
                return null;
            }
            if (!lines.TryAdd(student.Identifier, row.Line))
            {
                report.Add(
                    Id.ClassTwice,
                    Line(row),
                    ("identifier", student.Identifier),
                    ("line", lines[student.Identifier])
                );
                return null;
            }
            students.Add(student);
        }
        return students;

        Span Line(ListRow row) => text.LineSpan(row.Line);
    }

    /// <summary>What stands in another column for each identifier, none twice; null with what is wrong in the report.</summary>
    /// <param name="identifier">The head of the column of identifiers, <paramref name="key"/> that of the other.</param>
    public static IReadOnlyDictionary<string, string>? Keys(Source text, string identifier, string key, Report report)
    {
        var heads = ListRows.Of(text.Text, out _).FirstOrDefault(r => r.Cells.Any(c => c.Length > 0))?.Cells ?? [];
        foreach (var head in new[] { identifier, key }.Where(h => heads.Count > 0 && Column(heads, [h]) is null))
        {
            report.Add(Id.ClassNoColumn, text.LineSpan(1), ("column", head), ("columns", Told(heads)));
            return null;
        }
        if (Read(text, new ClassHeads([identifier], [key], []), Nothing, report) is not { } students)
        {
            return null;
        }
        var (keys, seen) = (new Dictionary<string, string>(), new HashSet<string>());
        foreach (var student in students)
        {
            if (student.Name.Length == 0 || !seen.Add(student.Name))
            {
                report.Add(
                    Id.ClassNoKey,
                    text.LineSpan(1),
                    ("column", key),
                    ("identifier", student.Identifier),
                    ("key", student.Name)
                );
                return null;
            }
            keys.Add(student.Identifier, student.Name);
        }
        return keys;
    }

    /// <summary>The head of the column of identifiers, of a list that was read.</summary>
    public static string Key(Source text, IReadOnlyList<string> identifiers)
    {
        var head = ListRows.Of(text.Text, out _).First(r => r.Cells.Any(c => c.Length > 0)).Cells;
        return head[Column(head, identifiers)!.Value];
    }

    /// <summary>The usual one where nothing is said; null for words that mean none.</summary>
    private static SheetForm? Form(string said, IReadOnlyDictionary<SheetForm, IReadOnlyList<string>> forms) =>
        said.Length == 0
            ? SheetForm.Usual
            : forms
                .Where(f => f.Value.Contains(said, StringComparer.OrdinalIgnoreCase))
                .Select(f => (SheetForm?)f.Key)
                .FirstOrDefault();

    private static readonly Dictionary<SheetForm, IReadOnlyList<string>> Nothing = new();

    /// <summary>
    /// Columns of which more than one may be meant: with one head, or with several that say how a sheet is printed. Of identifiers and
    /// names a list may have more, and the first known head counts.
    /// </summary>
    private static List<string> Unclear(IReadOnlyList<string> head, ClassHeads heads)
    {
        var forms = head.Where(h => heads.Forms.Contains(h, StringComparer.OrdinalIgnoreCase)).ToList();
        if (forms.Count > 1)
        {
            return forms;
        }
        return
        [
            .. new[] { heads.Identifiers, heads.Names }
                .Select(h => Column(head, h) is { } at ? head[at] : null)
                .OfType<string>()
                .Select(h => head.Where(o => o.Equals(h, StringComparison.OrdinalIgnoreCase)).ToList())
                .FirstOrDefault(same => same.Count > 1, []),
        ];
    }

    /// <summary>Heads as they are told: of what is no list they would be without end.</summary>
    private static List<string> Told(IReadOnlyList<string> heads) =>
        [.. heads.Take(MostTold).Select(h => h.Length > LongestTold ? $"{h[..LongestTold]}\u2026" : h)];

    private const int MostTold = 12;
    private const int LongestTold = 40;

    private static string Cell(ListRow row, int column) => row.Cells.ElementAtOrDefault(column) ?? "";

    private static int? Column(IReadOnlyList<string> head, IReadOnlyList<string> wanted)
    {
        foreach (var one in wanted)
        {
            for (var i = 0; i < head.Count; i++)
            {
                if (head[i].Equals(one, StringComparison.OrdinalIgnoreCase))
                {
                    return i;
                }
            }
        }
        return null;
    }
}
