using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Text;
using Reckoner.Diagnostics;
using Reckoner.Host;

namespace Reckoner.Cli;

/// <summary>Serves the page to this machine's browser, or writes it as one file.</summary>
internal static class OpenVerb
{
    private const string FolderVariable = "RECKONER_PAGE";

    public static int Run(Session session, Request request)
    {
        var port = Port(request);
        if (request.Report.HasErrors)
        {
            return session.Refuse(request);
        }
        if (Folder() is not { } folder)
        {
            request.Report.Add(Id.PageMissing, request.Whole);
            return session.Refuse(request);
        }
        if (request[Option.Output] is { } file)
        {
            var bytes = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false).GetBytes(SingleFile.Of(folder));
            return OutputFile.Write(session, request, file, [NewFile.Of(file.Text, bytes)])
                ? Exit.Done
                : session.Refuse(request);
        }
        try
        {
            session.UntilStopped(stop =>
                PageHost.Run(folder, port, address => Opened(session, request, address), stop)
            );
            return Exit.Done;
        }
        catch (IOException e)
        {
            return Taken(session, request, e);
        }
    }

    /// <summary>Says that the port cannot be had.</summary>
    public static int Taken(Session session, Request request, IOException e)
    {
        var place = request[Option.Port]?.Span ?? request.Whole;
        request.Report.Add(
            Id.PortTaken,
            place,
            ("port", request[Option.Port]?.Text ?? ""),
            ("reason", e.Message.TrimEnd('.'))
        );
        return session.Refuse(request);
    }

    /// <summary>A port that was not asked for is any that is free.</summary>
    public static int Port(Request request)
    {
        if (request[Option.Port] is not { } word)
        {
            return 0;
        }
        if (
            int.TryParse(word.Text, NumberStyles.None, CultureInfo.InvariantCulture, out var port)
            && port is > 0 and <= 65535
        )
        {
            return port;
        }
        Plan.Refuse(request, Option.Port, word);
        return 0;
    }

    /// <summary>Beside the program, or where the start from the sources has built it.</summary>
    private static string? Folder() =>
        new[] { Environment.GetEnvironmentVariable(FolderVariable), Path.Combine(AppContext.BaseDirectory, "page") }
            .OfType<string>()
            .FirstOrDefault(f => File.Exists(Path.Combine(f, "index.html")));

    public static void Opened(Session session, Request request, string address)
    {
        session.Tell(session.Words.Say("open.serving", ("address", address)));
        if (request.Has(Option.NoBrowser))
        {
            return;
        }
        try
        {
            Process.Start(new ProcessStartInfo(address) { UseShellExecute = true })?.Dispose();
        }
        catch (Win32Exception)
        {
            // The address has been said; it can be opened by hand.
        }
    }
}
