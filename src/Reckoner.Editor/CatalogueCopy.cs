namespace Reckoner.Editor;

/// <summary>Descriptions of the catalogue as files, for editors that go to one: made when that is asked for, gone with the server.</summary>
internal static class CatalogueCopy
{
    private static readonly Lazy<string> Folder = new(() =>
    {
        var folder = Directory.CreateTempSubdirectory("reckoner-catalogue-").FullName;
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Directory.Delete(folder, recursive: true);
        return folder;
    });

    /// <summary>The path of the copy.</summary>
    public static string Of(string name, string text)
    {
        var file = Path.Combine(Folder.Value, $"{name}.machine");
        if (!File.Exists(file))
        {
            File.WriteAllText(file, text);
        }
        return file;
    }

    public static bool Holds(string uri) =>
        Folder.IsValueCreated && uri.StartsWith(new Uri(Folder.Value).AbsoluteUri, StringComparison.Ordinal);
}
