using System.Numerics;
using System.Security.Cryptography;
using System.Text;
using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Documents.Lessons;
using Reckoner.Documents.Packs;
using Reckoner.Questions;
using Reckoner.Reporting;
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

    /// <summary>What each student was drawn, by identifier; empty where all sheets have the same.</summary>
    public IReadOnlyDictionary<string, HandedOperands> Handed { get; init; } = new Dictionary<string, HandedOperands>();

    /// <summary>The class of difficulty that most are of.</summary>
    public EqualClass? Class { get; init; }

    /// <summary>Every slip of the machine, built at its widths, where one is to be told from others.</summary>
    public IReadOnlyList<(Slip Slip, Datapath Datapath)> Slips { get; init; } = [];

    public bool IsDrawn => Question.Drawn is not null;

    /// <summary>Whether another question asks for what its machine does, so that the rule above a table would answer that.</summary>
    public bool IsRuleAsked { get; init; }

    /// <summary>Whether what is asked, and what belongs there, is the same on every sheet.</summary>
    public bool IsForAll => !IsDrawn && Question.Task != QuestionTask.Which;

    /// <summary>All that it asks about, without slips.</summary>
    public required IReadOnlyList<IMachine> Machines { get; init; }

    /// <summary>What tells its allotment from those of other questions.</summary>
    public string Mark => $"{Question.Number} {Right!.Machine.Hash} {Numbers.WidthText.Of(Right.Widths)}";

    /// <summary>Likewise what else is drawn for it.</summary>
    public string LotMark => Right is null ? $"{Question.Number}" : Mark;
}

/// <summary>For whom operands are drawn, and by what.</summary>
/// <param name="Students">Their identifiers, in the order of the list.</param>
internal sealed record SheetDraw(IReadOnlyList<string> Students, SheetSecret Secret)
{
    /// <summary>The operands of sheets that were made before, and are as they were; by identifier.</summary>
    public IReadOnlyDictionary<string, EarlierSheet> Earlier { get; init; } = new Dictionary<string, EarlierSheet>();

    /// <summary>Other sheets, of whose operands nobody is to be drawn any, in whichever question they stand.</summary>
    public IReadOnlyList<EarlierSheet> Avoided { get; init; } = [];

    /// <summary>Whether the lesson may have changed: who has operands that it works out now is drawn others.</summary>
    public bool MayChange { get; init; }
}

/// <summary>Reads the requests of a lesson's questions, and asks them for one sheet after another.</summary>
internal sealed class LessonQuestions(Session session, Lesson lesson, string folder, HouseStyle style, SheetDraw draw)
{
    private readonly RequestDefaults defaults = RequestDefaults.Of(lesson.Header, folder);

    /// <summary>Operands that the lesson shows, by their names.</summary>
    private readonly Lazy<List<IReadOnlyList<(string Name, BigInteger Number)>>> shown = new(() =>
        [.. ShownOperands.Of(lesson, RequestDefaults.Of(lesson.Header, folder))]
    );

    /// <summary>What was drawn for the questions so far: two of one sheet are to be two.</summary>
    private readonly List<PreparedQuestion> drawn = [];

    /// <summary>Null when one is wrong; all that are have been said.</summary>
    public IReadOnlyList<PreparedQuestion>? Prepared()
    {
        var prepared = lesson.Questions.Select(Prepared).ToList();
        if (prepared.Contains(null))
        {
            return null;
        }
        var asked = prepared.OfType<PreparedQuestion>().Where(AsksForRule).SelectMany(p => p.Machines).ToList();
        return
        [
            .. prepared.Select(p => p! with { IsRuleAsked = p.Machines.Any(m => asked.Exists(a => a.Hash == m.Hash)) }),
        ];
    }

    /// <summary>The table of states is the rule, and a line of the description that is to be mended stands in it.</summary>
    private static bool AsksForRule(PreparedQuestion prepared) =>
        prepared.Question.Task switch
        {
            QuestionTask.Fill => prepared.Request.Verb!.Name == "states",
            QuestionTask.Mend => true,
            QuestionTask.Say
            or QuestionTask.Find
            or QuestionTask.Which
            or QuestionTask.Choose
            or QuestionTask.Complete => false,
        };

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
            var machines = ShownOperands.Machines(request).Select(word => MachineFiles.Read(request, word)).ToList();
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

