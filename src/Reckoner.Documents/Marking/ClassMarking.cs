using System.Security.Cryptography;
using System.Text;
using Reckoner.Diagnostics;
using Reckoner.Documents.HandedIn;
using Reckoner.Marking;
using Reckoner.Questions;
using Reckoner.Sheets;

namespace Reckoner.Documents.Marking;

/// <summary>
/// Marks what a class handed in: each file is read once, told whose it is by the number of its sheet or else by its name, and
/// forgotten but for what was written into the places.
/// </summary>
internal sealed class ClassMarking
{
    private readonly AnswersOfClass answers;
    private readonly Dictionary<SheetNumber, AnsweredSheet> byNumber;
    private readonly Dictionary<SheetNumber, List<Handed>> handed = [];
    private readonly List<UnmarkedFile> unmarked = [];
    private readonly List<string> passedOver = [];
    private readonly List<(string Token, AnsweredSheet Sheet)> tokens;

    public ClassMarking(AnswersOfClass answers)
    {
        this.answers = answers;
        byNumber = answers.Sheets.ToDictionary(s => s.Number);
        // One or two letters stand in many names.
        tokens = [.. answers.Sheets.Where(s => s.Identifier.Length > 2).Select(s => (s.Identifier, s))];
    }

    private sealed record Handed(string Path, DateTimeOffset Time, FilledSheet Filled, Term? Note)
    {
        public string Print { get; } = Printed(Filled);
    }

    /// <summary>Takes a file, or the files in it.</summary>
    public void Take(IEnumerable<HandedFile> files, CancellationToken stop)
    {
        foreach (var file in files)
        {
            stop.ThrowIfCancellationRequested();
            if (file.IsLitter)
            {
                passedOver.Add(file.Path);
            }
            else
            {
                Take(file);
            }
        }
    }

    private void Take(HandedFile file)
    {
        var (text, trouble) = HandedReader.Of(file);
        var named = Named(file.Path);
        if (text is null)
        {
            unmarked.Add(new UnmarkedFile(file.Path, trouble!, named));
            return;
        }
        var said = Numbers(text).ToList();
        var number = said.Cast<SheetNumber?>().FirstOrDefault(n => byNumber.ContainsKey(n!.Value));
        // What says that it is another sheet is that, wherever it lies.
        if (number is null && (text.Sheet ?? said.Select(n => $"{n}").FirstOrDefault()) is { } other)
        {
            unmarked.Add(
                new UnmarkedFile(file.Path, new Term("handed.other-sheet", ("number", Excerpt.Of(other))), named)
            );
            return;
        }
        if ((number is { } its ? byNumber[its] : named) is not { } sheet)
        {
            unmarked.Add(new UnmarkedFile(file.Path, new Term("handed.whose")));
            return;
        }
        var filled = FilledSheet.Of(text, answers, sheet);
        if (number is null && filled.IsEmpty)
        {
            // What lies beside a sheet, such as a note of a learning platform, is no empty sheet.
            unmarked.Add(new UnmarkedFile(file.Path, new Term("handed.no-table"), sheet));
            return;
        }
        var note =
            number is not null && named is not null && named != sheet
                ? new Term("handed.in-folder-of", ("identifier", named.Identifier))
                : null;
        (handed.TryGetValue(sheet.Number, out var list) ? list : handed[sheet.Number] = []).Add(
            new Handed(file.Path, file.Time, filled, note)
        );
    }

    /// <summary>Numbers of sheets among the first cells of its pages.</summary>
    private IEnumerable<SheetNumber> Numbers(HandedText text)
    {
        var cells = text
            .Pages.SelectMany(p => p.Rows.Where(r => r.Any(c => c.Length > 0)).Take(3))
            .SelectMany(r => r.Take(4))
            .Prepend(text.Sheet ?? "");
        // A word of six letters may look like one, so only what is written as a number of ours is, and no number of a student.
        return cells
            .Where(c => c.Trim() is { Length: 7 } trimmed && trimmed[3] == '-' || c == text.Sheet)
            .Where(c => c == text.Sheet || answers.Sheets.All(s => s.Identifier != c.Trim()))
            .Select(SheetNumber.Read)
            .OfType<SheetNumber>();
    }

