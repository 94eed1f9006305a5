using System.Text;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>The catalogue by families; inside one, a machine stands below the one it follows.</summary>
public static class CatalogueText
{
    public static string Of(
        IReadOnlyList<(CatalogueEntry Entry, Machine Machine)> machines,
        Vocabulary words,
        int columns
    )
    {
        var text = new StringBuilder();
        var width = machines.Max(m => m.Entry.Name.Length) + 2;
        foreach (var family in machines.GroupBy(m => m.Entry.Family))
        {
            text.Append(family.Key.Replace('-', ' ')).Append('\n');
            foreach (var (entry, machine) in InLineage([.. family]))
            {
                var lead = "   " + entry.Name.PadRight(width);
                var title = machine.Title?.In(words.Language) ?? "";
                foreach (var line in Wrapping.Lines(title, Math.Max(20, columns - lead.Length)).DefaultIfEmpty(""))
                {
                    text.Append((lead + line).TrimEnd()).Append('\n');
                    lead = new string(' ', lead.Length);
                }
            }
            text.Append('\n');
        }
        return text.ToString();
    }

    public static string Json(IReadOnlyList<(CatalogueEntry Entry, Machine Machine)> machines, Vocabulary words) =>
        Reporting.Json.Document(json =>
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

    private static IEnumerable<(CatalogueEntry Entry, Machine Machine)> InLineage(
        IReadOnlyList<(CatalogueEntry Entry, Machine Machine)> family
    )
    {
        IEnumerable<(CatalogueEntry, Machine)> Below(string? name) =>
            family.Where(m => Earlier(m.Machine) == name).SelectMany(m => Below(m.Entry.Name).Prepend(m));

        string? Earlier(Machine machine) =>
            family.Any(m => m.Entry.Name == machine.Followed?.Name) ? machine.Followed!.Name : null;
        return Below(null);
    }
}
