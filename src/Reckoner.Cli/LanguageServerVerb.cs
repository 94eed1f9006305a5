using Reckoner.Editor;

namespace Reckoner.Cli;

/// <summary>Answers an editor on the standard input and output until it leaves.</summary>
internal static class LanguageServerVerb
{
    public static int Run(Session session, Request request)
    {
        if (request.Report.HasErrors)
        {
            return session.Refuse(request);
        }
        using var input = session.Input();
        using var output = Console.OpenStandardOutput();
        var end = Talk.Run(input, output, session.Words, ProductVersion.Number).GetAwaiter().GetResult();
        if (end == TalkEnd.Gone)
        {
            session.Complain(session.Words.Say("editor.gone") + "\n");
        }
        return end switch
        {
            TalkEnd.Done => Exit.Done,
            TalkEnd.Abrupt => Exit.DoesNotHold,
            TalkEnd.Gone => Exit.Wrong,
        };
    }
}
