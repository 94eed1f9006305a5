using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>
/// An adder as its gates, in the grammar of the weave: places stand in columns, the highest at the left, and depth runs down. A gate
/// stands in the column of the highest place that it knows of, where its output is there; what a gate takes runs down to it as a
/// thread. Wide is what knows of places down to the carry that comes in.
/// </summary>
internal sealed class AdderView
{
    private const double TextSize = FigureHead.TextSize;
    private const double Top = 126;
    private const double CellHeight = 26;
    private const double RowHeight = 46;
    private const double BetweenCells = 6;
    private const double BetweenColumns = 30;

    /// <summary>Wider adders come out too small to be read.</summary>
    private const int Widest = 32;

    private readonly Vocabulary words;
    private readonly Unit unit;
    private readonly AdderKind kind;
    private readonly GateNet net = new();
    private readonly List<Shape> shapes = [];
    private readonly IReadOnlyList<(int Place, GateKind Kind, int A, int B, int C)> gates;
    private readonly Dictionary<int, int> columns = [];
    private readonly Dictionary<int, int> lowest = [];
    private readonly Dictionary<int, double> lefts = [];
    private readonly Dictionary<int, List<int>> lanes = [];
    private readonly int[] at;
    private readonly int[] outputs;
    private readonly int carryIn;
    private readonly int carryOut;
    private readonly int[] a;
    private readonly int[] b;

    private AdderView(Unit unit, AdderKind kind, Vocabulary words)
    {
        (this.unit, this.kind, this.words) = (unit, kind, words);
        var width = unit.Size.Count;
        (a, b, carryIn) = (net.Word(width), net.Word(width), net.Input());
        (var sum, carryOut) = Adders.Sum(net, kind, a, b, carryIn);
        outputs = [.. sum, carryOut];
        gates = net.Needed(outputs);
        at = net.Arrivals(CostModel.UnitGates, _ => 0).At;
        foreach (var gate in gates)
        {
            Know(gate);
        }
    }

    /// <summary>Whether it has an adder or a comparator that is not too wide.</summary>
    public static bool Suits(Datapath datapath) => UnitOf(datapath) is not null;

    /// <summary>The adder of a machine's first unit that adds or compares, of the kind that is chosen for it.</summary>
    public static IReadOnlyList<Scene> Of(Datapath datapath, StillForm form)
    {
        var unit = UnitOf(datapath)!;
        return Fitting.On(form.Target, [new AdderView(unit, form.Adders.Of(unit), form.Words).Drawn(datapath)]);
    }

    private static Unit? UnitOf(Datapath datapath) =>
        datapath
            .Units.Where(u => u.Uses.Count > 0 && u.Size.Count <= Widest)
            .Where(u => u.Kind is UnitKind.Adder or UnitKind.Comparator)
            .MinBy(u => u.Kind != UnitKind.Adder);

    /// <summary>Which places a gate knows of: from its column down to the lowest; -1 is the carry that comes in.</summary>
    private void Know((int Place, GateKind Kind, int A, int B, int C) gate)
    {
        var (high, low) = gate.Kind switch
        {
            GateKind.Constant => (-1, -1),
            GateKind.Input when gate.Place == carryIn => (-1, -1),
            GateKind.Input => (gate.A % a.Length, gate.A % a.Length),
            GateKind.Not => (columns[gate.A], lowest[gate.A]),
            GateKind.And or GateKind.Or or GateKind.Xor => (
                Math.Max(columns[gate.A], columns[gate.B]),
                Math.Min(lowest[gate.A], lowest[gate.B])
            ),
            GateKind.Choice or GateKind.Sum or GateKind.Carry => (
                Math.Max(columns[gate.A], Math.Max(columns[gate.B], columns[gate.C])),
                Math.Min(lowest[gate.A], Math.Min(lowest[gate.B], lowest[gate.C]))
            ),
        };
        (columns[gate.Place], lowest[gate.Place]) = (high, low);
    }

