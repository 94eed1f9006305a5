using Reckoner.Editing;
using Reckoner.Notation;
using Reckoner.Words;

namespace Reckoner.Editor;

/// <summary>A name over several machines: those that name each other by "core" and "follows" share operands and results.</summary>
internal sealed class Naming(Desk desk)
{
    /// <summary>Where the thing at a place is declared.</summary>
    public Location? Definition(OpenDocument document, Position place)
    {
        var position = Places.At(document.Source, place);
        if (document.Mentions.At(position) is { } named)
        {
            return LocationOf(document, named.Place);
        }
        if (
            document.Mentions.ForeignAt(position) is not { } foreign
            || desk.Named(document, foreign.Machine) is not { } other
        )
        {
            return null;
        }
        return Declared(other, foreign.Name) is { } there ? LocationOf(other, there.Place) : null;
    }

    /// <summary>Every place where the thing at a place is named, in all the machines that share it.</summary>
    public IReadOnlyList<Location> References(OpenDocument document, Position place, bool withDeclaration)
    {
        var places = Shared(document, Places.At(document.Source, place)).ToList();
        return
        [
            .. places
                .Where(p => withDeclaration || !p.IsDeclaration)
                .Select(p => LocationOf(p.Document, p.Span))
                .Distinct(),
        ];
    }

    /// <summary>The place of a name that can be changed.</summary>
    public static TextRange? Changeable(OpenDocument document, Position place)
    {
        var position = Places.At(document.Source, place);
        return
            document.Mentions.PlaceAt(position) is { } span
            && (document.Mentions.At(position) is not null || document.Mentions.ForeignAt(position) is not null)
            ? Places.Of(document.Source, span)
            : null;
    }

    /// <summary>The changes that give something another name everywhere, or why that cannot be.</summary>
    public (WorkspaceEdit? Edit, string? Refusal) Rename(
        OpenDocument document,
        Position place,
        string name,
        Vocabulary words
    )
    {
        var position = Places.At(document.Source, place);
        var places = Shared(document, position).ToList();
        if (places.Count == 0)
        {
            return (null, words.Say("editor.no-name"));
        }
        if (places.FirstOrDefault(p => CatalogueCopy.Holds(p.Document.Uri)) is { Document: { } fixedOne })
        {
            var old = document.Source[places[0].Span];
            return (null, words.Say("editor.name-elsewhere", ("name", old), ("machine", fixedOne.Machine.Name)));
        }
        var isMachine = places[0].IsMachine;
        if (
            !IsName(name, isMachine)
            || places.Select(p => p.Document).Distinct().Any(d => d.Mentions.All.Any(n => n.Name == name))
        )
        {
            return (null, words.Say("editor.name-taken", ("name", Excerpt.Of(HiddenCharacters.Dotted(name)))));
        }
        var edits = places
            .GroupBy(p => p.Document)
            .ToDictionary(
                g => g.Key.Uri,
                g =>
                    (IReadOnlyList<TextEdit>)
                        [
                            .. g.Select(p => p.Span)
                                .Distinct()
                                .Select(s => new TextEdit(Places.Of(g.Key.Source, s), name)),
                        ]
            );
        return (new WorkspaceEdit(edits), null);
    }

    private static bool IsName(string name, bool isMachine) =>
        name.Length > 0
        && char.IsLetter(name[0])
        && name.All(c => char.IsLetterOrDigit(c) || c == '_' || (isMachine && c == '-'))
        && !Keywords.All.Contains(name);

    private readonly record struct SharedPlace(OpenDocument Document, Span Span, bool IsDeclaration, bool IsMachine);

    private IEnumerable<SharedPlace> Shared(OpenDocument document, int position)
    {
        var mentions = document.Mentions;
        if (mentions.At(position) is { IsSeenFromOutside: false } own)
        {
            return mentions.Of(own).Select(s => new SharedPlace(document, s, s == own.Place, false));
        }
        var (start, name) =
            mentions.At(position) is { } named ? (document, named.Kind == NamedKind.Machine ? null : named.Name)
            : mentions.ForeignAt(position) is { } foreign ? (desk.Named(document, foreign.Machine), foreign.Name)
            : (null, null);
        return start is null ? [] : Family(start, name).SelectMany(d => In(d.Document, d.Owner, name));
    }

    /// <summary>
    /// The machine itself and those that name it; of an operand or a result all that share it by following each other, with those
    /// that are built around one of them.
    /// </summary>
    private IEnumerable<(OpenDocument Document, string Owner)> Family(OpenDocument start, string? name)
    {
        var owners = new List<OpenDocument> { start };
        if (name is not null)
        {
            for (var i = 0; i < owners.Count && owners.Count < 200; i++)
            {
                var next = Follows(owners[i]) is { } earlier ? desk.Named(owners[i], earlier) : null;
                var found = desk.Beside(start).Where(d => Follows(d) == owners[i].Machine.Name).Append(next);
                owners.AddRange(
                    found
                        .OfType<OpenDocument>()
                        .Where(d => Declared(d, name) is not null && owners.All(o => o.Uri != d.Uri))
                );
            }
        }
        return from owner in owners
            from document in desk.Beside(start).Append(owner).DistinctBy(d => d.Uri)
            select (document, owner.Machine.Name);
    }

    private static IEnumerable<SharedPlace> In(OpenDocument document, string owner, string? name)
    {
        if (document.Machine.Name == owner && Declared(document, name) is { } named)
        {
            return document
                .Mentions.Of(named)
                .Select(s => new SharedPlace(document, s, s == named.Place, name is null));
        }
        return document
            .Mentions.Of(new Foreign(owner, name))
            .Select(s => new SharedPlace(document, s, false, name is null));
    }

    private static string? Follows(OpenDocument document) =>
        document.Machine.Description.Declarations.OfType<FollowsLine>().FirstOrDefault()?.Machine.Text;

    /// <param name="name">Null for the machine itself.</param>
    private static Named? Declared(OpenDocument document, string? name) =>
        document.Mentions.All.FirstOrDefault(n =>
            name is null
                ? n.Kind == NamedKind.Machine
                : n.Name == name && n.Kind is NamedKind.Operand or NamedKind.Result
        );

    private static Location LocationOf(OpenDocument document, Span span) =>
        new(document.Uri, Places.Of(document.Source, span));
}
