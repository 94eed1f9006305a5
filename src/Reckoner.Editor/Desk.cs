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

    private ImmutableDictionary<string, OpenDocument> open = ImmutableDictionary<string, OpenDocument>.Empty;

    /// <summary>The texts alone: what documents hold of each other, so that no old one is kept by a newer.</summary>
    private ImmutableDictionary<string, Source> texts = ImmutableDictionary<string, Source>.Empty;

    public AskedWidths Width { get; set; } = AskedWidths.Usual;

    public Vocabulary Words { get; set; } = Vocabulary.English;

    /// <summary>Whether the editor compares versions before it changes a text.</summary>
    public bool TakesVersions { get; set; }

    public IReadOnlyList<OpenDocument> Open => [.. open.Values];

    /// <summary>One that stays as this is now: answers are looked for on other threads while it changes.</summary>
    public Desk AsNow() =>
        new()
        {
            open = open,
            texts = texts,
            Width = Width,
            Words = Words,
            TakesVersions = TakesVersions,
        };

    /// <summary>Changes as the editor takes them: where it can, each says for which version of its text it is.</summary>
    public WorkspaceEdit Edit(IEnumerable<(OpenDocument Document, IReadOnlyList<TextEdit> Edits)> changes) =>
        TakesVersions
            ? new(
                DocumentChanges:
                [
                    .. changes.Select(c => new DocumentEdit(
                        new VersionedDocument(c.Document.Uri, Find(c.Document.Uri)?.Version),
                        c.Edits
                    )),
                ]
            )
            : new(Changes: changes.ToDictionary(c => c.Document.Uri, c => c.Edits));

    public OpenDocument? Find(string uri) => open.GetValueOrDefault(FilePlace.Key(uri));

    public void Put(string uri, int version, string text)
    {
        var key = FilePlace.Key(uri);
        var source = new Source(Path.GetFileName(key), text);
        texts = texts.SetItem(key, source);
        open = open.SetItem(key, Document(uri, version, source));
        Renew(key);
    }

    public void Remove(string uri)
    {
        var key = FilePlace.Key(uri);
        (open, texts) = (open.Remove(key), texts.Remove(key));
        Renew(key);
    }

    /// <summary>Those that may name the machine of a text that changed are to be read anew.</summary>
    private void Renew(string changed)
    {
        foreach (var (key, one) in open)
        {
            if (key != changed && FilePlace.Folder(key) == FilePlace.Folder(changed))
            {
                open = open.SetItem(key, Document(one.Uri, one.Version, one.Source));
            }
        }
    }

    /// <summary>Those that can name a machine: open ones, and those of the folder of a document, which is among them.</summary>
    public IReadOnlyList<OpenDocument> Beside(OpenDocument document)
    {
        var folder = FilePlace.Folder(FilePlace.Key(document.Uri));
        var near = open.Where(o => FilePlace.Folder(o.Key) == folder).Select(o => o.Value);
        var files = Files(folder).Where(f => !open.ContainsKey(f)).Select(OfFile);
        return [.. near.Concat(files.OfType<OpenDocument>())];
    }

    /// <summary>By what name those beside a document are found; none of them is read for that.</summary>
    public IReadOnlyList<string> NamesBeside(OpenDocument document)
    {
        var own = FilePlace.Key(document.Uri);
        return FilePlace.Folder(own) is { } folder
            ?
            [
                .. open
                    .Keys.Where(k => FilePlace.Folder(k) == folder)
                    .Concat(Files(folder))
                    .Where(k => k != own)
                    .Select(FilePlace.NameOf)
                    .Distinct(),
            ]
            : [];
    }

    /// <summary>A machine of the catalogue as a copy that an editor can open.</summary>
    public OpenDocument? OfCatalogue(string name) =>
        MachineCatalogue.Find(name) is { } source
            ? Document(new Uri(CatalogueCopy.Of(name, source.Text)).AbsoluteUri, 0, source)
            : null;

    private OpenDocument? OfFile(string path) =>
        ReadFile(path) is { } text
            ? Document(new Uri(path).AbsoluteUri, 0, new Source(Path.GetFileName(path), text))
            : null;

    private OpenDocument Document(string uri, int version, Source source) =>
        new(uri, version, source, Library(FilePlace.Key(uri)), Width);

    private Library Library(string key)
    {
        // As they are now: reading may happen on another thread, and later.
        var now = texts;
        var folder = FilePlace.Folder(key);
        return name =>
            folder is null ? MachineCatalogue.Find(name)
            : now.GetValueOrDefault(Path.Combine(folder, name + Ending)) is { } near ? near
            : ReadFile(Path.Combine(folder, name + Ending)) is { } text ? new Source(name + Ending, text)
            : MachineCatalogue.Find(name);
    }

    private static IReadOnlyList<string> Files(string? folder)
    {
        try
        {
            return folder is null || !Directory.Exists(folder) ? [] : Directory.GetFiles(folder, "*" + Ending);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }

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
