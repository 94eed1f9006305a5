using Reckoner.Editing;
using Reckoner.Notation;

namespace Reckoner.Editor;

/// <summary>
/// The machines that can name each other, read once for one question: those of a folder and what of the catalogue they name. They find
/// each other by the names of files.
/// </summary>
internal sealed class Neighbourhood(Desk desk, OpenDocument start, CancellationToken stop)
{
    private readonly IReadOnlyList<OpenDocument> near = desk.Beside(start);
    private readonly Dictionary<string, OpenDocument?> ofCatalogue = [];
    private Dictionary<string, OpenDocument>? byName;

    public OpenDocument? Named(string name)
    {
        byName ??= near.DistinctBy(NameOf).ToDictionary(NameOf);
        if (byName.TryGetValue(name, out var found))
        {
            return found;
        }
        if (!ofCatalogue.TryGetValue(name, out var copy))
        {
            ofCatalogue[name] = copy = desk.OfCatalogue(name);
        }
        return copy;
    }

    private static string NameOf(OpenDocument document) => FilePlace.NameOf(FilePlace.Key(document.Uri));

    /// <summary>The machine inside one.</summary>
    public OpenDocument? CoreOf(OpenDocument document) =>
        document.Machine.Description.Declarations.OfType<CoreBlock>().FirstOrDefault() is { } core
            ? Named(core.Machine.Text)
            : null;

    public OpenDocument? FollowedBy(OpenDocument document) =>
        document.Machine.Description.Declarations.OfType<FollowsLine>().FirstOrDefault() is { } line
            ? Named(line.Machine.Text)
            : null;

    /// <summary>Those that name a machine in whatever way.</summary>
    public IEnumerable<OpenDocument> Naming(OpenDocument named) =>
        All.Where(d => CoreOf(d) == named || FollowedBy(d) == named);

    /// <summary>Those that name a machine, and those that it names.</summary>
    public IEnumerable<OpenDocument> Linked(OpenDocument document) =>
        Naming(document).Concat(new[] { CoreOf(document), FollowedBy(document) }.OfType<OpenDocument>()).Distinct();

    /// <summary>What a name of another machine stands for; null where nothing there has it.</summary>
    public Thing? Meant(Foreign foreign) =>
        Named(foreign.Machine) is not { } other ? null
        : other.Mentions.All.FirstOrDefault(foreign.CanBe) is { } named ? new Thing(other, named)
        : null;

    /// <summary>
    /// A thing and what is the same in other machines: of those that name each other widths, and what one that follows another has to
    /// give.
    /// </summary>
    public IReadOnlyList<Thing> Same(Thing thing)
    {
        var all = new List<Thing> { thing };
        for (var i = 0; i < all.Count; i++)
        {
            var (document, named) = all[i];
            var later = Naming(document).Where(d => named.IsSharedWith(isCore: CoreOf(d) == document));
            var earlier = new[] { (Of: CoreOf(document), IsCore: true), (Of: FollowedBy(document), IsCore: false) }
                .Where(e => named.IsSharedWith(e.IsCore))
                .Select(e => e.Of)
                .OfType<OpenDocument>();
            all.AddRange(
                later
                    .Concat(earlier)
                    .SelectMany(d => d.Mentions.All.Where(named.IsSameAs).Select(n => new Thing(d, n)))
                    .Except(all)
                    .ToList()
            );
        }
        return all;
    }

    private IEnumerable<OpenDocument> All
    {
        get
        {
            foreach (var document in near.Concat(ofCatalogue.Values.OfType<OpenDocument>().ToList()))
            {
                stop.ThrowIfCancellationRequested();
                yield return document;
            }
        }
    }
}

/// <summary>Something that a machine names, and whose it is.</summary>
internal readonly record struct Thing(OpenDocument Document, Named Named);
