using System.Numerics;
using System.Security.Cryptography;
using System.Text;
using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Documents.Lessons;
using Reckoner.Questions;
using Reckoner.Running;
using Reckoner.Sheets;
using Reckoner.Slips;
using Reckoner.Styles;

namespace Reckoner.Cli;

/// <summary>A question whose request was read; what it asks may differ from sheet to sheet.</summary>
/// <param name="Datapath">What is walked or drawn, with its slip; null where the request is of several machines.</param>
internal sealed record PreparedQuestion(LessonQuestion Question, Request Request, HouseStyle Style, Datapath? Datapath)
{
    /// <summary>The same without the slip.</summary>
    public Datapath? Right { get; init; }

    /// <summary>What is drawn from, for each operand its bits; empty where all sheets have the same.</summary>
    public IReadOnlyList<IReadOnlyList<BigInteger>> Pool { get; init; } = [];

    /// <summary>Every slip of the machine, built at its widths, where one is to be told from others.</summary>
    public IReadOnlyList<(Slip Slip, Datapath Datapath)> Slips { get; init; } = [];

    /// <summary>For how many sheets the class that it is drawn from was asked to have enough.</summary>
    public int DrawnFor { get; init; }

    public bool IsDrawn => Question.Drawn is not null;

    /// <summary>Whether what is asked, and what belongs there, is the same on every sheet.</summary>
    public bool IsForAll => !IsDrawn && Question.Task != QuestionTask.Which;

    /// <summary>All that it asks about, without slips.</summary>
    public required IReadOnlyList<IMachine> Machines { get; init; }

    /// <summary>What tells its allotment from those of other questions.</summary>
    public string Mark => $"{Question.Number} {Right!.Machine.Hash} {Numbers.WidthText.Of(Right.Widths)}";

    /// <summary>Likewise what else is drawn for it.</summary>
    public string LotMark => Right is null ? $"{Question.Number}" : Mark;
}

/// <summary>Reads the requests of a lesson's questions, and asks them for one sheet after another.</summary>
/// <param name="sheets">For so many each draw must have different operands.</param>
internal sealed class LessonQuestions(Session session, Lesson lesson, string folder, HouseStyle style, int sheets)
{
    /// <summary>
    /// For how many sheets a question was drawn before, by its number: a class that had enough then is taken again, so that who
    /// comes later gets operands as difficult.
    /// </summary>
    public IReadOnlyDictionary<int, int> DrawnFor { get; init; } = new Dictionary<int, int>();

    /// <summary>So many more than there are students, in hundredths, where a class has so many: for those who come later.</summary>
    private const int Spare = 125;

    private readonly RequestDefaults defaults = RequestDefaults.Of(lesson.Header, folder);

    /// <summary>Null when one is wrong; all that are have been said.</summary>
    public IReadOnlyList<PreparedQuestion>? Prepared()
    {
        var prepared = lesson.Questions.Select(Prepared).ToList();
        return prepared.Contains(null) ? null : [.. prepared.Select(p => p!)];
    }

    private PreparedQuestion? Prepared(LessonQuestion question)
    {
        var request = Request.Read(lesson.Source, question.Line, question.Request, defaults);
        if (request.Report.HasErrors)
        {
            session.Refuse(request);
            return null;
        }
        if (Asking.Styled(request, style) is not { } styled)
        {
            session.Refuse(request);
            return null;
        }
        if (
            request.Verb!.Name is "compare" or "states" or "operands"
            || (request.Verb.TakesView && request.View is null)
        )
        {
            var machines = request.Machines.Select(word => MachineFiles.Read(request, word)).ToList();
            if (machines.Contains(null))
            {
                session.Refuse(request);
                return null;
            }
            return new PreparedQuestion(question, request, styled, null) { Machines = [.. machines.Select(m => m!)] };
        }
        if (Asking.Machine(request) is not { } machine)
        {
            session.Refuse(request);
            return null;
        }
        if (NeedsSlip(question.Task) && machine.Slip is null)
        {
            request.Report.Add(Id.QuestionSlip, question.Line, ("task", QuestionReader.Word(question.Task)));
            session.Refuse(request);
            return null;
        }
        if (session.Asked(request, machine.Bind()) is not { } datapath)
        {
            return null;
        }
        var right = datapath.Machine.Right?.Built(datapath.Widths.ToDictionary(w => w.Name, w => w.Value)) ?? datapath;
        var made = new PreparedQuestion(question, request, styled, datapath)
        {
            Machines = [right.Machine],
            Right = right,
            Slips = question.Task == QuestionTask.Which ? SlipStudy.Built(right) : [],
        };
        return question.Drawn is null ? made : Pooled(made, new AskedMachine(right));
    }

