using Reckoner.Diagnostics;
using Reckoner.Documents.Lessons;
using Reckoner.Notation;
using Reckoner.Questions;
using Reckoner.Refining;
using Reckoner.Reporting;

namespace Reckoner.Cli;

/// <summary>refine MACHINE: what could be saved; with --take the description of one version.</summary>
internal static class RefineVerb
{
    public static int Run(Session session, Request request)
    {
        if (request.Machines.Count != 1)
        {
            return Lead(session, request);
        }
        if (Ask(session, request) is not { } refined)
        {
            return Exit.Wrong;
        }
        if (Taken(request, refined) is not { } shown)
        {
            return session.Refuse(request);
        }
        var status = refined.IsComplete ? Exit.Done : Exit.Interrupted;
        return request.IsJson ? session.Write(request, RefineJson.Of(shown, session.Words), status)
            : IsDescription(request) ? session.Write(request, Text(shown), status)
            : session.Write(request, RefineDocument.Of(shown, session.Words), status);
    }

    /// <summary>refine MACHINE MACHINE: the steps that lead from the one to the other.</summary>
    private static int Lead(Session session, Request request)
    {
        if (AskLead(session, request) is not { } led)
        {
            return Exit.Wrong;
        }
        var status =
            led.IsFound ? Exit.Done
            : !led.IsComplete ? Exit.Interrupted
            : Exit.DoesNotHold;
        return request.IsJson
            ? session.Write(request, LedJson.Of(led, session.Words), status)
            : session.Write(request, LedDocument.Of(led, session.Words), status);
    }

    private static Led? AskLead(Session session, Request request) =>
        session.Asked(request, Asking.Lead(request, session.Words)?.Ask(session.Means));

    public static RequestAnswer? Answer(LessonAsking asked)
    {
        if (asked.Request.Machines.Count != 1)
        {
            return AskLead(asked.Session, asked.Request) is { } led
                ? new ReportAnswer([LedDocument.Of(led, asked.Session.Words)])
                : null;
        }
        if (Ask(asked.Session, asked.Request) is not { } refined)
        {
            return null;
        }
        if (Taken(asked.Request, refined) is not { } shown)
        {
            asked.Session.Refuse(asked.Request);
            return null;
        }
        return IsDescription(asked.Request)
            ? new ReportAnswer([]) { Verbatim = Text(shown) }
            : new ReportAnswer([RefineDocument.Of(shown, asked.Session.Words)]);
    }

    /// <summary>Whether the version that is taken is written as what it is: a description, which is read again.</summary>
    private static bool IsDescription(Request request) =>
        request.Has(Option.Take) && (AskedForm.Of(request) ?? "text") == "text";

    private static string Text(Refined refined) => Printer.Text(refined.Proposals[0].Datapath.Machine.Description);

    /// <summary>With one version alone, where one is taken; null, with the reason in the report, where there is none of its number.</summary>
    private static Refined? Taken(Request request, Refined refined)
    {
        if (request[Option.Take] is not { } word || Number(request) is not { } number)
        {
            return refined;
        }
        if (refined.Only(number) is { } only)
        {
            return only;
        }
        request.Report.Add(
            Id.RefineNoProposal,
            word.Span,
            ("machine", refined.Datapath.Machine.Name),
            ("number", number),
            ("count", refined.Proposals.Count)
        );
        return null;
    }

    private static int? Number(Request request) => Plan.Number(request, Option.Take, 1, RefineQuestion.MostProposals);

    private static Refined? Ask(Session session, Request request)
    {
        _ = Number(request);
        return session.Asked(request, Asking.Refine(request, session.Words)?.Ask(session.Means));
    }
}
