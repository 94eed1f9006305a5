using System.Text;
using Reckoner.Diagnostics;
using Reckoner.Documents;
using Reckoner.Documents.Marking;
using Reckoner.Explaining;
using Reckoner.Marking;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Sheets;

namespace Reckoner.Cli;

/// <summary>
/// mark FOLDER --answers FILE, or mark FOLDER MACHINE OPERANDS: what a class handed in, marked with reasons; with -o a folder of
/// marks and pages.
/// </summary>
internal sealed class MarkFolder(Session session, Request request)
{
    private const long LargestAnswers = 500_000_000;
    private const long LargestMarks = 20_000_000;

    private const string Marks = "marks.csv";
    private const string Feedback = "feedback";

    /// <summary>What a later run begins with.</summary>
    private const string Kept = "marked.json";

    private static readonly MarkScheme[] Schemes = Enum.GetValues<MarkScheme>();

    /// <summary>Whether a folder is one that a run wrote.</summary>
    public static bool IsMarks(string folder) =>
        File.Exists(Path.Combine(folder, Kept))
        && File.Exists(Path.Combine(folder, Marks))
        && Directory.Exists(Path.Combine(folder, Feedback));

    public static int Run(Session session, Request request) => new MarkFolder(session, request).Run();

    private int Run()
    {
        if (request.File is not { } folder || (request.Machine is null) == (request[Option.Answers] is null))
        {
            request.Report.Add(Id.MarkMissing, request.Whole);
            return session.Refuse(request);
        }
        var scheme = Asking.Chosen(request, Option.Scheme, Schemes, Word);
        if (!request.Report.HasErrors && !File.Exists(folder.Text) && !Directory.Exists(folder.Text))
        {
            request.Report.Add(Id.NoSuchFile, folder.Span, ("file", folder.Text));
        }
        if (request.Has(Option.Answers))
        {
            // The sheets say which machine it is, and how wide.
            Plan.Clash(request, Option.Answers, [Option.Width, Option.Slip]);
        }
        if (request[Option.Withdrawn] is { } alone && !request.Has(Option.Answers))
        {
            request.Report.Add(
                Id.OptionAlone,
                alone.Span,
                ("option", Option.Withdrawn.Name),
                ("other", $"{Option.Answers.Name} {Option.Answers.Example}")
            );
        }
        CheckKey();
        if (
            request[Option.Output] is { } into
            && AskedForm.Of(request) is null
            && Path.TrimEndingDirectorySeparator(Path.GetFullPath(into.Text))
                == Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder.Text))
        )
        {
            OutputFile.Refuse(request, into, into.Text, new Term("mark.into-handed-in"));
        }
        if (request.Report.HasErrors)
        {
            return session.Refuse(request);
        }
        var marked = request[Option.Answers] is { } answers
            ? OfSheets(folder, answers, scheme)
            : OfTables(folder, scheme);
        if (marked is null)
        {
            return Exit.Wrong;
        }
        // A form, or a file whose ending says one, is of the marks alone.
        return request[Option.Output] is { } output && AskedForm.Of(request) is null
            ? Written(marked, output)
            : Printed(marked);
    }

    /// <summary>What --scheme may be; the first is the usual one.</summary>
    public static IEnumerable<string> SchemeNames => Schemes.Select(Word);

    private static string Word(MarkScheme scheme) =>
        scheme switch
        {
            MarkScheme.FollowThrough => "follow-through",
            MarkScheme.EachTime => "each-time",
            MarkScheme.PerRow => "per-row",
            MarkScheme.PerRegister => "per-register",
            MarkScheme.FirstError => "first-error",
        };

    // ---- what is marked

    /// <summary>Null where something is wrong, which has been said.</summary>
    private MarkedClass? OfSheets(RequestWord folder, RequestWord file, MarkScheme scheme)
    {
        if (
            Answers(file) is not { } answers
            || Withdrawn(answers) is not { } withdrawn
            || !HasKey(answers, out var key)
        )
        {
            session.Refuse(request);
            return null;
        }
        var marking = new ClassMarking(answers);
        marking.Take(HandedFolder.Files(folder.Text, request[Option.Output]?.Text), session.Means.Stop);
        return marking.Marked(scheme, withdrawn, session.Means) with { Key = key };
    }

    /// <summary>A column is one of a class list, and marks have one only of sheets.</summary>
    private void CheckKey()
    {
        if (request[Option.Key] is { } key && !request.Has(Option.Class))
        {
            Plan.Needs(request, key, Option.Key, Option.Class);
        }
        if (request[Option.Class] is { } list && !(request.Has(Option.Key) && request.Has(Option.Answers)))
        {
            Plan.Needs(request, list, Option.Class, request.Has(Option.Key) ? Option.Answers : Option.Key);
        }
    }

    /// <summary>False where a column is asked for that does not tell these students apart, which has been said.</summary>
    private bool HasKey(AnswersOfClass answers, out MarkKey? key)
    {
        key = null;
        if (request[Option.Key] is not { } column || request[Option.Class] is not { } list)
        {
            return true;
        }
        if (NamedFile.Bytes(request, list.Text, list.Span, LargestMarks) is not { } bytes)
        {
            return false;
        }
        var source = new Source(Path.GetFileName(list.Text), ListText.Of(bytes));
        var report = new Report(source);
        var keys = ClassList.Keys(source, answers.Key, column.Text, report);
        request.Report.AddRange(report.InOrder());
        if (keys is null)
        {
            return false;
        }
        if (answers.Sheets.FirstOrDefault(s => !keys.ContainsKey(s.Identifier)) is { } missing)
        {
            request.Report.Add(Id.ClassLacks, list.Span, ("identifier", missing.Identifier), ("file", list.Text));
            return false;
        }
        key = new MarkKey(column.Text, keys);
        return true;
    }

    private AnswersOfClass? Answers(RequestWord file)
    {
        if (NamedFile.Bytes(request, file.Text, file.Span, LargestAnswers) is not { } bytes)
        {
            return null;
        }
        var answers = AnswersReader.Of(bytes);
        if (answers is null)
        {
            request.Report.Add(Id.AnswersUnreadable, file.Span, ("file", file.Text));
        }
        return answers;
    }

    private HashSet<int>? Withdrawn(AnswersOfClass answers)
    {
        var withdrawn = new HashSet<int>();
        if (request[Option.Withdrawn] is { } word)
        {
            var known = answers.Questions.Select(q => q.Number).ToList();
            foreach (var one in word.Text.Split(','))
            {
                if (OperandReader.Number(one.Trim()) is not { } number || !known.Exists(k => k == number))
                {
                    request.Report.Add(
                        Id.NoSuchQuestion,
                        word.Span,
                        ("word", Excerpt.Of(one)),
                        ("known", known.Select(MarkBook.Number).ToList())
                    );
                    return null;
                }
                withdrawn.Add((int)number);
            }
        }
        return withdrawn;
    }

    /// <summary>Likewise.</summary>
    private MarkedClass? OfTables(RequestWord folder, MarkScheme scheme)
    {
        if (session.Asked(request, Asking.Walk(request)?.Ask()) is not { } walk)
        {
            return null;
        }
        var kit = PlainMarking.KitOf(walk.Datapath);
        if (kit.Ways is null)
        {
            request.Report.Add(Id.ExplainingTooWide, request.Whole, ("most", RowLayout.MostBits));
            session.Refuse(request);
            return null;
        }
        return new PlainMarking(kit, walk.Operands, scheme).Marked(
            HandedFolder.Files(folder.Text, request[Option.Output]?.Text),
            session.Words.Language,
            session.Words.Say("mark.file"),
            session.Means.Stop
        );
    }

    // ---- what comes of it

    private int Printed(MarkedClass marked)
    {
        var book = new MarkBook(marked, new Dictionary<(string, string), decimal>());
        return session.Write(request, MarksTable.Document(book, session.Words), Status(book));
    }

    /// <summary>Whether everything that was handed in has a mark.</summary>
    private static int Status(MarkBook book) =>
        book.Class.Unmarked.Count == 0
        && book.Class.Sheets.Where(s => s.IsHandedIn).All(s => book.Final(s, MarkBook.Total) is not null)
            ? Exit.Done
            : Exit.DoesNotHold;

    private int Written(MarkedClass marked, RequestWord output)
    {
        if (Earlier(output) is not { } earlier)
        {
            return session.Refuse(request);
        }
        var words = session.Words;
        var book = new MarkBook(marked, earlier.ByHand);
        var marks = MarksTable.Document(book, words);
        List<(string Path, byte[] Bytes)> pack =
        [
            (Marks, Utf8(Csv.Of(marks))),
            ("marks.xlsx", XlsxWriter.Write(marks)),
            ("changed.csv", Utf8(Csv.Of(MarksTable.Changed(book, earlier, words)))),
            ("class.html", Utf8(ClassPage.Of(book, words))),
            ("teacher.html", Utf8(LookPage.Of(book, words))),
            (Kept, Utf8(EarlierMarks.Json(book, MarksTable.Heads(book, words)))),
            .. marked
                .Sheets.Where(s => s.IsHandedIn)
                .Select(s => ($"{Feedback}/{s.FileName}.html", Utf8(FeedbackPage.Of(book, s, words)))),
        ];
        if (!LessonFolder.Write(session, request, output, pack, replaces: earlier != EarlierMarks.None))
        {
            return session.Refuse(request);
        }
        Tell(output.Text, book);
        return Status(book);
    }

    private static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);

    /// <summary>What a run before left in the folder, with what was changed by hand; null where it cannot be read, which has been said.</summary>
    private EarlierMarks? Earlier(RequestWord output)
    {
        var (kept, marks) = (Path.Combine(output.Text, Kept), Path.Combine(output.Text, Marks));
        if (!File.Exists(kept))
        {
            return EarlierMarks.None;
        }
        if (NamedFile.Bytes(request, kept, output.Span, LargestAnswers) is not { } bytes)
        {
            return null;
        }
        if (EarlierMarks.Read(bytes) is not { } earlier)
        {
            request.Report.Add(Id.AnswersUnreadable, output.Span, ("file", kept));
            return null;
        }
        if (!File.Exists(marks))
        {
            return earlier;
        }
        if (NamedFile.Bytes(request, marks, output.Span, LargestMarks) is not { } table)
        {
            return null;
        }
        var (read, wrong) = earlier.With(ListText.Of(table));
        if (wrong is not null)
        {
            request.Report.Add(Id.MarkByHand, output.Span, ("file", marks), ("line", wrong.Line), ("why", wrong.Why));
            return null;
        }
        return read;
    }

    private void Tell(string folder, MarkBook book)
    {
        var (words, marked) = (session.Words, book.Class);
        var handed = marked.Sheets.Where(s => s.IsHandedIn).ToList();
        session.Tell(
            words.Say(
                "mark.made",
                ("folder", folder),
                ("count", handed.Count),
                ("marked", handed.Count(s => book.Final(s, MarkBook.Total) is not null))
            )
        );
        (string Path, string For)[] files =
        [
            ("marks.csv, .xlsx", words.Say("mark.made-marks")),
            ("feedback/", words.Say("mark.made-feedback")),
            ("class.html", words.Say("mark.made-class")),
            ("teacher.html", words.Say("mark.made-look")),
            ("changed.csv", words.Say("mark.made-changed")),
        ];
        var wide = files.Max(f => f.Path.Length);
        foreach (var (path, what) in files)
        {
            session.Tell($"  {path.PadRight(wide)}  {what}");
        }
        if (Status(book) != Exit.Done)
        {
            session.Tell(
                words.Say(
                    "mark.made-waiting",
                    ("files", marked.Unmarked.Count),
                    ("sheets", handed.Count(s => book.Final(s, MarkBook.Total) is null))
                )
            );
        }
    }
}
