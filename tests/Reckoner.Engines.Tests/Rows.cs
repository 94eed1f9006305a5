using Reckoner.Checking;

namespace Reckoner.Engines.Tests;

/// <summary>Which rows of which functions a check ever uses, found by running its gates one by one in plain words.</summary>
internal static class Rows
{
    /// <summary>The function and the row 4a + 2b + c of every gate in every case of a check of one step.</summary>
    public static IEnumerable<(byte Function, int Row)> Occurring(CheckProgram check)
    {
        var slots = Enumerable.Range(0, check.Program.Slots).Select(_ => new ulong[PlaneMemory.Words]).ToArray();
        var inputs = check.Space.Inputs.ToList();
        for (var i = 0; i < inputs.Count; i++)
        {
            CaseSpace.FillLane(inputs[i].Index, slots[PlaneProgram.InputSlot(i)]);
        }
        var used = (check.Space.Lanes + 63) / 64;
        var rows = new HashSet<(byte, int)>();
        foreach (var gate in check.Program.Instructions)
        {
            var words = new ulong[PlaneMemory.Words];
            for (var row = 0; row < 8; row++)
            {
                for (var w = 0; w < used; w++)
                {
                    var here =
                        Side(slots[gate.A][w], row & 4)
                        & Side(slots[gate.B][w], row & 2)
                        & Side(slots[gate.C][w], row & 1);
                    words[w] |= ((gate.Function >> row) & 1) != 0 ? here : 0;
                    if (here != 0)
                    {
                        rows.Add((gate.Function, row));
                    }
                }
            }
            slots[gate.To] = words;
        }
        return rows;
    }

    private static ulong Side(ulong word, int isOne) => isOne != 0 ? word : ~word;
}
