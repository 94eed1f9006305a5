using System.Collections.Concurrent;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Binding;

/// <summary>
/// Each table as it was filled last, with the numbers known then. Hundreds of slips of one machine leave its table as it is, and
/// filling one takes longer than all the rest of the binding.
/// </summary>
internal sealed class FilledTables
{
    /// <summary>By the very sentence: one of the same words elsewhere is another, and is not compared.</summary>
    private readonly ConcurrentDictionary<TableBlock, (string Numbers, Table Table)> known = new(
        ReferenceEqualityComparer.Instance
    );

    /// <summary>The table as it was filled before, or filled now; null, and not kept, where that fails.</summary>
    public Table? Of(TableBlock line, IReadOnlyDictionary<string, Rational> numbers, Func<Table?> fill)
    {
        var told = string.Join(' ', numbers.Select(n => $"{n.Key}={n.Value}"));
        if (known.TryGetValue(line, out var filled) && filled.Numbers == told)
        {
            return filled.Table;
        }
        if (fill() is not { } table)
        {
            return null;
        }
        known[line] = (told, table);
        return table;
    }
}