    /// <summary>The sheet whose number or whose student's identifier stands in the path; null where none does, or several.</summary>
    private AnsweredSheet? Named(string path)
    {
        var words = path.Split(['/', '_', '.', ' ', '-', '(', ')', ','], StringSplitOptions.RemoveEmptyEntries);
        var numbers = words
            .Where(w => w.Length == 6)
            .Select(SheetNumber.Read)
            .OfType<SheetNumber>()
            .Where(byNumber.ContainsKey)
            .Distinct()
            .ToList();
        if (numbers.Count == 1)
        {
            return byNumber[numbers[0]];
        }
        var parts = path.Split('/');
        var found = tokens
            .Where(t =>
                words.Contains(t.Token, StringComparer.OrdinalIgnoreCase)
                || parts.Any(p =>
                    p.StartsWith(t.Token, StringComparison.OrdinalIgnoreCase)
                    && (p.Length == t.Token.Length || !char.IsLetterOrDigit(p[t.Token.Length]))
                )
            )
            .Select(t => t.Sheet)
            .Distinct()
            .ToList();
        return found.Count == 1 ? found[0] : null;
    }

    private static string Printed(FilledSheet filled)
    {
        var text = string.Join(
            '\n',
            filled.Places.OrderBy(p => p.Key, StringComparer.Ordinal).Select(p => $"{p.Key}={p.Value}")
        );
        text += string.Concat(filled.Open.OrderBy(o => o.Key).Select(o => $"\n{o.Key}!{string.Join('|', o.Value)}"));
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..16];
    }

    /// <summary>All that was taken, marked.</summary>
    public MarkedClass Marked(MarkScheme scheme, IReadOnlySet<int> withdrawn, Means means)
    {
        var kits = MarkingKit.Of(answers.Questions);
        var judge = new QuestionJudge(scheme, means.Engine);
        List<MarkedSheet> sheets =
        [
            .. answers.Sheets.AsParallel().AsOrdered().WithCancellation(means.Stop).Select(s => Of(s, kits, judge)),
        ];
        return new MarkedClass(answers, sheets, unmarked, passedOver)
        {
            Kits = kits,
            Scheme = scheme,
            Withdrawn = withdrawn,
            Alike = AlikeSearch.Of(answers, sheets),
        };
    }

    private MarkedSheet Of(AnsweredSheet sheet, IReadOnlyDictionary<int, MarkingKit> kits, QuestionJudge judge)
    {
        List<UnmarkedFile> notRead = [.. unmarked.Where(f => f.Owner == sheet)];
        if (!handed.TryGetValue(sheet.Number, out var files))
        {
            return new MarkedSheet(sheet, [], []) { NotRead = notRead };
        }
        // A form that came back empty beside one that is filled in says nothing.
        var newest = files
            .OrderBy(f => f.Filled.IsEmpty)
            .ThenByDescending(f => f.Time)
            .ThenBy(f => f.Path, StringComparer.Ordinal)
            .ToList();
        var counted = newest[0];
        var others = newest.Skip(1).Where(f => !f.Filled.IsEmpty && f.Print != counted.Print).ToList();
        // Archives keep times to two seconds.
        var isContradicted = others.Exists(f => (counted.Time - f.Time).Duration() < TimeSpan.FromSeconds(3));
        var notes = files.Select(f => f.Note).OfType<Term>().ToList();
        if (others.Count > 0)
        {
            notes.Add(
                isContradicted
                    ? new Term("handed.twice-unknown", ("count", others.Count + 1))
                    : new Term("handed.twice-newest", ("count", others.Count + 1), ("file", counted.Path))
            );
        }
        else if (newest.Count(f => !f.Filled.IsEmpty) > 1)
        {
            notes.Add(new Term("handed.twice-same", ("count", newest.Count(f => !f.Filled.IsEmpty))));
        }
        if (counted.Filled is { IsEmpty: true, Open.Count: 0 })
        {
            notes.Add(new Term("handed.not-filled"));
        }
        return new MarkedSheet(
            sheet,
            [.. newest.Select(f => f.Path)],
            [
                .. sheet
                    .Answers.Where(a => kits.ContainsKey(a.Number))
                    .Select(a => judge.Of(kits[a.Number], a, counted.Filled)),
            ]
        )
        {
            Notes = notes,
            NotRead = notRead,
            IsContradicted = isContradicted,
            Print = counted.Print,
        };
    }
}