    private static IEnumerable<int> Takes((int Place, GateKind Kind, int A, int B, int C) gate) =>
        gate.Kind switch
        {
            GateKind.Constant or GateKind.Input => [],
            GateKind.Not => [gate.A],
            GateKind.And or GateKind.Or or GateKind.Xor => [gate.A, gate.B],
            GateKind.Choice or GateKind.Sum or GateKind.Carry => [gate.A, gate.B, gate.C],
        };

    private static string Said(GateKind kind) =>
        kind switch
        {
            GateKind.Constant or GateKind.Input => "",
            GateKind.And => Operations.Row(Operation.And).Written,
            GateKind.Or => Operations.Row(Operation.Or).Written,
            GateKind.Xor => Operations.Row(Operation.Xor).Written,
            GateKind.Not => Operations.Row(Operation.Not).Written,
            GateKind.Choice => "?",
            GateKind.Sum or GateKind.Carry => "+",
        };

    private static double Width(string text) => Typeface.Of(Face.Plain).Width(text, TextSize);

    private Scene Drawn(Datapath datapath)
    {
        var cells = Placed();
        var late = Late();
        foreach (var gate in gates.Where(g => g.Kind is not (GateKind.Constant or GateKind.Input)))
        {
            foreach (var from in Takes(gate).Where(cells.ContainsKey).Distinct())
            {
                var to = cells[gate.Place];
                var x = to.Left + (to.Width * (Takes(gate).ToList().IndexOf(from) + 1) / 3.5);
                var way = Way(cells[from], to, columns[gate.Place], from, x);
                shapes.Add(
                    late.Contains(gate.Place) && late.Contains(from)
                        ? new Stroke(way, Role.Ink, PathPage.LateWidth)
                        : new Stroke(way, Role.Quiet, 1.3)
                );
            }
        }
        foreach (var gate in gates.Where(g => cells.ContainsKey(g.Place)))
        {
            Cell(gate, cells[gate.Place], late.Contains(gate.Place));
        }
        var bottom = cells.Values.Max(c => c.Bottom);
        foreach (var (index, output) in outputs.Index())
        {
            var name = output == carryOut && index == outputs.Length - 1 ? words.Say("adder.carry-out") : $"s{index}";
            var from = cells[output];
            shapes.Add(
                new Stroke(
                    Trace.Through(new(from.Centre.X, from.Bottom), new(from.Centre.X, from.Bottom + 8)),
                    Role.Ink,
                    1.6
                )
            );
            Put(name, new Box(from.Centre.X - 45, from.Bottom + 6, 90, 26), Role.Ink);
        }
        var area = net.Area(CostModel.UnitGates, outputs);
        var heading = words.Say(
            "adder.title",
            ("kind", Adders.Name(kind)),
            ("width", Bits.Text(a.Length)),
            ("unit", UnitText.Short(unit, datapath, words)),
            ("machine", datapath.Machine.Name)
        );
        var told = words.Say("adder.told", ("area", area), ("delay", outputs.Max(o => at[o])));
        shapes.AddRange(FigureHead.Of(heading, told));
        var right = Math.Max(cells.Values.Max(c => c.Right), shapes.OfType<Text>().Max(t => t.Box.Right));
        var y = bottom + 64;
        string[] notes = [words.Say("adder.how"), words.Say("adder.marks")];
        foreach (var line in NoteLines.Of(notes, right - WeaveGrid.Margin))
        {
            shapes.Add(
                new Text(
                    line,
                    new Point(WeaveGrid.Margin, y),
                    Anchor.Start,
                    Face.Plain,
                    TextSize,
                    Role.Quiet,
                    Role.Ground,
                    null
                )
            );
            y += 26;
        }
        right = Math.Max(right, shapes.OfType<Text>().Max(t => t.Box.Right));
        return new Scene(
            right + WeaveGrid.Margin,
            y,
            heading,
            words.Say("figure.adder", ("said", heading), ("told", told)),
            words.Language,
            [.. shapes]
        );
    }

