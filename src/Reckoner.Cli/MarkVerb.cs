using Reckoner.Classroom;
using Reckoner.Diagnostics;
using Reckoner.Reporting;

namespace Reckoner.Cli;

/// <summary>mark FOLDER: what a class handed in, marked; mark --task LINK CODES: what the codes of a task say.</summary>
internal static class MarkVerb
{
    public static int Run(Session session, Request request) =>
        request[Option.Task] is { } link ? Codes(session, request, link) : MarkFolder.Run(session, request);

    private static int Codes(Session session, Request request, Running.RequestWord link)
    {
        if (request.Operands.Count == 0)
        {
            request.Report.Add(Id.CodesMissing, request.Whole);
            return session.Refuse(request);
        }
        if (TaskLink.Read(link.Text) is not { } task)
        {
            request.Report.Add(Id.TaskLink, link.Span);
            return session.Refuse(request);
        }
        List<string> codes = [.. request.Operands.Select(o => o.Text)];
        return session.Write(
            request,
            CodesDocument.Of(task, codes, session.Words),
            codes.TrueForAll(c => TaskCode.Read(task, c).Sums is not null) ? Exit.Done : Exit.DoesNotHold
        );
    }
}
