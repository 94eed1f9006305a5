using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Documents.Lessons;
using Reckoner.Notation;
using Reckoner.Reporting;
using Reckoner.Timelines;

namespace Reckoner.Cli;

internal static class ShowVerb
{
    public static readonly string[] Stages = ["datapath", "timeline"];

    public static int Run(Session session, Request request)
    {
        if (request[Option.Dump] is { } stage && !Stages.Contains(stage.Text))
        {
            request.Report.Add(
                Id.OptionValue,
                stage.Span,
                ("option", "--dump"),
                ("value", stage.Text),
                ("known", Stages),
                ("near", NearNames.Of(stage.Text, Stages))
            );
            return session.Refuse(request);
        }
        if (Text(session, request) is not var (datapath, text))
        {
            return Exit.Wrong;
        }
        var written = session.Write(request, text);
        if (MachineFiles.IsFile(request.Machine!.Text))
        {
            session.Remark(datapath.Remarks);
        }
        return written;
    }

    public static RequestAnswer? Answer(LessonAsking asked) =>
        asked.Session.Asked(asked.Request, Asking.Hardware(asked.Request)?.Ask()) is not { } hardware ? null
        : asked.Request.Has(Option.Hardware) ? new ReportAnswer([HardwareDocument.Of(hardware, asked.Session.Words)])
        : new ReportAnswer([]) { Verbatim = Printer.Text(hardware.Datapath.Machine.Description) };

    /// <summary>Null when something is wrong; it has been said.</summary>
    private static (Datapath, string)? Text(Session session, Request request)
    {
        if (request[Option.Dump] is { } stage)
        {
            return MachineFiles.Bind(session, request, remarks: false) is { } datapath
                ? (datapath, stage.Text == Stages[0] ? Dump.Of(datapath) : Dump.Of(Timeline.Of(datapath)))
                : null;
        }
        return session.Asked(request, Asking.Hardware(request)?.Ask(), remarks: false) is { } hardware
            ? (
                hardware.Datapath,
                ShowText.Of(hardware, request.Has(Option.Hardware), request.IsJson, session.Words, session.Columns)
            )
            : null;
    }
}
