using System.Globalization;
using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// Walks of several machines side by side: a group of rows for each round, a row for each register; what differs from the
/// machine at the left is marked.
/// </summary>
internal static class WalksAligned
{
    /// <summary>The place of a row in the course of a walk; those of different machines with equal places stand together.</summary>
    /// <param name="Loops">Loops that have begun.</param>
    /// <param name="Round">Of the loop; 0 before it and for what comes after it.</param>
    /// <param name="Step">Counts the cycles after the loop's last round.</param>
    private readonly record struct Place(int Loops, int Round, int Step) : IComparable<Place>
    {
        public int CompareTo(Place other) => Key.CompareTo(other.Key);

        /// <summary>What comes after a loop comes after all its rounds, however many another machine has.</summary>
        private (int, bool, int, int) Key => (Loops, Step > 0, Round, Step);
    }

    public static Grid Of(IReadOnlyList<Walk> walks, HouseStyle style, Vocabulary words)
    {
        var courses = walks.Select(Course).ToList();
        var places = courses.SelectMany(c => c.Keys).Distinct().Order().ToList();
        var names = walks.SelectMany(w => w.Datapath.Registers).Select(r => r.Name).Distinct().ToList();
        var severalLoops = walks.Any(w => w.Datapath.Schedule.Count(s => s.IsLoop) > 1);
        var rows =
            from place in places
            let shown = courses.Select(c => c.GetValueOrDefault(place)).ToList()
            from name in names
            where walks.Zip(shown).Any(w => w.Second is not null && Named(w.First, name) is not null)
            select new GridRow([
                Cell.Of(Label(place, shown, severalLoops, words)),
                Cell.Of(name),
                .. Cells(walks, shown, name, style.Digits),
            ]);
        return new Grid(
            "walks",
            words.Say("compare.walks"),
            [
                new GridColumn(words.Say("walk.round"), ColumnRole.Label, IsGroup: true),
                new GridColumn(words.Say("register"), ColumnRole.Short),
                .. walks.Select((w, i) => CompareDocument.Column(w.Datapath, i, ColumnRole.Digits)),
            ],
            [.. rows]
        );
    }

    /// <summary>What stands in the registers at each place; of a round its last cycle.</summary>
    private static SortedDictionary<Place, Row> Course(Walk walk)
    {
        var course = new SortedDictionary<Place, Row>();
        var (loops, step) = (0, 0);
        foreach (var row in walk.Rows)
        {
            step = row.Round > 0 || row.Cycle == 0 ? 0 : step + 1;
            loops = row.Round > 0 ? row.Repeat : loops;
            course[new Place(loops, row.Round, step)] = row;
        }
        return course;
    }

    private static string Label(Place place, List<Row?> shown, bool severalLoops, Vocabulary words)
    {
        var row = shown.First(r => r is not null)!;
        return row.Cycle == 0 ? words.Say("walk.load")
            : place.Step > 0 ? row.Step?.Name ?? words.Say("compare.after")
            : severalLoops ? $"{Text(place.Loops)}.{Text(place.Round)}"
            : Text(place.Round);
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static Register? Named(Walk walk, string name) =>
        walk.Datapath.Registers.FirstOrDefault(r => r.Name == name);

    private static IEnumerable<Cell> Cells(IReadOnlyList<Walk> walks, List<Row?> shown, string name, Digits digits)
    {
        (BigInteger Bits, int Width)? left = null;
        foreach (var (walk, row) in walks.Zip(shown))
        {
            if (row is null || Named(walk, name) is not { } register)
            {
                yield return Cell.Empty;
                continue;
            }
            var bits = row.Registers[register.Index];
            var cell = Cell.Of(digits.Of(bits, register.Width, register.IsSigned, Columns.Cuts(register)));
            yield return cell with
            {
                IsMarked = left is { } other && other != (bits, register.Width),
            };
            left = (bits, register.Width);
        }
    }
}
