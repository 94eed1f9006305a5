using Reckoner.Documents.Lessons;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Styles;

namespace Reckoner.Cli;

/// <summary>Answers the requests of a lesson by what the verbs themselves do.</summary>
internal sealed class LessonRequests(Session session, Lesson lesson, string folder, HouseStyle style)
{
    private readonly RequestDefaults defaults = RequestDefaults.Of(lesson.Header, folder);
    private readonly Dictionary<string, Walk> walks = [];

    /// <summary>
    /// Null when something is wrong, or when the session was stopped: a lesson has no half answers. Every request that is wrong
    /// has then been said, so that they can be mended together.
    /// </summary>
    public IReadOnlyList<AnsweredBlock>? Answers()
    {
        var answered = new List<AnsweredBlock>();
        var isWhole = true;
        foreach (var block in lesson.Blocks)
        {
            var answers = new List<RequestAnswer>();
            foreach (var line in block.Lines)
            {
                var answer = Answered(Read(line));
                if (session.IsStopped)
                {
                    return null;
                }
                if (answer is null)
                {
                    isWhole = false;
                    continue;
                }
                answers.Add(answer);
            }
            answered.Add(new AnsweredBlock(block, answers));
        }
        return isWhole ? answered : null;
    }

    private Request Read(Span line) =>
        Request.Read(lesson.Source, line, HeaderReader.Words(new RequestWord(lesson.Source[line], line)), defaults);

    private RequestAnswer? Answered(Request request)
    {
        if (request.Report.HasErrors)
        {
            session.Refuse(request);
            return null;
        }
        switch (request.Verb!.Name)
        {
            case "walk":
                return Walked(request) is { } walk ? Told(walk, request) : null;
            case "draw":
                return DrawVerb.Ask(session, request, style) is { } drawn ? Told(drawn) : null;
            case "compare":
                return session.Asked(request, Asking.Compare(request)?.Ask()) is { } compared
                    ? new CompareAnswer(CompareVerb.Document(compared, style, session.Words))
                    : null;
            case "check":
                return CheckVerb.Ask(session, request, Check(request)) is { } reports
                    ? new CheckAnswer(reports.Checks)
                    : null;
            case "slips":
                return SlipsVerb.Ask(session, request) is { } slips ? new SlipsAnswer(slips) : null;
            case "idle":
                return IdleVerb.Ask(session, request) is { } idle ? new IdleAnswer(idle) : null;
            default:
                throw new InvalidOperationException(request.Verb.Name);
        }
    }

    private Walk? Walked(Request request) => session.Asked(request, Asking.Walk(request)?.Ask());

    /// <summary>Averages speak of lines of the description, which a lesson does not show: they are told where they are asked for.</summary>
    private static CheckQuestion? Check(Request request) =>
        Asking.Check(request) is not { } question ? null
        : request.Has(Option.Averages) ? question
        : question with { Averages = AveragesWish.Never };

    private static FigureAnswer Told(DrawnFigure drawn) =>
        drawn.Figure is { } figure ? new WalkFigure(drawn.View, figure) : new StillFigure(drawn.View, drawn.Still);

    private WalkAnswer? Told(Walk walk, Request request)
    {
        if (Asking.Styled(request, style) is not { } styled)
        {
            session.Refuse(request);
            return null;
        }
        var (document, found) = WalkDocument.Of(walk, styled, session.Words, oneByOne: false);
        if (document is null)
        {
            session.Refuse(found);
            return null;
        }
        return new WalkAnswer(walk, document);
    }

    /// <summary>The walk that a linked number speaks of: the lesson's own, or that of the machine named in front of it.</summary>
    public Walk? WalkOf(ValueLink link)
    {
        var machine = LessonValue.Split(link.Name.Text).Machine;
        var name = machine ?? "";
        if (!walks.TryGetValue(name, out var walk))
        {
            var named = machine is null ? (RequestWord?)null : new RequestWord(machine, link.Name.Span);
            var request = Request.Of("walk", named, lesson.Source, link.Name.Span, defaults);
            if (request.Report.HasErrors)
            {
                session.Refuse(request);
                return null;
            }
            if (Walked(request) is not { } found)
            {
                return null;
            }
            walks[name] = walk = found;
        }
        return walk;
    }
}
