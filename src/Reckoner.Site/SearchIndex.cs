using System.Text;
using System.Text.Json;

namespace Reckoner.Site;

/// <summary>What can be found on which page, as a script: a page that was opened from a folder may read no other file.</summary>
internal sealed class SearchIndex
{
    private readonly List<object> entries = [];

    public void Add(SitePage page)
    {
        foreach (var section in page.Sections)
        {
            var anchor = section.Anchor.Length > 0 ? "#" + section.Anchor : "";
            entries.Add(
                new
                {
                    at = page.Path + anchor,
                    page = page.Title,
                    heading = section.Heading,
                    words = section.Words,
                }
            );
        }
    }

    public string Text =>
        new StringBuilder("const siteIndex = ").Append(JsonSerializer.Serialize(entries)).Append(";\n").ToString();
}
