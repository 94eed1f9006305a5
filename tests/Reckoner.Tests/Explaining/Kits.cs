using System.Collections.Concurrent;
using System.Numerics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Datapaths;
using Reckoner.Explaining;
using Xunit;

namespace Reckoner.Tests.Explaining;

/// <summary>The ways of a machine, made once for all tests that ask about it.</summary>
internal static class Kits
{
    private static readonly Lazy<IReadOnlyList<IMachine>> All = new(() =>
        Machine.ReadAll(MachineCatalogue.Entries.Select(e => (e.Name, e.Source)), MachineCatalogue.Find)
    );

    private static readonly ConcurrentDictionary<(string, int), Ways?> Made = [];

    public static IReadOnlyList<IMachine> Catalogue => All.Value;

    /// <summary>A longer description has so many slips that making its ways takes a quarter of a minute.</summary>
    private const int MostLines = 90;

    /// <summary>The machines of the catalogue that the quick run may ask about.</summary>
    public static IReadOnlyList<string> Names { get; } =
    [.. MachineCatalogue.Entries.Where(e => e.Source.Text.Count(c => c == '\n') <= MostLines).Select(e => e.Name)];

    /// <summary>Making ready takes most of the time of what is asked of every machine: the quick run asks one of three.</summary>
    public static TheoryData<string> Few => [.. Names.Where((_, i) => i % 3 == 0)];

    public static TheoryData<string> Others => [.. Machines.Catalogue.Except(Names.Where((_, i) => i % 3 == 0))];

    /// <summary>At the largest width up to this one.</summary>
    public static Ways? Find(string name, int width = 4) =>
        Made.GetOrAdd(
            (name, width),
            _ =>
            {
                var machine = Machines.Named(name);
                return Ways.Of(
                    Machines.Bound(
                        machine,
                        Machines
                            .Widths(machine, width, 5, 6, 7, 8)
                            .First(w => w >= Math.Min(width, Machines.Range(machine).High))
                    ),
                    Catalogue
                );
            }
        );

    public static Ways At(string name, int width = 4)
    {
        var ways = Find(name, width);
        Assert.NotNull(ways);
        return ways;
    }

    public static ulong[] Operands(Ways ways, params int[] numbers) =>
        [.. ways.Datapath.Operands.Select(o => (ulong)Numbers.Bits.Wrap(numbers[o.Index], o.Width))];

    public static Seen Table(Ways ways, IEnumerable<UInt128> rows) =>
        new(
            [.. rows.Select(r => new SeenRow(r & ways.Layout.Mask, ways.Layout.Mask))],
            [.. ways.Datapath.Results.Select(_ => (BigInteger?)null)]
        );

    public static Seen Results(Ways ways, params int?[] numbers) =>
        new(
            [],
            [
                .. ways.Datapath.Results.Select(
                    (r, i) => numbers[i] is { } n ? Numbers.Bits.Wrap(n, r.Width) : (BigInteger?)null
                ),
            ]
        );
}
