using Reckoner.Classroom;
using Reckoner.Diagnostics;
using Reckoner.Reporting;

namespace Reckoner.Cli;

/// <summary>mark --task LINK CODES: what the codes say that a task of the page ends in.</summary>
internal static class MarkVerb
{
    public static int Run(Session session, Request request)
    {
        if (request[Option.Task] is not { } link || request.Operands.Count == 0)
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
