using Reckoner.Documents.Lessons;
using Reckoner.Invariants;
using Reckoner.Proving;
using Reckoner.Questions;
using Reckoner.Reporting;

namespace Reckoner.Cli;

/// <summary>prove MACHINE: for every width at once. The certificate goes into the file that -o names.</summary>
internal static class ProveVerb
{
    public const string Certificate = "certificate";

    public static int Run(Session session, Request request)
    {
        if (request.Has(Option.Proposed))
        {
            return Guess(session, request);
        }
        if (Ask(session, request) is not { } report)
        {
            return Exit.Wrong;
        }
        var status =
            report.IsShown ? Exit.Done
            : !report.IsComplete ? Exit.Interrupted
            : Exit.DoesNotHold;
        var text = DocumentText.Of(ProofDocument.Of(report, session.Words), session.Columns);
        if (AskedForm.Of(request) != Certificate)
        {
            return session.Write(request, request.IsJson ? ProofJson.Of(report) : text, status);
        }
        if (report is not { Refusal: null, Certificate: { } certificate })
        {
            // There is nothing that a file could hold; why, the text says.
            session.Tell(text.TrimEnd('\n'));
            return status;
        }
        if (request.Has(Option.Output))
        {
            session.Tell(text.TrimEnd('\n'));
        }
        return session.Write(request, certificate + "\n", status);
    }

    private static int Guess(Session session, Request request)
    {
        if (AskGuess(session, request) is not { } guessed)
        {
            return Exit.Wrong;
        }
        var status = guessed.Kind == GuessKind.Proof ? Exit.Done : Exit.DoesNotHold;
        var text = DocumentText.Of(GuessDocument.Of(guessed, session.Words), session.Columns);
        if (AskedForm.Of(request) != Certificate)
        {
            return session.Write(request, request.IsJson ? GuessJson.Of(guessed) : text, status);
        }
        var certificate = guessed.Proof?.Certificate;
        if (certificate is null || request.Has(Option.Output))
        {
            session.Tell(text.TrimEnd('\n'));
        }
        return certificate is null ? status : session.Write(request, certificate + "\n", status);
    }

    public static RequestAnswer? Answer(LessonAsking asked) =>
        asked.Request.Has(Option.Proposed)
            ? AskGuess(asked.Session, asked.Request) is { } guessed
                ? new ReportAnswer([GuessDocument.Of(guessed, asked.Session.Words)])
                : null
            : Ask(asked.Session, asked.Request) is { } report
                ? new ReportAnswer([ProofDocument.Of(report, asked.Session.Words)])
                : null;

    private static Guessed? AskGuess(Session session, Request request)
    {
        // What holds in every round is asked about every width; at one alone another formula would do.
        Plan.Clash(request, Option.Proposed, [Option.Width]);
        var question =
            Asking.Machine(request) is { } machine && !request.Report.HasErrors
                ? new GuessQuestion(machine, request[Option.Proposed]!.Text)
                : null;
        return session.Asked(request, question?.Ask(session.Means));
    }

    private static ProofReport? Ask(Session session, Request request)
    {
        var question = Asking.Machine(request) is { } machine ? new ProveQuestion(machine) { TriesUsual = true } : null;
        return session.Asked(request, question?.Ask(session.Means));
    }
}
