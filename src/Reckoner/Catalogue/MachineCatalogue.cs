namespace Reckoner.Catalogue;

/// <summary>A description of the catalogue. Its family is the folder it lies in.</summary>
public sealed record CatalogueEntry(string Family, string Name, Source Source);

/// <summary>The descriptions that come with the program. A user's own file is worth as much.</summary>
internal static class MachineCatalogue
{
    private const string Prefix = "catalogue/";
    private const string Suffix = ".machine";

    private static readonly Lazy<IReadOnlyList<CatalogueEntry>> Read = new(() => [.. Resources().Select(Entry)]);

    /// <summary>Ordered by family and name.</summary>
    public static IReadOnlyList<CatalogueEntry> Entries => Read.Value;

    public static IEnumerable<string> Names => Resources().Select(Name);

    /// <summary>The text of a machine, or null.</summary>
    public static Source? Find(string name) =>
        Resources().FirstOrDefault(r => Name(r) == name) is { } resource ? Entry(resource).Source : null;

    private static IEnumerable<string> Resources() =>
        typeof(MachineCatalogue)
            .Assembly.GetManifestResourceNames()
            .Where(r => r.StartsWith(Prefix, StringComparison.Ordinal) && r.EndsWith(Suffix, StringComparison.Ordinal))
            .Order(StringComparer.Ordinal);

    private static string Name(string resource) => resource[(resource.LastIndexOf('/') + 1)..^Suffix.Length];

    private static CatalogueEntry Entry(string resource)
    {
        using var reader = new StreamReader(typeof(MachineCatalogue).Assembly.GetManifestResourceStream(resource)!);
        var family = resource[Prefix.Length..resource.LastIndexOf('/')];
        return new CatalogueEntry(family, Name(resource), new Source(Name(resource) + Suffix, reader.ReadToEnd()));
    }
}
