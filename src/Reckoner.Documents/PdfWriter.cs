using Reckoner.Drawing;

namespace Reckoner.Documents;

/// <summary>Scenes as a PDF, a page for each and each page as large as its scene. Letters can be selected and searched.</summary>
internal static class PdfWriter
{
    public static byte[] Write(IReadOnlyList<Scene> scenes, Palette palette, TextForm textForm = TextForm.Letters)
    {
        using var pages = new PdfPages(scenes[0].Title, scenes[0].Language);
        foreach (var scene in scenes)
        {
            pages.Begin(scene.Width, scene.Height, palette.Of(Role.Ground));
            pages.Figure(scene, scene.Box, palette, textForm);
        }
        return pages.Bytes();
    }
}
