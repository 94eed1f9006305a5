using System.Numerics;
using System.Security.Cryptography;
using System.Text;
using Reckoner.Diagnostics;
using Reckoner.Documents.Lessons;
using Reckoner.Documents.Packs;
using Reckoner.Running;
using Reckoner.Sheets;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>Makes a sheet for each student of a class, or so many copies, with keys.</summary>
internal sealed class SheetsBuild(
    Session session,
    Request request,
    AnsweredLesson answered,
    string folder,
    HouseStyle style
)
{
    private const long LargestList = 5_000_000;
    private const long LargestAnswers = 500_000_000;

    private readonly Lesson lesson = answered.Lesson;

    /// <summary>The head of the column by which the list tells students apart.</summary>
    private string key = session.Words.Say("sheet.identifier");

    /// <summary>Reports what has no meaning without sheets, or beside them.</summary>
    public static void Check(Request request)
    {
        var isAsked = IsAsked(request);
        if (!isAsked && request[Option.Changed] is { } changed)
        {
            request.Report.Add(
                Id.OptionAlone,
                changed.Span,
                ("option", Option.Changed.Name),
                ("other", $"{Option.Class.Name} {Option.Class.Example}")
            );
        }
        if (isAsked && request[Option.Watch] is { } watch)
        {
            var first = request.Has(Option.Class) ? Option.Class : Option.Copies;
            request.Report.Add(Id.OptionsClash, watch.Span, ("first", first.Name), ("second", Option.Watch.Name));
        }
    }

    public static bool IsAsked(Request request) => request.Has(Option.Class) || request.Has(Option.Copies);

    public int Run()
    {
        if (lesson.Questions.Count == 0)
        {
            request.Report.Add(Id.SheetsWithoutQuestion, request.File!.Span);
        }
        if (request.Report.HasErrors || Students() is not { } students || Before(out var earlier) is false)
        {
            return session.Refuse(request);
        }
        var questions = new LessonQuestions(session, lesson, folder, style, students.Count)
        {
            DrawnFor = earlier?.DrawnFor ?? new Dictionary<int, int>(),
        };
        if (questions.Prepared() is not { } prepared)
        {
            return session.IsStopped ? session.Stopped() : Exit.Wrong;
        }
        var made = Made(prepared);
        if (IsChanged(earlier, made))
        {
            return session.Refuse(request);
        }
        var secret = earlier?.Secret ?? new SheetSecret(RandomNumberGenerator.GetBytes(SheetSecret.Length));
        if (Sheets(students, earlier, secret, questions, prepared) is not { } sheets)
        {
            return session.IsStopped ? session.Stopped() : Exit.Wrong;
        }
        var all = new SheetsOfClass(answered with { Questions = sheets[0].Questions }, sheets, secret)
        {
            Made = made,
            Left = [.. (earlier?.Sheets.Values ?? []).ExceptBy(students.Select(s => s.Identifier), e => e.Identifier)],
            Key = key,
            DrawnFor = prepared.Where(p => p.IsDrawn).ToDictionary(p => p.Question.Number, p => p.DrawnFor),
        };
        var output = request[Option.Output]!;
        if (!LessonFolder.Write(session, request, output, SheetPack.Files(all), replaces: false))
        {
            return session.Refuse(request);
        }
        Tell(output.Text, sheets.Count);
        TellOfOthers(output.Text, sheets);
        return Exit.Done;
    }

    private static List<SheetOf>? Sheets(
        IReadOnlyList<Student> students,
        EarlierSheets? earlier,
        SheetSecret secret,
        LessonQuestions questions,
        IReadOnlyList<PreparedQuestion> prepared
    )
    {
        List<string> ids = [.. students.Select(s => s.Identifier)];
        var before = earlier?.Sheets ?? new Dictionary<string, EarlierSheet>();
        var numbers = secret.Numbers(ids, before.ToDictionary(e => e.Key, e => e.Value.Number));
        var allotted = prepared
            .Where(p => p.IsDrawn)
            .ToDictionary(p => p, p => Allotment.Of(secret, p.Mark, p.Pool.Count, ids, Kept(p, before)));
        var sheets = new List<SheetOf>();
        foreach (var student in students)
        {
            var asked = questions.Asked(
                prepared,
                p => allotted.TryGetValue(p, out var places) ? p.Pool[places[student.Identifier]] : null,
                p => secret.Number("lot", p.LotMark, student.Identifier)
            );
            if (asked is null)
            {
                return null;
            }
            sheets.Add(new SheetOf(student, numbers[student.Identifier], asked));
        }
        return sheets;
    }

    /// <summary>The places of what students were given before, as far as it is still among what is drawn from.</summary>
    private static Dictionary<string, int> Kept(
        PreparedQuestion prepared,
        IReadOnlyDictionary<string, EarlierSheet> before
    )
    {
        var places = prepared.Pool.Select((o, i) => (Key: string.Join(' ', o), i)).ToDictionary(p => p.Key, p => p.i);
        var kept = new Dictionary<string, int>();
        foreach (var (student, sheet) in before)
        {
            if (
                sheet.Operands.TryGetValue(prepared.Question.Number, out var operands)
                && Bits(prepared, operands) is { } bits
                && places.TryGetValue(string.Join(' ', bits), out var place)
            )
            {
                kept.Add(student, place);
            }
        }
        return kept;
    }

    private static List<BigInteger>? Bits(
        PreparedQuestion prepared,
        IReadOnlyList<(string Name, BigInteger Number)> operands
    )
    {
        var bits = new List<BigInteger>();
        foreach (var operand in prepared.Datapath!.Operands)
        {
            if (operands.FirstOrDefault(o => o.Name == operand.Name) is not { Name: not null } found)
            {
                return null;
            }
            bits.Add(Numbers.Bits.Wrap(found.Number, operand.Width));
        }
        return bits;
    }

    // ---- the class

    private IReadOnlyList<Student>? Students() =>
        request[Option.Copies] is { } copies ? Copies(copies) : Listed(request[Option.Class]!);

    private IReadOnlyList<Student>? Copies(RequestWord word)
    {
        if (request[Option.Class] is { } list)
        {
            request.Report.Add(
                Id.OptionsClash,
                list.Span,
                ("first", Option.Copies.Name),
                ("second", Option.Class.Name)
            );
            return null;
        }
        if (OperandReader.Number(word.Text) is { } count && count > 0 && count <= ClassList.Most)
        {
            return [.. Enumerable.Range(1, (int)count).Select(i => new Student($"{i}", ""))];
        }
        Plan.Refuse(request, Option.Copies, word);
        return null;
    }

    private IReadOnlyList<Student>? Listed(RequestWord word)
    {
        if (Read(word.Text, word.Span, LargestList) is not { } bytes)
        {
            return null;
        }
        var source = new Source(Path.GetFileName(word.Text), ListText.Of(bytes));
        var report = new Report(source);
        var identifiers = Heads(lesson.Header.Identifier, "sheet.identifier-heads");
        var students = ClassList.Read(source, identifiers, Heads(lesson.Header.Name, "sheet.name-heads"), report);
        key = students is null ? "" : ClassList.Key(source, identifiers);
        request.Report.AddRange(report.InOrder());
        return students;
    }

    /// <summary>What the lesson says, or the heads that are known, of the session's language first.</summary>
    private List<string> Heads(RequestWord? said, string key) =>
        said is { } word
            ? [word.Text]
            :
            [
                .. Vocabulary
                    .Languages.Select(l => Vocabulary.Of(l)!)
                    .Prepend(session.Words)
                    .SelectMany(w => w.Say(key).Split(", "))
                    .Distinct(),
            ];

    private byte[]? Read(string path, Span place, long largest) => NamedFile.Bytes(request, path, place, largest);

    // ---- what was made before

    /// <summary>The names of the sheets in the folder that is handed out, without their endings; none where there is no such folder.</summary>
    private static IEnumerable<string> HandedOut(string pack)
    {
        var folder = Path.Combine(pack, SheetPack.HandedOut);
        return Directory.Exists(folder)
            ? Directory
                .EnumerateFiles(folder)
                .Select(f => Path.GetFileNameWithoutExtension(f)!)
                .Where(name => SheetNumber.Read(name) is not null)
                .Distinct()
                .Order()
            : [];
    }

    /// <summary>False where there is something that cannot be read, which has been said.</summary>
    private bool Before(out EarlierSheets? earlier)
    {
        earlier = null;
        var output = request[Option.Output]!;
        var file = Path.Combine([output.Text, .. SheetPack.Answers.Split('/')]);
        if (!File.Exists(file))
        {
            // Sheets of which nobody knows any more what they were drawn by would lie among others of the same names.
            if (!HandedOut(output.Text).Any())
            {
                return true;
            }
            request.Report.Add(Id.SheetsUnreadable, output.Span, ("file", file));
            return false;
        }
        if (Read(file, output.Span, LargestAnswers) is not { } bytes)
        {
            return false;
        }
        earlier = EarlierSheets.Read(bytes);
        if (earlier is null)
        {
            request.Report.Add(Id.SheetsUnreadable, output.Span, ("file", file));
        }
        return earlier is not null;
    }

    private List<(string File, string Hash)> Made(IReadOnlyList<PreparedQuestion> prepared)
    {
        var made = new List<(string, string)> { (lesson.Source.Name, Hash(lesson.Source.Text)) };
        if (style.Source is { } source)
        {
            made.Add((source.Name, Hash(source.Text)));
        }
        made.AddRange(prepared.SelectMany(p => p.Machines).Select(m => (m.Name, m.Hash)).Distinct());
        return made;
    }

    private static string Hash(string text) =>
        $"sha256:{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))}";

    private bool IsChanged(EarlierSheets? earlier, IReadOnlyList<(string File, string Hash)> made)
    {
        if (earlier is null || request.Has(Option.Changed))
        {
            return false;
        }
        var changed = made.Except(earlier.Made).Concat(earlier.Made.Except(made)).Select(m => m.File).ToList();
        if (changed.Count == 0)
        {
            return false;
        }
        var output = request[Option.Output]!;
        request.Report.Add(Id.SheetsChanged, output.Span, ("what", changed[0]), ("folder", output.Text));
        return true;
    }

    /// <summary>Sheets of those who are no longer on the list are in no key, and are left where they are.</summary>
    private void TellOfOthers(string folder, IReadOnlyList<SheetOf> sheets)
    {
        var others = HandedOut(folder).Except(sheets.Select(s => s.Number.Plain)).ToList();
        if (others.Count > 0)
        {
            session.Tell(
                session.Words.Say("sheet.others", ("count", others.Count), ("names", string.Join(", ", others.Take(8))))
            );
        }
    }

    private void Tell(string folder, int count)
    {
        var words = session.Words;
        (string Path, string For)[] files =
        [
            ("sheets/sheets.pdf", words.Say("sheet.made-sheets")),
            ("sheets/*.pdf", words.Say("sheet.made-each")),
            ("sheets/*.html", words.Say("sheet.made-page")),
            ("sheets/*.xlsx, *.csv", words.Say("sheet.made-workbook")),
            ("keep/marks-key.pdf", words.Say("sheet.made-marks-key")),
            ("keep/class-key.pdf", words.Say("sheet.made-class-key")),
            ("keep/answers.json", words.Say("sheet.made-answers")),
        ];
        session.Tell(words.Say("sheet.made", ("folder", folder), ("count", count)));
        var wide = files.Max(f => f.Path.Length);
        foreach (var (path, what) in files)
        {
            session.Tell($"  {path.PadRight(wide)}  {what}");
        }
        session.Tell(words.Say("sheet.made-caution"));
    }
}
