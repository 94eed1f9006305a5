using Reckoner.Diagnostics;
using Reckoner.Running;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>completions SHELL: the script for a shell; with --line the words with which a line may go on, which the script asks for.</summary>
internal static class CompletionsVerb
{
    /// <summary>Scripts are text, whatever ending their file has that says nothing else.</summary>
    private static readonly string[] Forms = ["text"];

    public static int Run(Session session, Request request)
    {
        AskedForm.CheckFile(request, Forms);
        if (request.Report.HasErrors)
        {
            return session.Refuse(request);
        }
        var names = ShellScript.All.Select(s => s.Name).ToList();
        if (request.Topic is null && request[Option.Line] is { } bare)
        {
            return Answer(session, request, bare, ShellScript.All[0]);
        }
        if (request.Topic is not { } named)
        {
            return session.Write(request, string.Concat(ShellScript.All.Select(s => Where(s, session.Words))));
        }
        if (ShellScript.All.FirstOrDefault(s => s.Name == named.Text) is not { } shell)
        {
            request.Report.Add(
                Id.OptionValue,
                named.Span,
                ("option", request.Verb!.Name),
                ("value", named.Text),
                ("known", names),
                ("near", NearNames.Of(named.Text, names))
            );
            return session.Refuse(request);
        }
        return request[Option.Line] is { } line
            ? Answer(session, request, line, shell)
            : session.Write(request, shell.Text);
    }

    private static int Answer(Session session, Request request, RequestWord line, ShellScript shell)
    {
        var found = Completing.Of(line.Text, session.Words);
        return session.Write(request, string.Concat(found.Select(c => Written(c, shell))));
    }

    private static string Where(ShellScript shell, Vocabulary words) =>
        $"{words.Say("completions.where", ("shell", shell.Name), ("file", shell.File))}\n   {shell.Line}\n";

    /// <summary>A word, and behind a tab what it is; nothing that would end the line.</summary>
    private static string Written(Candidate candidate, ShellScript shell) =>
        shell.IsTold && candidate.Said.Length > 0
            ? $"{candidate.Text}\t{HiddenCharacters.Dotted(candidate.Said).ReplaceLineEndings(" ").Replace('\t', ' ')}\n"
            : candidate.Text + "\n";
}
