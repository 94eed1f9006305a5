using Reckoner.Documents.Lessons;
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
        if (!request.Report.HasErrors)
        {
            return request.Verb!.Answer!(new LessonAsking(session, request, style));
        }
        session.Refuse(request);
        return null;
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
            if (WalkVerb.Ask(session, request) is not { } found)
            {
                return null;
            }
            walks[name] = walk = found;
        }
        return walk;
    }
}