    /// <summary>Where each gate stands: down by its time, in its column, those of one time beside each other.</summary>
    private Dictionary<int, Box> Placed()
    {
        var wide = 14 + new[] { GateKind.And, GateKind.Or, GateKind.Xor }.Max(k => Width(Said(k)));
        var rows = gates
            .Where(g => g.Kind is not GateKind.Constant)
            .GroupBy(g => (Column: columns[g.Place], Time: at[g.Place]))
            .ToDictionary(g => g.Key, g => g.Select(x => x.Place).ToList());
        var cells = new Dictionary<int, Box>();
        var x = WeaveGrid.Margin + TimeRoom;
        for (var column = a.Length - 1; column >= -1; column--)
        {
            (lefts[column], lanes[column]) = (x, []);
            var many = rows.Where(r => r.Key.Column == column).Select(r => r.Value.Count).DefaultIfEmpty(1).Max();
            var room = (many * (wide + BetweenCells)) - BetweenCells;
            foreach (var ((_, time), places) in rows.Where(r => r.Key.Column == column))
            {
                var own = (places.Count * (wide + BetweenCells)) - BetweenCells;
                var left = x + ((room - own) / 2);
                foreach (var place in places)
                {
                    cells[place] = new Box(left, Top + (time * RowHeight), wide, CellHeight);
                    left += wide + BetweenCells;
                }
            }
            x += room + BetweenColumns;
        }
        foreach (var time in gates.Select(g => at[g.Place]).Where(t => t >= 0).Distinct())
        {
            var y = Top + (time * RowHeight) + (CellHeight / 2);
            shapes.Add(
                new Stroke(
                    Trace.Through(new(WeaveGrid.Margin + TimeRoom - 12, y), new(x - BetweenColumns, y)),
                    Role.Rule,
                    1
                )
            );
            Put(Bits.Text(time), new Box(WeaveGrid.Margin, y - 10, TimeRoom - 16, 20), Role.Quiet);
        }
        return cells;
    }

    private const double TimeRoom = 46;

    /// <summary>Everything on a path that takes as long as any.</summary>
    private HashSet<int> Late()
    {
        var most = outputs.Max(o => at[o]);
        var late = new HashSet<int>([outputs.Last(o => at[o] == most)]);
        foreach (var gate in gates.Reverse().Where(g => late.Contains(g.Place) && Takes(g).Any()))
        {
            late.Add(Takes(gate).MaxBy(t => at[t]));
        }
        return late;
    }

    /// <summary>A thread that passes by cells of its column runs down beside them, each word in a lane of its own.</summary>
    private Trace Way(Box from, Box to, int column, int source, double x)
    {
        var (start, end) = (new Point(from.Centre.X, from.Bottom), new Point(x, to.Top));
        if (to.Top - from.Bottom <= RowHeight)
        {
            return Trace.Down(start, end);
        }
        var beside = lanes[column];
        if (!beside.Contains(source))
        {
            beside.Add(source);
        }
        var lane = lefts[column] - 6 - (5 * (beside.IndexOf(source) % 4));
        var (turn, back) = (
            new Point(lane, from.Bottom + RowHeight - CellHeight),
            new Point(lane, to.Top - RowHeight + CellHeight)
        );
        return Trace.Together([Trace.Down(start, turn), Trace.Through(turn, back), Trace.Down(back, end)]);
    }

    private void Cell((int Place, GateKind Kind, int A, int B, int C) gate, Box box, bool isLate)
    {
        // What knows of all places below it, the carry in among them, is a carry or a sum; the others tell of groups.
        var fill =
            gate.Kind == GateKind.Input ? Role.Ground
            : lowest[gate.Place] < 0 ? Role.Tint(0)
            : Role.Plain;
        var edge = lowest[gate.Place] < 0 && gate.Kind != GateKind.Input ? Role.Edge(0) : Role.Ink;
        shapes.Add(new Area(new Rectangle(box, 4), fill, edge, isLate ? 3 : 1.2));
        var said =
            gate.Kind != GateKind.Input ? Said(gate.Kind)
            : gate.Place == carryIn ? words.Say("adder.carry-in")
            : $"{(gate.A < a.Length ? "a" : "b")}{gate.A % a.Length}";
        shapes.Add(Text.Centred(said, box, Face.Plain, TextSize, Role.Ink, fill));
    }

    private void Put(string said, Box box, Role ink)
    {
        shapes.Add(Text.Centred(said, box, Face.Plain, TextSize, ink, Role.Ground));
    }
}
