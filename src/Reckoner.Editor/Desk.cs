using System.Collections.Immutable;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Questions;
using Reckoner.Words;

namespace Reckoner.Editor;

/// <summary>The texts that are open, and how machines that they name are found: among them, in the same folder, in the catalogue.</summary>
internal sealed class Desk
{
    private const long LargestFile = 2_000_000;
    private const string Ending = ".machine";

    /// <summary>Answers are looked for on other threads while it changes; each sees the texts as they were when it looked.</summary>
    private ImmutableDictionary<string, OpenDocument> open = ImmutableDictionary<string, OpenDocument>.Empty;

    public AskedWidths Width { get; set; } = AskedWidths.Usual;

    public Vocabulary Words { get; set; } = Vocabulary.English;

    public IReadOnlyList<OpenDocument> Open => [.. open.Values];

    public OpenDocument? Find(string uri) => open.GetValueOrDefault(uri);

    public void Put(string uri, int version, string text)
    {
        open = open.SetItem(uri, Document(uri, version, text));
        // Whatever names it is to be read anew, and it too knows only what was there before.
        foreach (var one in open.Values)
        {
            open = open.SetItem(one.Uri, Document(one.Uri, one.Version, one.Source.Text));
        }
    }

    public void Remove(string uri) => open = open.Remove(uri);

    /// <summary>Those whose machines name a machine: open ones, and those of the folder of a document.</summary>
    public IEnumerable<OpenDocument> Beside(OpenDocument document)
    {
        var folder = Folder(document.Uri);
        var files = folder is null || !Directory.Exists(folder) ? [] : Directory.EnumerateFiles(folder, "*" + Ending);
        var texts = open;
        return texts.Values.Concat(
            files
                .Select(f => (Uri: new Uri(f).AbsoluteUri, Path: f))
                .Where(f => !texts.ContainsKey(f.Uri))
                .Select(f => ReadFile(f.Path) is { } text ? Document(f.Uri, 0, text) : null)
                .OfType<OpenDocument>()
        );
    }

    /// <summary>The document of a machine that another names; of the catalogue's a copy that an editor can open.</summary>
    public OpenDocument? Named(OpenDocument from, string name)
    {
        if (Beside(from).FirstOrDefault(d => NameOf(d.Uri) == name) is { } near)
        {
            return near;
        }
        return MachineCatalogue.Find(name) is { } source
            ? Document(new Uri(CatalogueCopy.Of(name, source.Text)).AbsoluteUri, 0, source.Text)
            : null;
    }

    private OpenDocument Document(string uri, int version, string text) =>
        new(uri, version, new Source(Path.GetFileName(PathOf(uri) ?? uri), text), Library(uri), Width);

    private Library Library(string uri)
    {
        // As they are now: reading may happen on another thread, and later.
        var texts = open;
        var folder = Folder(uri);
        return name =>
            texts.Values.FirstOrDefault(d => Folder(d.Uri) == folder && NameOf(d.Uri) == name) is { } near ? near.Source
            : folder is not null && ReadFile(Path.Combine(folder, name + Ending)) is { } text
                ? new Source(name + Ending, text)
            : MachineCatalogue.Find(name);
    }

    private static string NameOf(string uri) => Path.GetFileNameWithoutExtension(PathOf(uri) ?? uri);

    private static string? Folder(string uri) => PathOf(uri) is { } path ? Path.GetDirectoryName(path) : null;

    private static string? PathOf(string uri) =>
        System.Uri.TryCreate(uri, UriKind.Absolute, out var read) && read.IsFile ? read.LocalPath : null;

    private static string? ReadFile(string path)
    {
        try
        {
            return new FileInfo(path) is { Exists: true, Length: > 0 and <= LargestFile }
                ? File.ReadAllText(path)
                : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
