using System.Text;
using Reckoner.Diagnostics;
using Reckoner.Documents.Lessons;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Cli;

internal static class LessonVerb
{
    private const long LargestLesson = 300_000;
    private const long LargestImage = 8_000_000;

    public static int Run(Session session, Request request)
    {
        SheetsBuild.Check(request);
        QuizBuild.Check(request);
        return request.Report.HasErrors ? session.Refuse(request)
            : request.Has(Option.Watch) ? LessonWatch.Run(session, request)
            : Build(session, request, null, _ => { });
    }

    /// <param name="before">The files of the pack that was made just before and is replaced; null where there is none.</param>
    /// <param name="made">Is told the files of the pack, by their paths in it, once they are there.</param>
    public static int Build(
        Session session,
        Request request,
        IReadOnlyCollection<string>? before,
        Action<IReadOnlyList<string>> made
    )
    {
        if (
            request[Option.Output] is null
            && !QuizBuild.IsAsked(request)
            && (request.Has(Option.Watch) || SheetsBuild.IsAsked(request) || !request.Has(Option.Refresh))
        )
        {
            request.Report.Add(Id.PackMissing, request.Whole);
        }
        if (request.Report.HasErrors || Text(request) is not { } original)
        {
            return session.Refuse(request);
        }
        var file = request.File!.Text;
        var (lesson, found) = LessonReader.Read(new Source(Path.GetFileName(file), original.TrimStart(Mark)));
        if (lesson is null)
        {
            return session.Refuse([.. found.Take(1)]);
        }
        if (lesson.Header.Language is { } language && request[Option.Language] is null)
        {
            session.Words = Vocabulary.Of(language.Text)!;
        }
        var folder = Path.GetDirectoryName(Path.GetFullPath(file))!;
        if (LessonStyle.Of(session, request, lesson, folder) is not { } style)
        {
            return Exit.Wrong;
        }
        if (QuizBuild.IsAsked(request))
        {
            return new QuizBuild(session, request, lesson, folder, style).Run();
        }
        var requests = new LessonRequests(session, lesson, folder, style);
        if (
            requests.Answers() is not { } answers
            || Values(session, requests, lesson) is not { } values
            || Images(session, lesson, folder) is not { } images
            || (SheetsBuild.IsAsked(request) ? [] : Asked(session, lesson, folder, style)) is not { } questions
        )
        {
            return session.IsStopped ? session.Stopped() : Exit.Wrong;
        }
        var stale = values.Where(v => !v.Value.IsSaidBy(v.Link.Place.Text)).ToList();
        if (stale.Count > 0 && !request.Has(Option.Refresh))
        {
            return session.Refuse([.. stale.Select(v => Stale(v.Link, v.Value, lesson))]);
        }
        session.Remark(PaperLetters.Missing(lesson.Source));
        var answered = new AnsweredLesson(
            lesson,
            session.Words,
            answers,
            [.. values.Select(v => (v.Link, Said(v), v.IsGiven))],
            images
        )
        {
            Questions = questions,
        };
        if (SheetsBuild.IsAsked(request))
        {
            return new SheetsBuild(session, request, answered, folder, style).Run();
        }
        if (request[Option.Output] is { } output)
        {
            var pack = LessonPack.Files(answered);
            if (!LessonFolder.Write(session, request, output, pack, replaces: before is not null))
            {
                return session.Refuse(request);
            }
            List<string> files = [.. pack.Select(f => f.Path)];
            if (before is null)
            {
                Tell(session, output.Text, files);
            }
            made(files);
        }
        return stale.Count == 0 || Refresh(session, request, lesson, original, stale)
            ? Exit.Done
            : session.Refuse(request);
    }

    /// <summary>Its questions on one sheet for all.</summary>
    private static IReadOnlyList<AskedQuestion>? Asked(Session session, Lesson lesson, string folder, HouseStyle style)
    {
        var questions = new LessonQuestions(session, lesson, folder, style, LessonQuestions.OfText(lesson, ""));
        return questions.Prepared() is { } prepared ? questions.Asked(prepared, "") : null;
    }

    /// <summary>Where the files are and what they are for; the figures are counted.</summary>
    private static void Tell(Session session, string folder, IReadOnlyList<string> files)
    {
        const string Figures = "figures/";
        var named = files
            .Where(f => !f.StartsWith(Figures, StringComparison.Ordinal))
            .Select(f => (Path: f, For: session.Words.Say($"lesson.made-{Path.GetFileNameWithoutExtension(f)}")))
            .ToList();
        var figures = files.Count(f =>
            f.StartsWith(Figures, StringComparison.Ordinal) && f.EndsWith(".svg", StringComparison.Ordinal)
        );
        if (figures > 0)
        {
            named.Add((Figures, session.Words.Say("lesson.made-figures", ("count", figures))));
        }
        session.Tell(session.Words.Say("lesson.made", ("folder", folder)));
        var wide = named.Max(f => f.Path.Length);
        foreach (var (path, what) in named)
        {
            session.Tell($"  {path.PadRight(wide)}  {what}");
        }
    }

