using System.Text;
using Reckoner.Documents.Lessons;
using Reckoner.Hdl;
using Reckoner.Questions;

namespace Reckoner.Cli;

/// <summary>hdl MACHINE: the module to look at, or with -o a folder with it, its bench and what the bench needs.</summary>
internal static class HdlVerb
{
    public static readonly IReadOnlyList<string> Formats =
    [
        .. Enum.GetNames<HdlLanguage>().Select(l => l.ToLowerInvariant()),
    ];

    public static int Run(Session session, Request request)
    {
        if (Ask(session, request) is not { } files)
        {
            return Exit.Wrong;
        }
        if (request[Option.Output] is not { } folder)
        {
            return session.Write(request, files.ModuleText);
        }
        var written = files.All.Select(f => (f.Name, Encoding.UTF8.GetBytes(f.Text))).ToList();
        if (!LessonFolder.Write(session, request, folder, written, replaces: false))
        {
            return session.Refuse(request);
        }
        Tell(session, folder.Text, files);
        return Exit.Done;
    }

    private static void Tell(Session session, string folder, HdlFiles files)
    {
        var vectors = files.Vectors;
        (string File, string Says)[] made =
        [
            (files.Names.Module, session.Words.Say("hdl.made-module")),
            (files.Names.Bench, session.Words.Say("hdl.made-bench")),
            (
                files.Names.Operations,
                session.Words.Say(
                    vectors.IsAll ? "hdl.made-all-operations" : "hdl.made-operations",
                    ("count", vectors.Operations.Count)
                )
            ),
            (files.Names.Edges, session.Words.Say("hdl.made-edges", ("count", vectors.Edges))),
        ];
        session.Tell(session.Words.Say("hdl.made", ("folder", folder)));
        var wide = made.Max(m => m.File.Length);
        foreach (var (file, says) in made)
        {
            session.Tell($"  {file.PadRight(wide)}  {says}");
        }
    }

    public static RequestAnswer? Answer(LessonAsking asked) =>
        Ask(asked.Session, asked.Request) is { } files ? new ReportAnswer([]) { Verbatim = files.ModuleText } : null;

    private static HdlFiles? Ask(Session session, Request request)
    {
        // What is asked for was found among the formats when the request was read.
        var language = request[Option.Format] is { } format
            ? Enum.Parse<HdlLanguage>(format.Text, ignoreCase: true)
            : HdlLanguage.Verilog;
        if (request.Has(Option.AsBuilt))
        {
            Plan.Clash(request, Option.AsBuilt, [Option.LeaveOut]);
            if (language != HdlLanguage.Verilog)
            {
                Asking.RefuseValue(request, Option.Format, request[Option.Format]!, [Formats[0]]);
            }
        }
        else if (request[Option.Adder] is { } alone)
        {
            Plan.Needs(request, alone, Option.Adder, Option.AsBuilt);
        }
        var adders = AdderWords.Read(request);
        var question =
            !request.Report.HasErrors && Asking.Machine(request) is { } machine
                ? new HdlQuestion(machine)
                {
                    Language = language,
                    LeftOut = request[Option.LeaveOut]?.Text,
                    Built = request.Has(Option.AsBuilt) ? adders : null,
                }
                : null;
        return session.Asked(request, question?.Ask(session.Words));
    }
}
