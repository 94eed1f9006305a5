using Reckoner.Costing;
using Reckoner.Documents.Lessons;
using Reckoner.Reporting;

namespace Reckoner.Cli;

internal static class CostVerb
{
    public static int Run(Session session, Request request) =>
        Ask(session, request) is not { } costs ? Exit.Wrong
        : request.IsJson ? session.Write(request, CostJson.Of(costs))
        : session.Write(request, CostDocument.Of(costs, session.Words), Exit.Done);

    public static RequestAnswer? Answer(LessonAsking asked) =>
        Ask(asked.Session, asked.Request) is { } costs
            ? new ReportAnswer([CostDocument.Of(costs, asked.Session.Words)])
            : null;

    private static IReadOnlyList<MachineCost>? Ask(Session session, Request request) =>
        ModelFile.Of(session, request) is { } model ? session.Asked(request, Asking.Cost(request, model)?.Ask()) : null;
}
