using System.Numerics;
using Reckoner.Checking;
using Reckoner.Diagnostics;
using Reckoner.Reporting;

namespace Reckoner.Cli;

internal static class IdleVerb
{
    /// <summary>Every cycle asks as much as a check for each register bit, so the limit is lower than there.</summary>
    private const int MostCaseBits = 22;

    public static int Run(Session session, Request request)
    {
        var (datapath, status) = MachineFiles.Bind(session, request, remarks: true);
        if (datapath is null)
        {
            return status;
        }
        var bits = datapath.Operands.Sum(o => o.Width);
        if (bits > MostCaseBits)
        {
            var widths = string.Join(", ", datapath.Widths.Select(w => $"{w.Name} = {w.Value}"));
            request.Report.Add(
                Id.IdleTooWide,
                request[Option.Width]?.Span ?? request.Whole,
                ("cases", BigInteger.One << bits),
                ("widths", widths),
                ("limit", BigInteger.One << MostCaseBits)
            );
            return session.Refuse(request);
        }
        var rows = Idle.Of(datapath, InterpretedEngine.Widest);
        var text = request.IsJson
            ? IdleText.Json(datapath, rows)
            : IdleText.Of(datapath, rows, session.Words, session.Columns);
        return session.Write(request, text);
    }
}
