using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;
using Reckoner.Drawing;

namespace Reckoner.Documents;

/// <summary>
/// A tagged PDF under construction: what stands in it is told to a screen reader in the order in which it is drawn. The same
/// content gives the same bytes, so no date and no chance enters.
/// </summary>
internal sealed class PdfPages : IDisposable
{
    /// <summary>A document must say when it was made; ours are made of their content alone.</summary>
    private static readonly DateTime Always = new(2000, 1, 1, 0, 0, 0, DateTimeKind.Utc);

    private readonly PdfDocument document = new();
    private readonly UAManager access;
    private XGraphics? page;

    /// <summary>Points of a unit on the page.</summary>
    private double unit = PdfCanvas.PointsPerUnit;

    public PdfPages(string title, string language)
    {
        PdfFonts.Install();
        document.Info.Title = title;
        document.Info.Creator = "Reckoner";
        document.Info.CreationDate = Always;
        document.Info.ModificationDate = Always;
        document.ViewerPreferences.DisplayDocTitle = true;
        access = UAManager.ForDocument(document);
        access.SetDocumentLanguage(language);
    }

    public StructureBuilder Structure => access.StructureBuilder;

    public XGraphics Page => page ?? throw new InvalidOperationException("no page was begun");

    public int Count => document.PageCount;

    /// <summary>A page of a paper.</summary>
    public XGraphics Begin(Paper paper, Colour ground) => Begin(paper.Width, paper.Height, ground, paper.Larger);

    /// <summary>A page of a size in the units of scenes, painted with its ground; what is drawn from now on stands there.</summary>
    public XGraphics Begin(double width, double height, Colour ground, double larger = 1)
    {
        unit = larger * PdfCanvas.PointsPerUnit;
        // An element may go on from page to page: what it has drawn so far is closed on the old one first.
        var sheet = document.AddPage();
        page?.Dispose();
        sheet.Width = XUnit.FromPoint(width * unit);
        sheet.Height = XUnit.FromPoint(height * unit);
        page = XGraphics.FromPdfPage(sheet);
        page.ScaleTransform(unit);
        Structure.BeginArtifact();
        page.DrawRectangle(new XSolidBrush(PdfCanvas.Of(ground)), 0, 0, width, height);
        Structure.End();
        return page;
    }

    /// <summary>Draws a figure; those who cannot see it hear its title and description.</summary>
    /// <param name="place">Where it stands on the page; as high as its width asks for.</param>
    public void Figure(Scene scene, Box place, Palette palette, TextForm textForm)
    {
        Structure.BeginElement(PdfIllustrationElementTag.Figure, $"{scene.Title}. {scene.Description}", Bounds(place));
        var state = Page.Save();
        Page.TranslateTransform(place.Left, place.Top);
        Page.ScaleTransform(place.Width / scene.Width);
        PdfCanvas.Draw(Page, scene, palette, textForm);
        Page.Restore(state);
        Structure.End();
    }

    /// <summary>What is drawn until the structure ends is a formula, which is heard as said.</summary>
    public void BeginFormula(string said, Box place) =>
        Structure.BeginElement(PdfIllustrationElementTag.Formula, said, Bounds(place));

    /// <param name="file">A PNG or JPEG file.</param>
    public void Image(byte[] file, string alternative, Box place)
    {
        using var stream = new MemoryStream(file, 0, file.Length, writable: false, publiclyVisible: true);
        using var image = XImage.FromStream(stream);
        Structure.BeginElement(PdfIllustrationElementTag.Figure, alternative, Bounds(place));
        Page.DrawImage(image, place.Left, place.Top, place.Width, place.Height);
        Structure.End();
    }

    private XRect Bounds(Box place) =>
        new(place.Left * unit, place.Top * unit, place.Width * unit, place.Height * unit);

    public byte[] Bytes()
    {
        page?.Dispose();
        page = null;
        using var stream = new MemoryStream();
        document.Save(stream, closeStream: false);
        var bytes = PdfStreams.Completed(stream.ToArray());
        PdfChance.Remove(bytes);
        return bytes;
    }

    public void Dispose()
    {
        page?.Dispose();
        document.Dispose();
    }
}