    /// <summary>With the operands of each student; null where they are too few, which has been said.</summary>
    private PreparedQuestion? Pooled(PreparedQuestion made, AskedMachine machine)
    {
        var (question, request) = (made.Question, made.Request);
        var slip = made.Datapath!.Machine.Slip;
        var asked = question.Terms.Showing?.Text;
        var showing =
            slip is null ? asked ?? ""
            : asked is null ? $"slip {slip} is exposed"
            : $"slip {slip} is exposed and ({asked})";
        var answer = new HandOutQuestion(machine, draw.Students, draw.Secret.Bytes)
        {
            Purpose = made.Mark,
            Showing = showing.Length == 0 ? null : showing,
            Allowed = question.Terms.Allowed,
            Earlier = Earlier(made),
            Avoid =
            [
                .. ShownOperands.In(
                    made.Right!,
                    draw.Avoided.SelectMany(e => e.Operands.Values).Concat(shown.Value).Distinct()
                ),
            ],
            Own = draw.Students.ToDictionary(
                s => s,
                s => (IReadOnlyList<IReadOnlyList<BigInteger>>)Own(made.Right!, s)
            ),
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
        if (data.Students is { } handed)
        {
            var pooled = made with { Handed = handed.ToDictionary(h => h.Student), Class = data.Class };
            drawn.Add(pooled);
            return pooled;
        }
        var size = data.Class?.Size ?? 0;
        request.Report.Add(
            data.Left < size ? Id.QuestionTooFewLeft : Id.QuestionTooFew,
            question.Drawn!.Span,
            ("machine", made.Right!.Machine.Name),
            ("count", size),
            ("gone", size - data.Left),
            ("left", data.Left),
            ("wanted", draw.Students.Count)
        );
        session.Refuse(request);
        return null;
    }

    /// <summary>What students have in a question already; those left out whose sheet had others there.</summary>
    private Dictionary<string, IReadOnlyList<BigInteger>> Earlier(PreparedQuestion made)
    {
        var earlier = new Dictionary<string, IReadOnlyList<BigInteger>>();
        var worked = draw.MayChange ? ShownOperands.In(made.Right!, shown.Value).ToList() : [];
        foreach (var (student, sheet) in draw.Earlier)
        {
            if (
                sheet.Operands.TryGetValue(made.Question.Number, out var operands)
                && ShownOperands.In(made.Right!, [operands]).FirstOrDefault() is { } bits
                && !worked.Exists(w => w.SequenceEqual(bits))
            )
            {
                earlier.Add(student, bits);
            }
        }
        return earlier;
    }

    /// <summary>What a student was drawn in other questions of the sheet.</summary>
    private List<IReadOnlyList<BigInteger>> Own(Datapath datapath, string student) =>
        [
            .. ShownOperands.In(
                datapath,
                drawn
                    .Where(d => d.Handed.ContainsKey(student))
                    .Select(d => ShownOperands.Named(d.Right!, d.Handed[student].Chosen.Operands))
            ),
        ];

    private Diagnostic Placed(Diagnostic found, RequestWord? condition, int behind) =>
        condition is not { } word ? found
        : behind > 0 ? found with { Source = lesson.Source, Span = word.Span }
        : found with
        {
            Source = lesson.Source,
            Span = new Span(word.Span.Start + found.Span.Start, word.Span.Start + found.Span.End),
        };

    /// <summary>Those that are the same on every sheet of a form, asked once.</summary>
    private readonly Dictionary<(PreparedQuestion, SheetForm), AskedQuestion?> forAll = [];

    /// <summary>The questions of a sheet; null where one cannot be asked so, which has been said.</summary>
    public IReadOnlyList<AskedQuestion>? Asked(
        IReadOnlyList<PreparedQuestion> prepared,
        string student,
        SheetForm form = SheetForm.Usual
    )
    {
        var asked = new List<AskedQuestion>();
        foreach (var question in prepared)
        {
            if (!forAll.TryGetValue((question, form), out var one))
            {
                var handed = question.Handed.GetValueOrDefault(student);
                one = new QuestionAsking(session, question, form).Asked(
                    handed?.Chosen.Operands,
                    // What else is drawn for a question.
                    draw.Secret.Number("lot", question.LotMark, student)
                );
                if (handed is not null && handed.Class != question.Class && one is not null)
                {
                    one = one with { OtherClass = EqualClassText.Of(handed.Class, session.Words) };
                }
                if (question.IsForAll)
                {
                    forAll.Add((question, form), one);
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
    /// <param name="students">Whom it is drawn for; one without a name for a lesson that is one sheet.</param>
    public static SheetDraw OfText(Lesson lesson, params IReadOnlyList<string> students) =>
        new(students, new SheetSecret(SHA256.HashData(Encoding.UTF8.GetBytes(lesson.Source.Text))));
}
