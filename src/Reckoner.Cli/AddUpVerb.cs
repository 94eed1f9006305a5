using System.Numerics;
using System.Text.Json;
using Reckoner.Diagnostics;
using Reckoner.Reporting;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>check --add-up: joins the JSON results of parts, and refuses gaps, overlaps and mixed descriptions.</summary>
internal static class AddUpVerb
{
    public static int Run(Session session, Request request)
    {
        var files = new List<RequestWord>();
        if (request.Machine is { } first)
        {
            files.Add(first);
        }
        files.AddRange(request.Operands);
        if (files.Count == 0)
        {
            request.Report.Add(Id.ResultsMissing, request[Option.AddUp]!.Value.Span);
        }
        var parts = files.Select(f => (File: f, Part: Read(f, request))).ToList();
        if (request.Report.HasErrors || !Agree(parts, request) || !Cover(parts, request))
        {
            return session.Refuse(request);
        }
        var sum = PartResult.Sum([.. parts.Select(p => p.Part!)]);
        var text = request.IsJson ? sum.Json() : sum.Text(session.Words, session.Columns);
        return session.Write(request, text, sum.Holds ? Exit.Done : Exit.DoesNotHold);
    }

    private static PartResult? Read(RequestWord file, Request request)
    {
        if (MachineFiles.ReadText(file.Text, file.Span, request.Report) is not { } text)
        {
            return null;
        }
        try
        {
            using var document = JsonDocument.Parse(text);
            if (PartResult.Read(document.RootElement) is { } part)
            {
                return part;
            }
        }
        catch (JsonException)
        {
            // Said below: whatever it is, it is no result.
        }
        request.Report.Add(Id.NotAResult, file.Span, ("file", file.Text));
        return null;
    }

    private static bool Agree(List<(RequestWord File, PartResult? Part)> parts, Request request)
    {
        var first = parts[0];
        foreach (var (file, part) in parts.Skip(1))
        {
            if (part!.Differs(first.Part!) is { } field)
            {
                request.Report.Add(
                    Id.ResultsDiffer,
                    file.Span,
                    ("file", file.Text),
                    ("first", first.File.Text),
                    ("field", field)
                );
                return false;
            }
        }
        return true;
    }

    private static bool Cover(List<(RequestWord File, PartResult? Part)> parts, Request request)
    {
        BigInteger at = 0;
        var of = parts[0].Part!.Of;
        var before = parts[0].File;
        foreach (var (file, part) in parts.OrderBy(p => p.Part!.From))
        {
            if (part!.From < at)
            {
                request.Report.Add(Id.ResultsOverlap, file.Span, ("file", file.Text), ("other", before.Text));
                return false;
            }
            if (part.From > at)
            {
                request.Report.Add(Id.ResultsGap, request.Whole, ("from", at), ("to", part.From - 1), ("of", of));
                return false;
            }
            (at, before) = (part.To, file);
        }
        if (at < of)
        {
            request.Report.Add(Id.ResultsGap, request.Whole, ("from", at), ("to", of - 1), ("of", of));
            return false;
        }
        return true;
    }
}
