using Reckoner.Diagnostics;
using Reckoner.Documents.Lessons;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>What the requests of a lesson need not repeat, and what they may ask for.</summary>
/// <param name="Folder">The lesson's own; nothing outside it is read.</param>
internal sealed record RequestDefaults(
    string Folder,
    RequestWord? Machine,
    RequestWord? Width,
    IReadOnlyList<RequestWord> Operands,
    IReadOnlyList<Verb> Verbs
)
{
    /// <summary>Options about files and forms, which the lesson decides, and those that make no sense in it.</summary>
    private static readonly Option[] NotAsked =
    [
        Option.Format,
        Option.Style,
        Option.Ground,
        Option.Text,
        Option.OneByOne,
        Option.On,
        Option.Part,
        Option.MostParts,
        Option.Resume,
        Option.AddUp,
        Option.Dump,
        Option.Table,
        Option.Model,
    ];

    public static RequestDefaults Of(LessonHeader header, string folder) =>
        new(
            folder,
            header.Machine,
            header.Width,
            header.Operands,
            [
                .. Verb
                    .All.Where(v => v.Answer is not null)
                    .Concat(PaperRequests.All)
                    .Select(v => v with { Own = [.. v.Own.Except(NotAsked)], Shared = [] }),
            ]
        );

    /// <summary>Whether a file that a request names lies in the lesson's folder, also behind links; else a report says so.</summary>
    public bool IsInside(RequestWord file, Report report)
    {
        if (IsInside(file.Text))
        {
            return true;
        }
        report.Add(Id.FileOutside, file.Span, ("file", file.Text));
        return false;
    }

    private bool IsInside(string file)
    {
        var parts = file.Split('/', '\\');
        if (Path.IsPathRooted(file) || parts.Contains("..") || parts[0].EndsWith(':'))
        {
            return false;
        }
        var path = Folder;
        foreach (var part in parts)
        {
            path = Path.Combine(path, part);
            if (new FileInfo(path).LinkTarget is not null)
            {
                return false;
            }
        }
        return true;
    }
}
