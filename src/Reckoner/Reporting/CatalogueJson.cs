using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>The catalogue as JSON.</summary>
internal static class CatalogueJson
{
    public static string Of(IReadOnlyList<(CatalogueEntry Entry, Machine Machine)> machines, Vocabulary words) =>
        Json.Document(json =>
            json.Objects(
                "machines",
                machines,
                m =>
                {
                    json.WriteString("machine", m.Entry.Name);
                    json.WriteString("family", m.Entry.Family);
                    json.WriteString("title", m.Machine.Title?.In(words.Language));
                    json.WriteString("follows", m.Machine.Followed?.Name);
                    json.WriteString("description", m.Machine.Hash);
                }
            )
        );
}
