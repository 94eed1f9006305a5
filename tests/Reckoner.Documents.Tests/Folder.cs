namespace Reckoner.Documents.Tests;

/// <summary>A folder for what one test writes.</summary>
internal sealed class Folder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("reckoner-documents-").FullName;

    public string Write(string name, byte[] bytes)
    {
        File.WriteAllBytes(System.IO.Path.Combine(Path, name), bytes);
        return name;
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
