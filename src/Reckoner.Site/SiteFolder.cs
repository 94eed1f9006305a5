using System.Text;

namespace Reckoner.Site;

/// <summary>The folder that the site is written into. Paths have slashes and begin at the folder.</summary>
internal sealed class SiteFolder(string folder)
{
    public void Write(string path, string text)
    {
        var file = At(path);
        File.WriteAllText(file, text, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false));
    }

    public void Copy(string from, string path) => File.Copy(from, At(path), overwrite: true);

    private string At(string path)
    {
        var file = Path.Combine(folder, path);
        Directory.CreateDirectory(Path.GetDirectoryName(file)!);
        return file;
    }
}
