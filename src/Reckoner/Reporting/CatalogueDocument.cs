using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>The catalogue by families; inside one, a machine stands below the one it follows.</summary>
internal static class CatalogueDocument
{
    public static Document Of(IReadOnlyList<(CatalogueEntry Entry, Machine Machine)> machines, Vocabulary words) =>
        new(
            "catalogue",
            words.Language,
            words.Say("list.title"),
            Subtitle: null,
            [
                new Grid(
                    "machines",
                    words.Say("list.title"),
                    [
                        new GridColumn(words.Say("head.family"), ColumnRole.Short, IsGroup: true),
                        new GridColumn(words.Say("head.machine"), ColumnRole.Label),
                        new GridColumn(words.Say("head.title"), ColumnRole.Sentences),
                    ],
                    [
                        .. machines
                            .GroupBy(m => m.Entry.Family)
                            .SelectMany(family => InLineage([.. family]))
                            .Select(m => Row(m.Entry, m.Machine, words)),
                    ]
                )
                {
                    Role = GridRole.Inventory,
                },
            ]
        );

    private static GridRow Row(CatalogueEntry entry, Machine machine, Vocabulary words) =>
        new([
            Cell.Of(Family(entry.Family, words)),
            Cell.Of(entry.Name),
            Cell.Of(machine.Title?.In(words.Language) ?? ""),
        ]);

    /// <summary>A family that has no words of its own yet is called by its folder.</summary>
    internal static string Family(string name, Vocabulary words) =>
        words.Knows($"family.{name}") ? words.Say($"family.{name}") : name.Replace('-', ' ');

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
