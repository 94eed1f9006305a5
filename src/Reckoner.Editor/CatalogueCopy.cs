namespace Reckoner.Editor;

/// <summary>Descriptions of the catalogue as files, for editors that go to one: made when that is asked for, gone with the server.</summary>
internal static class CatalogueCopy
{
    private static readonly Lock Writing = new();

    private static readonly Lazy<string> Folder = new(() =>
    {
        var folder = Directory.CreateTempSubdirectory("reckoner-catalogue-").FullName;
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Quietly(() => Directory.Delete(folder, recursive: true));
        return folder;
    });

    /// <summary>The path of the copy; where it cannot be written the editor says that nothing is there.</summary>
    public static string Of(string name, string text)
    {
        lock (Writing)
        {
            var file = Path.Combine(Folder.Value, $"{name}.machine");
            if (!File.Exists(file))
            {
                Quietly(() =>
                {
                    // Somebody may have cleared away what is only temporary.
                    Directory.CreateDirectory(Folder.Value);
                    File.WriteAllText(file, text);
                });
            }
            return file;
        }
    }

    public static bool Holds(string uri) =>
        Folder.IsValueCreated && FilePlace.Folder(FilePlace.Key(uri)) == Folder.Value;

    private static void Quietly(Action write)
    {
        try
        {
            write();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // A full or cleared folder of temporary files is no reason to end.
        }
    }
}
