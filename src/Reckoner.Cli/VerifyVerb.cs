using Reckoner.Questions;
using Reckoner.Reporting;

namespace Reckoner.Cli;

/// <summary>verify FILE MACHINE: whether a certificate shows what it says it shows.</summary>
internal static class VerifyVerb
{
    public static int Run(Session session, Request request)
    {
        var file = request.File!;
        var machine = Asking.Machine(request);
        var text = machine is null ? null : MachineFiles.ReadText(file.Text, file.Span, request.Report);
        var question = machine is null || text is null ? null : new VerifyQuestion(machine, text);
        if (session.Asked(request, question?.Ask()) is not { } verified)
        {
            return Exit.Wrong;
        }
        return session.Write(
            request,
            request.IsJson
                ? ProofJson.Of(verified)
                : DocumentText.Of(ProofDocument.Of(verified, session.Words), session.Columns),
            verified.Verdict.IsAccepted ? Exit.Done : Exit.DoesNotHold
        );
    }
}
