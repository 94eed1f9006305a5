namespace Reckoner.Site;

/// <summary>A page of the site.</summary>
/// <param name="Path">Where it lies, with slashes, from the site's folder.</param>
/// <param name="Body">What stands in it, as HTML.</param>
/// <param name="Sections">What can be found in it: an anchor, a heading, the words below it.</param>
internal sealed record SitePage(string Path, string Title, string Body, IReadOnlyList<SiteSection> Sections)
{
    /// <summary>How another path is written on this page.</summary>
    public string To(string path) => string.Concat(Enumerable.Repeat("../", Path.Count(c => c == '/'))) + path;
}

internal sealed record SiteSection(string Anchor, string Heading, string Words);
