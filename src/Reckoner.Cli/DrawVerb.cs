using System.Globalization;
using System.Text;
using Reckoner.Diagnostics;
using Reckoner.Documents.Lessons;
using Reckoner.Drawing;
using Reckoner.Questions;
using Reckoner.Styles;

namespace Reckoner.Cli;

internal static class DrawVerb
{
    public static int Run(Session session, Request request)
    {
        if (FigureForm.Of(request) is not { } form)
        {
            return session.Refuse(request);
        }
        if (StyleFile.Of(session, request) is not { } house)
        {
            return Exit.Wrong;
        }
        var palette = Asking.Chosen(request, Option.Ground, Palette.All, p => p.Name);
        var text = Asking.Chosen(
            request,
            Option.Text,
            Enum.GetValues<TextForm>(),
            f => f.ToString().ToLowerInvariant()
        );
        return Ask(session, request, house) is { } drawn
            ? Write(session, request, form, drawn.Pages(), palette!, text, drawn.Holds ? Exit.Done : Exit.DoesNotHold)
            : Exit.Wrong;
    }

    /// <summary>The figure that is asked for; null when something is wrong, which has been said.</summary>
    private static DrawnFigure? Ask(
        Session session,
        Request request,
        HouseStyle house,
        IReadOnlyList<AskedOperand>? operands = null
    )
    {
        var question = Asking.Draw(request, house, session.Words);
        return session.Asked(
            request,
            (operands is null || question is null ? question : question with { Operands = operands })?.Ask(
                session.Means
            )
        );
    }

    public static RequestAnswer? Answer(LessonAsking asked) => Answer(asked, null);

    /// <param name="operands">Others than the request's; null for its own.</param>
    public static RequestAnswer? Answer(LessonAsking asked, IReadOnlyList<AskedOperand>? operands) =>
        Ask(asked.Session, asked.Request, asked.Style, operands) is not { } drawn ? null
        : drawn.Figure is { } figure ? new WalkFigure(drawn.View, figure)
        : new StillFigure(drawn.View, drawn.Still);

    private static int Write(
        Session session,
        Request request,
        FigureForm form,
        IEnumerable<IReadOnlyList<Scene>> figures,
        Palette palette,
        TextForm text,
        int done
    )
    {
        var files = form.Files(figures).ToList();
        if (request[Option.Output] is not { } file)
        {
            if (files.Count == 1)
            {
                return session.Write(request, Encoding.UTF8.GetString(form.Write(files[0], palette, text)), done);
            }
            request.Report.Add(Id.OutputMissing, request.View!.Span, ("option", request.View!.Text));
            return session.Refuse(request);
        }
        var written = Files(file.Text, [.. files.Select(f => form.Write(f, palette, text))]);
        return OutputFile.Write(session, request, file, written) ? done : session.Refuse(request);
    }

    /// <summary>One file keeps its name; of several, each has its number before the ending: weave-03.svg.</summary>
    private static List<NewFile> Files(string path, List<byte[]> pages)
    {
        var digits = (pages.Count - 1).ToString(CultureInfo.InvariantCulture).Length;
        return
        [
            .. pages.Select(
                (bytes, i) =>
                    NewFile.Of(
                        pages.Count == 1
                            ? path
                            : Path.Combine(
                                Path.GetDirectoryName(path) ?? "",
                                $"{Path.GetFileNameWithoutExtension(path)}-{i.ToString($"D{digits}", CultureInfo.InvariantCulture)}{Path.GetExtension(path)}"
                            ),
                        bytes
                    )
            ),
        ];
    }
}
