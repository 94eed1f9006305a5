using System.Text;
using Reckoner.Diagnostics;
using Reckoner.Drawing;

namespace Reckoner.Cli;

/// <summary>The form in which figures are written, told by the ending of their file.</summary>
internal sealed record FigureForm(string Ending, Func<Scene, Palette, TextForm, byte[]> Write)
{
    public static readonly FigureForm Svg = new(
        ".svg",
        (scene, palette, text) => Encoding.UTF8.GetBytes(SvgWriter.Write(scene, palette, text))
    );

    public static readonly IReadOnlyList<FigureForm> All = [Svg];

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
