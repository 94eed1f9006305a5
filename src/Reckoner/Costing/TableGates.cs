using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;

namespace Reckoner.Costing;

/// <summary>
/// The gates of a table: for each bit of it choices by the bits of its address, the lowest first; halves that are the same are chosen
/// once, and what does not depend on a bit is not chosen by it.
/// </summary>
internal sealed class TableGates
{
    /// <summary>Tables of more cells are not made of gates.</summary>
    public const int MostCells = 1 << 14;

    private readonly GateNet net = new();

    /// <summary>What is wrong with a machine of which a table is larger; null where all can be made of gates.</summary>
    public static Diagnostic? Refusal(Datapath datapath) =>
        datapath.Tables.FirstOrDefault(t => t.Cells.Count > MostCells) is { } table
            ? new Diagnostic(
                Id.TableBeyondGates,
                null,
                default,
                [("table", table.Name), ("cells", table.Cells.Count), ("most", MostCells)]
            )
            : null;

    /// <summary>The first of machines with such a table, and what is wrong with it.</summary>
    public static (int Index, Diagnostic Why)? FirstRefusal(IReadOnlyList<Datapath> datapaths)
    {
        foreach (var (index, datapath) in datapaths.Index())
        {
            if (Refusal(datapath) is { } why)
            {
                return (index, why);
            }
        }
        return null;
    }

    public TableGates(Table table)
    {
        var address = net.Word(BitOperations.Log2((uint)table.Cells.Count));
        Bits = [.. Enumerable.Range(0, table.Width).Select(bit => Chosen(table, bit, address))];
    }

    /// <summary>The places of its word, the lowest bit first.</summary>
    public IReadOnlyList<int> Bits { get; }

    private int Chosen(Table table, int bit, int[] address)
    {
        var left = table.Cells.Select(c => (int)((c >> bit) & 1)).ToList();
        foreach (var by in address)
        {
            left = [.. left.Chunk(2).Select(pair => net.Choose(by, pair[1], pair[0]))];
        }
        return left[0];
    }

    /// <summary>The gates, for who writes them down.</summary>
    internal GateNet Net => net;

    public long Area(CostModel model) => net.Area(model, Bits);

    public (int[] At, int[] From) Arrivals(CostModel model, Func<int, int> at) => net.Arrivals(model, at);

    internal ulong[] Evaluate(IReadOnlyList<ulong> address) => net.Evaluate(address);
}
