using System.Text;
using Reckoner.Diagnostics;
using Reckoner.Documents;
using Reckoner.Drawing;

namespace Reckoner.Cli;

/// <summary>The form in which figures are written, told by the ending of their file.</summary>
/// <param name="HoldsPages">Whether one file takes several pages; else each page is a file.</param>
internal sealed record FigureForm(
    string Ending,
    bool HoldsPages,
    Func<IReadOnlyList<Scene>, Palette, TextForm, byte[]> Write
)
{
    public static readonly FigureForm Svg = new(
        ".svg",
        HoldsPages: false,
        (pages, palette, text) => Encoding.UTF8.GetBytes(SvgWriter.Write(pages[0], palette, text))
    );

    public static readonly IReadOnlyList<FigureForm> All =
    [
        Svg,
        new(".png", HoldsPages: false, (pages, palette, _) => PngWriter.Write(pages[0], palette)),
        new(".pdf", HoldsPages: true, PdfWriter.Write),
    ];

    /// <summary>One file's content for each of these.</summary>
    public IEnumerable<IReadOnlyList<Scene>> Files(IEnumerable<IReadOnlyList<Scene>> figures) =>
        HoldsPages ? figures : figures.SelectMany(pages => pages).Select(page => (IReadOnlyList<Scene>)[page]);

    /// <summary>Null when the ending is none of ours; the report says so.</summary>
    public static FigureForm? Of(Request request)
    {
        if (request[Option.Output] is not { } file)
        {
            return Svg;
        }
        var ending = Path.GetExtension(file.Text).ToLowerInvariant();
        var form = All.FirstOrDefault(f => f.Ending == ending);
        if (form is null)
        {
            request.Report.Add(
                Id.FigureForm,
                file.Span,
                ("file", file.Text),
                ("endings", All.Select(f => f.Ending).ToList())
            );
        }
        return form;
    }
}
