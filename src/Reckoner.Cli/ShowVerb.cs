using Reckoner.Diagnostics;
using Reckoner.Measuring;
using Reckoner.Reporting;
using Reckoner.Timelines;

namespace Reckoner.Cli;

internal static class ShowVerb
{
    private static readonly string[] Stages = ["datapath", "timeline"];

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
        if (MachineFiles.Bind(session, request, remarks: false) is not { } datapath)
        {
            return Exit.Wrong;
        }
        var text = request[Option.Dump]?.Text switch
        {
            "datapath" => Dump.Of(datapath),
            "timeline" => Dump.Of(Timeline.Of(datapath)),
            _ => ShowText.Of(
                Hardware.Of(datapath),
                request.Has(Option.Hardware),
                request.IsJson,
                session.Words,
                session.Columns
            ),
        };
        var written = session.Write(request, text);
        if (MachineFiles.IsFile(request.Machine!.Value.Text))
        {
            session.Remark(datapath.Remarks);
        }
        return written;
    }
}
