using System.Security.Cryptography;
using System.Text;
using Reckoner.Choosing;
using Reckoner.Diagnostics;
using Reckoner.Documents.Lessons;
using Reckoner.Documents.Packs;
using Reckoner.Reporting;
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
        foreach (var option in isAsked ? (Option[])[] : [Option.Changed, Option.Again])
        {
            if (request[option] is { } alone)
            {
                request.Report.Add(
                    Id.OptionAlone,
                    alone.Span,
                    ("option", option.Name),
                    ("other", $"{Option.Class.Name} {Option.Class.Example}")
                );
            }
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
        var output = request[Option.Output]!;
        var place = request.Has(Option.Again) ? Path.Combine(output.Text, SheetPack.Again) : output.Text;
        if (
            request.Report.HasErrors
            || Students() is not { } students
            || Firsts(place) is not { } firsts
            || Before(place, out var earlier) is false
            || Laters(place) is not { } laters
        )
        {
            return session.Refuse(request);
        }
        List<string> ids = [.. students.Select(s => s.Identifier)];
        var before = earlier?.Sheets ?? new Dictionary<string, EarlierSheet>();
        var secret = earlier?.Secret ?? new SheetSecret(RandomNumberGenerator.GetBytes(SheetSecret.Length));
        List<EarlierSheet> avoided = [.. firsts.Concat(laters).SelectMany(f => f.Sheets.Values)];
        var draw = new SheetDraw(ids, secret)
        {
            Earlier = before,
            Avoided = avoided,
            MayChange = request.Has(Option.Changed),
        };
        var questions = new LessonQuestions(session, lesson, folder, style, draw);
        if (questions.Prepared() is not { } prepared)
        {
            return session.IsStopped ? session.Stopped() : Exit.Wrong;
        }
        var made = Made(prepared);
        var given = request.Has(Option.Again) ? firsts.Prepend(earlier) : [earlier];
        if (given.Any(e => IsChanged(e, made, place)))
        {
            return session.Refuse(request);
        }
        var numbers = secret.Numbers(
            ids,
            before.ToDictionary(e => e.Key, e => e.Value.Number),
            avoided.Select(a => a.Number)
        );
        var sheets = students.Select(s => new SheetOf(s, numbers[s.Identifier], s.Form)).ToList();
        var all = new SheetsOfClass(
            Enum.GetValues<SheetForm>().ToDictionary(f => f, f => LessonForms.Of(answered, f, style)),
            sheets,
            secret,
            sheet => Asked(questions, prepared, sheet)
        )
        {
            Made = made,
            Left = [.. before.Values.ExceptBy(ids, e => e.Identifier)],
            Key = key,
            Equal = [.. prepared.Where(p => p.Class is not null).Select(p => (p.Question.Number, Equal(p)))],
        };
        List<NewFile> files = [.. SheetPack.Files(all).Select(f => new NewFile(f.Path, f.Write))];
        try
        {
            if (!LessonFolder.Write(session, request, output with { Text = place }, files, replaces: false))
            {
                return session.Refuse(request);
            }
        }
        catch (SheetRefusedException)
        {
            return session.IsStopped ? session.Stopped() : Exit.Wrong;
        }
        RemoveVolumes(place, sheets.Count, before.Count);
        Tell(place, sheets.Count);
        TellOfOthers(place, sheets);
        return Exit.Done;
    }

    private bool isRefused;

    /// <summary>Sheets are made some ahead; what is wrong with one is wrong with them too, and said once.</summary>
    private IReadOnlyList<AskedQuestion>? Asked(
        LessonQuestions questions,
        IReadOnlyList<PreparedQuestion> prepared,
        SheetOf sheet
    )
    {
        var asked =
            session.IsStopped || isRefused ? null : questions.Asked(prepared, sheet.Student.Identifier, sheet.Form);
        isRefused |= asked is null;
        return asked;
    }

    /// <summary>What operands of a question have in common, and what was not looked at in drawing them, over all sheets.</summary>
    private string Equal(PreparedQuestion prepared)
    {
        var words = session.Words;
        var unused = UnusedMeasures.Of(prepared.Right!, prepared.Handed.Values.Select(h => h.Chosen.Operands));
        return $"{EqualClassText.Of(prepared.Class!, words)}. "
            + words.Say(
                "operands.equal-unused",
                ("ones", EqualClassText.Extent(unused.Ones, words)),
                ("changes", EqualClassText.Extent(unused.Changes, words))
            )
            + (
                unused.Longest is { } longest
                    ? $" {words.Say("sheet.class-key-longest", ("longest", EqualClassText.Extent(longest, words)))}"
                    : ""
            );
    }

    /// <summary>
    /// A second sheet lies in a folder within that of the first, a third within that of the second; each is drawn without the operands
    /// of the others. Null where something of those before cannot be read, or there is no first, which has been said.
    /// </summary>
    private List<EarlierSheets>? Firsts(string place)
    {
        var firsts = new List<EarlierSheets>();
        var folder = Path.TrimEndingDirectorySeparator(Path.GetFullPath(place));
        while (
            Path.GetFileName(folder) == SheetPack.Again
            && Path.GetDirectoryName(folder) is { } above
            && (HasSheets(above) || (request.Has(Option.Again) && firsts.Count == 0))
        )
        {
            if (!Before(above, out var earlier))
            {
                return null;
            }
            if (earlier is null)
            {
                request.Report.Add(
                    Id.SheetsNoFirst,
                    request[Option.Again]!.Span,
                    ("folder", request[Option.Output]!.Text)
                );
                return null;
            }
            firsts.Add(earlier);
            folder = above;
        }
        return firsts;
    }

    /// <summary>Those that were drawn after these; null where something of them cannot be read, which has been said.</summary>
    private List<EarlierSheets>? Laters(string place)
    {
        var laters = new List<EarlierSheets>();
        for (
            var folder = Path.Combine(place, SheetPack.Again);
            HasSheets(folder);
            folder = Path.Combine(folder, SheetPack.Again)
        )
        {
            if (!Before(folder, out var later))
            {
                return null;
            }
            laters.Add(later!);
        }
        return laters;
    }

    private static string AnswersOf(string folder) => Path.Combine([folder, .. SheetPack.Answers.Split('/')]);

    /// <summary>Whether sheets lie in a folder, or did.</summary>
    private static bool HasSheets(string folder) => File.Exists(AnswersOf(folder)) || HandedOut(folder).Any();

    /// <summary>Of a class that was larger there are more volumes, which hold sheets once more, or nobody's.</summary>
    private void RemoveVolumes(string place, int now, int before)
    {
        foreach (var volume in Enumerable.Range(0, SheetPack.Volumes(before)).Skip(SheetPack.Volumes(now)))
        {
            foreach (var old in SheetPack.OfVolume(volume).Select(f => Path.Combine([place, .. f.Split('/')])))
            {
                Disk.Try(() => session.Disk.Delete(old));
            }
        }
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
            return [.. Enumerable.Range(1, (int)count).Select(i => new Student($"{i}", "", SheetForm.Usual))];
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
        var students = ClassList.Read(
            source,
            new ClassHeads(
                identifiers,
                Heads(lesson.Header.Name, "sheet.name-heads"),
                Heads(lesson.Header.Form, "sheet.form-heads")
            )
            {
                Named =
                [
                    .. new[] { lesson.Header.Name, lesson.Header.Form }.Where(w => w is not null).Select(w => w!.Text),
                ],
            },
            Enum.GetValues<SheetForm>().ToDictionary(f => f, Spoken),
            report
        );
        key = students is null ? "" : ClassList.Key(source, identifiers);
        request.Report.AddRange(report.InOrder());
        if (lesson.Header.Shows is { Text: "name" or "both" } shows && students?.Any(s => s.Name.Length > 0) == false)
        {
            var line = new Report(lesson.Source);
            line.Add(Id.ClassNoName, shows.Span, ("word", shows.Text), ("file", source.Name));
            request.Report.AddRange(line.InOrder());
            return null;
        }
        return students;
    }

    /// <summary>What a class list calls a form, in every language.</summary>
    private IReadOnlyList<string> Spoken(SheetForm form)
    {
        return
        [
            .. Vocabulary
                .Languages.Select(l => Vocabulary.Of(l)!)
                .Prepend(session.Words)
                .SelectMany(w => Said(w).Split(", "))
                .Distinct(),
        ];

        string Said(Vocabulary words) =>
            form switch
            {
                SheetForm.Usual => words.Say("sheet.form-usual"),
                SheetForm.Large => words.Say("sheet.form-large"),
                SheetForm.Read => words.Say("sheet.form-read"),
            };
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

    /// <summary>False where there is something that cannot be read, which has been said; null for what is not there.</summary>
    private bool Before(string folder, out EarlierSheets? earlier)
    {
        earlier = null;
        var output = request[Option.Output]!;
        var file = AnswersOf(folder);
        if (!File.Exists(file))
        {
            // Sheets of which nobody knows any more what they were drawn by would lie among others of the same names.
            if (!HandedOut(folder).Any())
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

    private bool IsChanged(EarlierSheets? earlier, IReadOnlyList<(string File, string Hash)> made, string place)
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
        request.Report.Add(Id.SheetsChanged, output.Span, ("what", changed[0]), ("folder", place));
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
