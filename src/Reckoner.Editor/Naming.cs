using Reckoner.Diagnostics;
using Reckoner.Editing;
using Reckoner.Notation;
using Reckoner.Words;

namespace Reckoner.Editor;

/// <summary>A name over several machines: what it stands for, where it stands, and how it is changed everywhere.</summary>
internal sealed class Naming(Desk desk, OpenDocument document, CancellationToken stop)
{
    private readonly Neighbourhood neighbourhood = new(desk, document, stop);

    /// <summary>Where the thing at a place is declared.</summary>
    public Location? Definition(Position place) =>
        At(place) is { } thing ? LocationOf(thing.Document, thing.Named.Place) : null;

    /// <summary>Every place where the thing at a place is named, in all the machines that share it.</summary>
    public IReadOnlyList<Location> References(Position place, bool withDeclaration) =>
        [
            .. Places(At(place))
                .Where(p => withDeclaration || !p.IsDeclaration)
                .Select(p => LocationOf(p.Document, p.Span))
                .Distinct(),
        ];

    /// <summary>The place of a name that can be changed.</summary>
    public TextRange? Changeable(Position place)
    {
        var position = Editor.Places.At(document.Source, place);
        return document.Mentions.PlaceAt(position) is { } span && At(place) is not null
            ? Editor.Places.Of(document.Source, span)
            : null;
    }

    /// <summary>The changes that give something another name everywhere, or why that cannot be.</summary>
    public (WorkspaceEdit? Edit, string? Refusal) Rename(Position place, string name, Vocabulary words)
    {
        if (At(place) is not { } thing)
        {
            return (null, words.Say("editor.no-name"));
        }
        var things = neighbourhood.Same(thing);
        if (things.Select(t => t.Document).FirstOrDefault(d => CatalogueCopy.Holds(d.Uri)) is { } copy)
        {
            return (
                null,
                words.Say("editor.name-elsewhere", ("name", thing.Named.Name), ("machine", copy.Machine.Name))
            );
        }
        var isMachine = thing.Named.Kind == NamedKind.Machine;
        if (isMachine && neighbourhood.Naming(thing.Document).FirstOrDefault() is { } other)
        {
            // They find it by the name of its file, which stays what it was.
            return (
                null,
                words.Say("editor.machine-named", ("name", thing.Named.Name), ("machine", other.Machine.Name))
            );
        }
        if (!IsName(name, isMachine) || things.Any(t => IsTaken(t, name)))
        {
            return (null, words.Say("editor.name-taken", ("name", Excerpt.Of(HiddenCharacters.Dotted(name)))));
        }
        var edits = Places(thing)
            .DistinctBy(p => (p.Document.Uri, p.Span))
            .GroupBy(p => p.Document.Uri)
            .Select(g =>
                (
                    g.First().Document,
                    (IReadOnlyList<TextEdit>)
                        [.. g.Select(p => new TextEdit(Editor.Places.Of(p.Document.Source, p.Span), name))]
                )
            );
        return (desk.Edit(edits), null);
    }

    /// <summary>Whether the notation reads it as one name and nothing besides.</summary>
    private static bool IsName(string name, bool isMachine)
    {
        var before = isMachine ? "machine " : "";
        var report = new Report(null);
        var (tokens, comments) = Lexer.Read(new Source("", before + name), report);
        return report.Count == 0
            && comments.Count == 0
            && tokens.Count == (isMachine ? 4 : 3)
            && tokens[^3].Kind == TokenKind.Name
            && tokens[^3].Text == name;
    }

    /// <summary>
    /// Whether a name stands for something already where a thing can be named: in its machine, in the core of that, and of what is seen
    /// from outside in the machines that name it or that it names.
    /// </summary>
    private bool IsTaken(Thing thing, string name)
    {
        var mentions = thing.Document.Mentions;
        return mentions.All.Any(n => n.Name == name)
            || mentions.Foreigns.Any(f => f.Name == name && !f.IsFed)
            || neighbourhood.CoreOf(thing.Document)?.Mentions.All.Any(n => n.Name == name && n.IsSeenAround) == true
            || (
                (thing.Named.IsSeenAround || thing.Named.IsSharedWith(isCore: false))
                && neighbourhood.Linked(thing.Document).Any(d => d.Mentions.All.Any(n => n.Name == name))
            );
    }

    private Thing? At(Position place)
    {
        var position = Editor.Places.At(document.Source, place);
        return document.Mentions.At(position) is { } named ? new Thing(document, named)
            : document.Mentions.ForeignAt(position) is { } foreign ? neighbourhood.Meant(foreign)
            : null;
    }

    private readonly record struct SharedPlace(OpenDocument Document, Span Span, bool IsDeclaration);

    private IEnumerable<SharedPlace> Places(Thing? asked)
    {
        if (asked is not { } whole)
        {
            yield break;
        }
        foreach (var thing in neighbourhood.Same(whole))
        {
            foreach (var span in thing.Document.Mentions.Of(thing.Named))
            {
                yield return new SharedPlace(thing.Document, span, span == thing.Named.Place);
            }
            foreach (var other in neighbourhood.Naming(thing.Document))
            {
                var foreigns = other.Mentions.Foreigns.Distinct().Where(f => neighbourhood.Meant(f) == thing);
                foreach (var span in foreigns.SelectMany(other.Mentions.Of))
                {
                    yield return new SharedPlace(other, span, IsDeclaration: false);
                }
            }
        }
    }

    private static Location LocationOf(OpenDocument document, Span span) =>
        new(document.Uri, Editor.Places.Of(document.Source, span));
}