    private static bool NeedsSlip(QuestionTask task) =>
        task switch
        {
            QuestionTask.Find or QuestionTask.Which or QuestionTask.Mend => true,
            QuestionTask.Fill or QuestionTask.Say or QuestionTask.Choose or QuestionTask.Complete => false,
        };

    /// <summary>With the operands that it is drawn from; null where they are too few, which has been said.</summary>
    private PreparedQuestion? Pooled(PreparedQuestion made, AskedMachine machine)
    {
        var (question, request) = (made.Question, made.Request);
        var slip = made.Datapath!.Machine.Slip;
        var asked = question.Terms.Showing?.Text;
        var showing =
            slip is null ? asked ?? ""
            : asked is null ? $"slip {slip} is exposed"
            : $"slip {slip} is exposed and ({asked})";
        List<int> counts = DrawnFor.TryGetValue(question.Number, out var before)
            ? [before]
            : [.. new[] { (sheets * Spare + 99) / 100, sheets }.Distinct()];
        OperandsFound? found = null;
        foreach (var count in counts)
        {
            var answer = new OperandsQuestion(machine, ChosenFor.EqualDifficulty)
            {
                Count = count,
                Showing = showing.Length == 0 ? null : showing,
                // Not before there are too few even without any to spare.
                Allowed = EqualAllowed.Nothing with
                {
                    Repeats = question.Terms.MayRepeat && count == counts[^1],
                },
            }.Ask(session.Means);
            if (answer.Data is not { } data)
            {
                // The condition stands on a line of its own, which a request has no place for.
                session.Refuse([
                    .. answer
                        .Refusals.Take(1)
                        .Select(f =>
                            f.Part == AskedPart.Showing
                                ? Placed(f.Diagnostic, question.Terms.Showing, slip is null ? 0 : showing.Length)
                                : Placing.Placed(f, request)
                        ),
                ]);
                return null;
            }
            found = data;
            if (data.Chosen.Count > 0 && (data.Pool.Count >= sheets || question.Terms.MayRepeat))
            {
                return made with { Pool = data.Pool, DrawnFor = count };
            }
        }
        request.Report.Add(
            // The machine may have more of another difficulty, which those who are there already did not get.
            DrawnFor.ContainsKey(question.Number)
                ? Id.QuestionGrown
                : Id.QuestionTooFew,
            question.Drawn!.Span,
            ("machine", made.Right!.Machine.Name),
            ("count", found?.Pool.Count ?? 0),
            ("wanted", sheets)
        );
        session.Refuse(request);
        return null;
    }

    private Diagnostic Placed(Diagnostic found, RequestWord? condition, int behind) =>
        condition is not { } word ? found
        : behind > 0 ? found with { Source = lesson.Source, Span = word.Span }
        : found with
        {
            Source = lesson.Source,
            Span = new Span(word.Span.Start + found.Span.Start, word.Span.Start + found.Span.End),
        };

    /// <summary>Those that are the same on every sheet, asked once.</summary>
    private readonly Dictionary<PreparedQuestion, AskedQuestion?> forAll = [];

    /// <summary>The questions of a sheet; null where one cannot be asked so, which has been said.</summary>
    /// <param name="operands">The bits of those that a question draws; null for its request's own.</param>
    /// <param name="lot">What else is drawn for a question comes from this number.</param>
    public IReadOnlyList<AskedQuestion>? Asked(
        IReadOnlyList<PreparedQuestion> prepared,
        Func<PreparedQuestion, IReadOnlyList<BigInteger>?> operands,
        Func<PreparedQuestion, ulong> lot
    )
    {
        var asked = new List<AskedQuestion>();
        foreach (var question in prepared)
        {
            if (!forAll.TryGetValue(question, out var one))
            {
                one = new QuestionAsking(session, question).Asked(operands(question), lot(question));
                if (question.IsForAll)
                {
                    forAll.Add(question, one);
                }
            }
            if (one is null)
            {
                return null;
            }
            asked.Add(one);
        }
        return asked;
    }

    /// <summary>What is drawn where there is no class is drawn by the lesson's text, so that it stays the same until that is changed.</summary>
    public static SheetSecret SecretOf(Lesson lesson) =>
        new(SHA256.HashData(Encoding.UTF8.GetBytes(lesson.Source.Text)));

    /// <summary>What a lesson without a class asks: it is one sheet for all, so nothing of it is a secret.</summary>
    public IReadOnlyList<AskedQuestion>? Asked(IReadOnlyList<PreparedQuestion> prepared)
    {
        var secret = SecretOf(lesson);
        return Asked(
            prepared,
            q => q.IsDrawn ? q.Pool[(int)(secret.Number("one", q.Mark) % (ulong)q.Pool.Count)] : null,
            q => secret.Number("lot", q.LotMark)
        );
    }
}
