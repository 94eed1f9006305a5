using System.Numerics;
using System.Text.Json;
using Reckoner.Diagnostics;
using Reckoner.Reporting;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>check --add-up: joins the JSON results of parts, and refuses gaps, overlaps and mixed descriptions.</summary>
internal static class AddUpVerb
{
    /// <summary>What the parts were asked for stands in their results.</summary>
    private static readonly IReadOnlyList<Option> OfParts =
    [
        Option.Width,
        Option.Only,
        Option.On,
        Option.Sample,
        Option.Seed,
        Option.Part,
        Option.MostParts,
        Option.Resume,
        Option.Averages,
        Option.Written,
        Option.Slip,
    ];

    public static int Run(Session session, Request request)
    {
        Plan.Clash(request, Option.AddUp, OfParts);
        if (request.Report.HasErrors)
        {
            return session.Refuse(request);
        }
        var files = new List<RequestWord>();
        if (request.Machine is { } first)
        {
            files.Add(first);
        }
        files.AddRange(request.Operands);
        if (files.Count == 0)
        {
            request.Report.Add(Id.ResultsMissing, request[Option.AddUp]!.Span);
        }
        var parts = files.Select(f => new Part(f, Read(f, request) ?? [])).ToList();
        if (request.Report.HasErrors || !Agree(parts, request))
        {
            return session.Refuse(request);
        }
        var sums = new List<PartResult>();
        for (var width = 0; width < parts[0].Results.Count; width++)
        {
            var here = parts.Select(p => (p.File, Result: p.Results[width])).ToList();
            if (!Cover(here, request))
            {
                return session.Refuse(request);
            }
            sums.Add(PartSum.Of([.. here.Select(p => p.Result)]));
        }
        var text = request.IsJson
            ? PartJson.Of(sums, sums.Count > 1)
            : DocumentText.Of(sums.Select(s => PartDocument.Of(s, session.Words)), session.Columns);
        return session.Write(request, text, sums.TrueForAll(s => s.Holds) ? Exit.Done : Exit.DoesNotHold);
    }

    /// <summary>A file and its results, one for each width.</summary>
    private sealed record Part(RequestWord File, IReadOnlyList<PartResult> Results);

    private static IReadOnlyList<PartResult>? Read(RequestWord file, Request request)
    {
        if (MachineFiles.ReadText(file.Text, file.Span, request.Report) is not { } text)
        {
            return null;
        }
        try
        {
            using var document = JsonDocument.Parse(text);
            if (JsonReading.OtherFormat(document.RootElement) is { } format)
            {
                request.Report.Add(
                    Id.ResultsFormat,
                    file.Span,
                    ("file", file.Text),
                    ("format", format),
                    ("known", PartReader.Format)
                );
                return null;
            }
            if (PartReader.Read(document.RootElement) is { } results)
            {
                return results;
            }
        }
        catch (JsonException)
        {
            // Said below: whatever it is, it is no result.
        }
        request.Report.Add(Id.NotAResult, file.Span, ("file", file.Text));
        return null;
    }

    private static bool Agree(List<Part> parts, Request request)
    {
        var first = parts[0];
        foreach (var part in parts.Skip(1))
        {
            if (Differs(part.Results, first.Results) is { } field)
            {
                request.Report.Add(
                    Id.ResultsDiffer,
                    part.File.Span,
                    ("file", part.File.Text),
                    ("first", first.File.Text),
                    ("field", field)
                );
                return false;
            }
        }
        return true;
    }

    private static string? Differs(IReadOnlyList<PartResult> results, IReadOnlyList<PartResult> first) =>
        results.Zip(first, (r, f) => r.Differs(f)).FirstOrDefault(field => field is not null)
        ?? (results.Count == first.Count ? null : "width");

    private static bool Cover(List<(RequestWord File, PartResult Result)> parts, Request request)
    {
        BigInteger at = 0;
        var of = parts[0].Result.Of;
        var before = parts[0].File;
        foreach (var (file, part) in parts.OrderBy(p => (p.Result.From, p.Result.To)))
        {
            if (part.From < at)
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
