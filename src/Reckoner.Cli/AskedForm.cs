using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>
/// The form in which a result is written: what --format says, else what the ending of its file says. An ending that nobody knows
/// says nothing.
/// </summary>
internal static class AskedForm
{
    private static readonly (string Ending, string Form)[] Endings =
    [
        (".txt", "text"),
        (".txt", "prose"),
        (".json", "json"),
        (".md", "markdown"),
        (".html", "html"),
        (".htm", "html"),
        (".tex", "latex"),
        (".csv", "csv"),
        (".xlsx", "xlsx"),
        (".proof", ProveVerb.Certificate),
        (".vcd", WalkVerb.Dump),
        (".1", HelpVerb.Manual),
    ];

    /// <summary>The form that --format names or else the ending; null where neither says one.</summary>
    public static string? Of(Request request) =>
        request[Option.Format]?.Text
        ?? (request[Option.Output] is { } file ? FormsOf(EndingOf(file)).FirstOrDefault() : null);

    /// <summary>Reports a form that the verb does not have, and an ending that says another than --format.</summary>
    public static void Check(Request request)
    {
        var known = request.Verb!.Formats;
        if (request[Option.Format] is { } format && !known.Contains(format.Text))
        {
            request.Report.Add(
                Id.OptionValue,
                format.Span,
                ("option", "--format"),
                ("value", format.Text),
                ("known", known),
                ("near", NearNames.Of(format.Text, known))
            );
        }
        else
        {
            CheckFile(request, known);
        }
    }

    /// <summary>Reports a file whose ending says another form than those there are, or than --format.</summary>
    /// <param name="known">None where the verb's files are of forms of their own.</param>
    public static void CheckFile(Request request, IReadOnlyList<string> known)
    {
        if (known.Count > 0 && request[Option.Output] is { } file && Says(EndingOf(file)))
        {
            var forms = FormsOf(EndingOf(file));
            if (request[Option.Format] is { } asked && !forms.Contains(asked.Text))
            {
                request.Report.Add(
                    Id.FormContradicted,
                    file.Span,
                    ("file", file.Text),
                    ("format", asked.Text),
                    ("endings", EndingsOf([asked.Text]))
                );
            }
            else if (!forms.Any(known.Contains))
            {
                request.Report.Add(
                    Id.FormOfFile,
                    file.Span,
                    ("verb", request.Verb!.Name),
                    ("ending", EndingOf(file)),
                    ("endings", EndingsOf(known))
                );
            }
        }
    }

    private static string EndingOf(RequestWord file) => Path.GetExtension(file.Text).ToLowerInvariant();

    private static List<string> FormsOf(string ending) =>
        [.. Endings.Where(e => e.Ending == ending).Select(e => e.Form)];

    private static List<string> EndingsOf(IReadOnlyList<string> forms) =>
        [.. Endings.Where(e => forms.Contains(e.Form)).Select(e => e.Ending).Distinct()];

    /// <summary>Those of figures say something too, and no table is one.</summary>
    private static bool Says(string ending) =>
        Endings.Any(e => e.Ending == ending) || FigureForm.All.Any(f => f.Ending == ending);
}