    /// <summary>A number stays as the author wrote it as long as it is right.</summary>
    private static string Said((ValueLink Link, LessonValue Value, bool IsGiven) value) =>
        value.Value.IsSaidBy(value.Link.Place.Text) ? value.Link.Place.Text : value.Value.Like(value.Link.Place.Text);

    private const char Mark = '\uFEFF';

    private static string? Text(Request request)
    {
        var file = request.File!;
        var there = new FileInfo(file.Text);
        if (there.Exists && there.Length > LargestLesson)
        {
            request.Report.Add(
                Id.LessonTooLarge,
                file.Span,
                ("file", file.Text),
                ("size", there.Length),
                ("limit", LargestLesson)
            );
            return null;
        }
        return MachineFiles.ReadText(file.Text, file.Span, request.Report);
    }

    private static List<(ValueLink Link, LessonValue Value, bool IsGiven)>? Values(
        Session session,
        LessonRequests requests,
        Lesson lesson
    )
    {
        var values = new List<(ValueLink, LessonValue, bool)>();
        foreach (var link in lesson.Values)
        {
            if (requests.WalkOf(link) is not { } walk)
            {
                return null;
            }
            var report = new Report(lesson.Source);
            if (LessonValue.Of(link.Name, walk, report) is not { } value)
            {
                session.Refuse(report.InOrder());
                return null;
            }
            var (_, name) = LessonValue.Split(link.Name.Text);
            var isGiven =
                walk.Datapath.Operands.Any(o => o.Name == name) || walk.Datapath.Widths.Any(w => w.Name == name);
            values.Add((link, value, isGiven));
        }
        return values;
    }

    private static Diagnostic Stale(ValueLink link, LessonValue value, Lesson lesson) =>
        new(
            Id.ValueStale,
            lesson.Source,
            link.Place.Span,
            [
                ("name", link.Name.Text),
                ("text", link.Place.Text.Length > 0 ? link.Place.Text : new Term("nothing")),
                ("now", value.Like(link.Place.Text)),
            ]
        );

    /// <summary>The bytes of the images, by the paths under which the text names them.</summary>
    private static Dictionary<string, byte[]>? Images(Session session, Lesson lesson, string folder)
    {
        var images = new Dictionary<string, byte[]>();
        var report = new Report(lesson.Source);
        var inside = RequestDefaults.Of(lesson.Header, folder);
        foreach (var (_, file) in lesson.Images.DistinctBy(i => i.File.Text))
        {
            var path = Path.Combine(folder, file.Text);
            if (!LessonImages.IsImage(file.Text) || file.Text.Contains(':', StringComparison.Ordinal))
            {
                report.Add(Id.ImageKind, file.Span, ("file", file.Text), ("endings", LessonImages.Endings));
            }
            else if (!inside.IsInside(file, report)) { }
            else if (!File.Exists(path))
            {
                report.Add(Id.ImageMissing, file.Span, ("file", file.Text));
            }
            else if (new FileInfo(path).Length > LargestImage)
            {
                report.Add(
                    Id.ImageTooLarge,
                    file.Span,
                    ("file", file.Text),
                    ("size", new FileInfo(path).Length),
                    ("limit", LargestImage)
                );
            }
            else if (Bytes(path, file, report) is { } bytes)
            {
                images[file.Text] = bytes;
            }
        }
        if (report.HasErrors)
        {
            session.Refuse(report.InOrder());
            return null;
        }
        return images;
    }

    private static byte[]? Bytes(string path, RequestWord file, Report report)
    {
        object reason = new Term("is-empty");
        try
        {
            if (PlainFile.HasLength(path))
            {
                return File.ReadAllBytes(path);
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            reason = Trouble.Of(e);
        }
        report.Add(Id.FileUnreadable, file.Span, ("file", file.Text), ("reason", reason));
        return null;
    }

    /// <summary>The lesson itself, with its numbers as they are now: written beside it and put in its place.</summary>
    private static bool Refresh(
        Session session,
        Request request,
        Lesson lesson,
        string original,
        IEnumerable<(ValueLink Link, LessonValue Value, bool)> stale
    )
    {
        var file = request.File!;
        var mark = original.StartsWith(Mark) ? Mark.ToString() : "";
        var text =
            mark
            + Refreshing.Of(
                original.TrimStart(Mark),
                lesson.Source,
                stale.Select(v => (v.Link.Place, v.Value.Like(v.Link.Place.Text)))
            );
        return OutputFile.Replace(
            session,
            request,
            file,
            new UTF8Encoding(encoderShouldEmitUTF8Identifier: false).GetBytes(text)
        );
    }
}
