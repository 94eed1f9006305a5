using Reckoner.Diagnostics;
using Reckoner.Documents.Lessons;
using Reckoner.Documents.Quizzes;
using Reckoner.Sheets;
using Reckoner.Styles;

namespace Reckoner.Cli;

/// <summary>lesson FILE --quiz FORM -o FILE: the questions of a lesson as a bank for a learning platform.</summary>
internal sealed class QuizBuild(Session session, Request request, Lesson lesson, string folder, HouseStyle style)
{
    private static readonly QuizForm[] Forms = Enum.GetValues<QuizForm>();

    public static IEnumerable<string> FormNames => Forms.Select(Word);

    private static string Word(QuizForm form) => form.ToString().ToLowerInvariant();

    public static bool IsAsked(Request request) => request.Has(Option.Quiz);

    /// <summary>Reports what has no meaning beside it.</summary>
    public static void Check(Request request)
    {
        if (!IsAsked(request))
        {
            return;
        }
        Plan.Clash(
            request,
            Option.Quiz,
            [Option.Class, Option.Again, Option.Changed, Option.Refresh, Option.Watch, Option.Port, Option.NoBrowser]
        );
        if (request[Option.Output] is not { } output)
        {
            request.Report.Add(Id.QuizFile, request.Whole);
        }
        else if (request.File is { } file && Path.GetFullPath(file.Text) == Path.GetFullPath(output.Text))
        {
            OutputFile.Refuse(request, output, output.Text, new Term("quiz.is-lesson"));
        }
    }

    public int Run()
    {
        var form = Asking.Chosen(request, Option.Quiz, Forms, Word);
        var copies = Plan.Number(request, Option.Copies, 1, ClassList.Most) ?? 1;
        if (lesson.Questions.Count == 0)
        {
            request.Report.Add(Id.QuizWithoutQuestion, request.File!.Span);
        }
        if (request.Report.HasErrors)
        {
            return session.Refuse(request);
        }
        List<string> names =
        [
            .. Enumerable.Range(1, copies).Select(i => copies == 1 ? "" : FormattableString.Invariant($"{i}")),
        ];
        var draw = LessonQuestions.OfText(lesson, names);
        var questions = new LessonQuestions(session, lesson, folder, style, draw);
        if (questions.Prepared() is not { } prepared || Variants(questions, prepared, names) is not { } variants)
        {
            return session.IsStopped ? session.Stopped() : Exit.Wrong;
        }
        var bank = QuizBank.Of(variants, session.Words);
        if (bank.Items.Count == 0)
        {
            var why = bank.Notes.Select(n => n.Why).Distinct().ToList();
            request.Report.Add(Id.QuizNothing, request.File!.Span, ("why", string.Join(" ", why)));
            return session.Refuse(request);
        }
        var output = request[Option.Output]!;
        var bytes = bank.As(form, session.Words);
        if (!OutputFile.Write(session, request, output, stream => stream.Write(bytes)))
        {
            return session.Refuse(request);
        }
        Tell(output.Text, bank);
        return Exit.Done;
    }

    /// <summary>The questions of each variant: all of the first, of others those with operands of their own.</summary>
    private static List<IReadOnlyList<AskedQuestion>>? Variants(
        LessonQuestions questions,
        IReadOnlyList<PreparedQuestion> prepared,
        IReadOnlyList<string> names
    )
    {
        var variants = new List<IReadOnlyList<AskedQuestion>>();
        foreach (var name in names)
        {
            // Operands that come again would be the same item again.
            var its = prepared.Where(p => p.IsDrawn ? p.Handed[name].Times == 0 : name == names[0]).ToList();
            if (questions.Asked(its, name) is not { } asked)
            {
                return null;
            }
            variants.Add(asked);
        }
        return variants;
    }

    private void Tell(string file, QuizBank bank)
    {
        var words = session.Words;
        session.Tell(
            words.Say(
                "quiz.made",
                ("file", file),
                ("count", bank.Items.Count),
                ("questions", bank.Items.Select(i => i.Question).Distinct().Count()),
                ("known", bank.Items.Sum(i => i.Known.Count))
            )
        );
        foreach (var note in bank.Notes)
        {
            var of = note.Part.Length == 0 ? words.Say("question.head", ("number", note.Question)) : OfPart(note);
            session.Tell(
                "  " + words.Say(note.IsLeftOut ? "quiz.left-out" : "quiz.less", ("what", of), ("why", note.Why))
            );
        }

        string OfPart(QuizNote note) => words.Say("quiz.title", ("number", note.Question), ("part", note.Part));
    }
}
