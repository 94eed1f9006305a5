using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Running;

/// <summary>What a register of one of the machines holds, and whether that differs from what the one at its left holds.</summary>
/// <param name="Differs">Other bits, or a register of another width.</param>
internal sealed record HeldWord(Register Register, BigInteger Bits, bool Differs);

/// <summary>A register of any of the machines.</summary>
/// <param name="Held">For each machine; null where it has no such register or does not come to this round.</param>
internal sealed record AlignedRegister(string Name, IReadOnlyList<HeldWord?> Held);

/// <summary>What stands in the registers of several machines after the same round.</summary>
/// <param name="Loops">Loops that have begun.</param>
/// <param name="Round">Of the loop; 0 before it and for what comes after it.</param>
/// <param name="After">Counts the cycles after the loop's last round; 0 in a round.</param>
/// <param name="Rows">The row of each machine's walk, of a round its last cycle; null where it does not come here.</param>
internal sealed record AlignedRound(
    int Loops,
    int Round,
    int After,
    IReadOnlyList<Row?> Rows,
    IReadOnlyList<AlignedRegister> Registers
)
{
    public bool IsLoad => Rows.First(r => r is not null)!.Cycle == 0;
}

/// <summary>Walks of several machines on the same operands, round by round.</summary>
internal static class AlignedWalks
{
    /// <summary>The place of a row in the course of a walk; those of different machines with equal places stand together.</summary>
    private readonly record struct Place(int Loops, int Round, int After) : IComparable<Place>
    {
        public int CompareTo(Place other) => Key.CompareTo(other.Key);

        /// <summary>What comes after a loop comes after all its rounds, however many another machine has.</summary>
        private (int, bool, int, int) Key => (Loops, After > 0, Round, After);
    }

    public static IReadOnlyList<AlignedRound> Of(IReadOnlyList<Walk> walks)
    {
        var courses = walks.Select(Course).ToList();
        var names = walks.SelectMany(w => w.Datapath.Registers).Select(r => r.Name).Distinct().ToList();
        return
        [
            .. from place in courses.SelectMany(c => c.Keys).Distinct().Order()
            let rows = courses.Select(c => c.GetValueOrDefault(place)).ToList()
            select new AlignedRound(place.Loops, place.Round, place.After, rows, [.. Registers(walks, rows, names)]),
        ];
    }

    private static SortedDictionary<Place, Row> Course(Walk walk)
    {
        var course = new SortedDictionary<Place, Row>();
        var (loops, after) = (0, 0);
        foreach (var row in walk.Rows)
        {
            after = row.Round > 0 || row.Cycle == 0 ? 0 : after + 1;
            loops = row.Round > 0 ? row.Repeat : loops;
            course[new Place(loops, row.Round, after)] = row;
        }
        return course;
    }

    /// <summary>Those that any machine that comes here has.</summary>
    private static IEnumerable<AlignedRegister> Registers(
        IReadOnlyList<Walk> walks,
        IReadOnlyList<Row?> rows,
        IEnumerable<string> names
    ) => names.Select(n => new AlignedRegister(n, Held(walks, rows, n))).Where(r => r.Held.Any(h => h is not null));

    private static List<HeldWord?> Held(IReadOnlyList<Walk> walks, IReadOnlyList<Row?> rows, string name)
    {
        var held = new List<HeldWord?>();
        HeldWord? left = null;
        foreach (var (walk, row) in walks.Zip(rows))
        {
            if (row is null || walk.Datapath.Registers.FirstOrDefault(r => r.Name == name) is not { } register)
            {
                held.Add(null);
                continue;
            }
            var bits = row.Registers[register.Index];
            var differs = left is not null && (left.Bits != bits || left.Register.Width != register.Width);
            left = new HeldWord(register, bits, differs);
            held.Add(left);
        }
        return held;
    }
}
