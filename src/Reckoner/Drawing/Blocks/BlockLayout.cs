using Reckoner.Datapaths;
using Reckoner.Structure;

namespace Reckoner.Drawing;

/// <summary>What is done about sheets that would come out too high, each besides what comes before it.</summary>
internal enum Thrift
{
    None,

    /// <summary>What only decides stands where there is room, instead of below what it looks at.</summary>
    Spread,

    /// <summary>Bars and gaps are as low as their texts allow.</summary>
    Tight,

    /// <summary>One bar stands for all words of a choice.</summary>
    Folded,
}

/// <summary>
/// Where everything of a plan stands: registers at the top in their columns, each unit below the words that meet in it, each choice
/// below what it chooses from, and what the registers hold behind the edge at the foot. Time runs down.
/// </summary>
internal sealed partial class BlockLayout
{
    public const double Top = 136;
    public const double RegisterHeight = 46;
    public const double AfterHeight = 38;
    private const double Between = 4;
    private const double LowestAfter = 540;
    private const double BelowAfter = 44;
    private const double WidestTable = 330;

    private readonly MachineStructure structure;
    private readonly BlockGrid grid;
    private readonly BlockPlan plan;
    private readonly bool isSpread;
    private readonly double ribbonHeight;
    private readonly double arrivalHeight;
    private readonly List<BlockPiece> pieces = [];
    private readonly IReadOnlyList<BlockPiece> afters;
    private readonly Dictionary<Net, BlockPiece> givers = [];
    private readonly Dictionary<Register, BlockPiece> registers = [];

    public BlockLayout(MachineStructure structure, BlockGrid grid, BlockPlan plan, Thrift thrift)
    {
        isSpread = thrift >= Thrift.Spread;
        var isTight = thrift >= Thrift.Tight;
        IsFolded = thrift == Thrift.Folded;
        UnitHeight = isTight ? 38 : 46;
        StripHeight = isTight ? 33 : 38;
        ribbonHeight = isTight ? 20 : 30;
        arrivalHeight = isTight ? 40 : 52;
        this.structure = structure;
        this.grid = grid;
        this.plan = plan;
        foreach (var register in structure.Datapath.Registers)
        {
            Put(register);
        }
        foreach (var piece in plan.Pieces)
        {
            Put(piece);
        }
        var lowest = pieces.Max(p => p.Bottom);
        afters = [.. plan.Afters.Where(a => !IsTold(a)).OrderBy(RowOf)];
        var below = afters.Select(RowOf).Distinct().Count(row => row > 0);
        AfterY = Math.Max(LowestAfter - below * (AfterHeight + BelowAfter), lowest + arrivalHeight);
        foreach (var after in afters)
        {
            after.X = grid.X(after.Register!);
            after.Breadth = grid.Breadth(after.Width);
            after.Height = AfterHeight;
            after.Y = AfterY;
            foreach (
                var other in afters.TakeWhile(a => a != after).Where(a => RowOf(a) < RowOf(after) && IsAcross(a, after))
            )
            {
                after.Y = Math.Max(after.Y, other.Bottom + BelowAfter);
            }
        }
    }

    private static bool IsAcross(BlockPiece a, BlockPiece b) => a.X < b.X + b.Breadth + 4 && b.X < a.X + a.Breadth + 4;

    private int RowOf(BlockPiece after) =>
        grid.Arrangement.Below.TryGetValue(after.Register!, out var meeting) ? meeting.Row : 0;

    /// <summary>A register below others that only shifts by itself says so in its bar.</summary>
    public bool IsTold(BlockPiece after) => RowOf(after) > 0 && Shift(after) is var (_, enters) && !enters.Nets.Any();

    /// <summary>How many places a register moves to the left of its own accord, and what enters; null where it does anything else.</summary>
    public static (int Places, Bundle Enters)? Shift(BlockPiece after)
    {
        var word = after.Word!;
        for (var places = 1; places < Math.Min(word.Width, 5); places++)
        {
            if (IsOwn(word.Part(places, word.Width - places), after.Register!, 0))
            {
                return (places, word.Part(0, places));
            }
            if (IsOwn(word.Part(0, word.Width - places), after.Register!, places))
            {
                return (-places, word.Part(word.Width - places, places));
            }
        }
        return null;
    }

    private static bool IsOwn(Bundle word, Register register, int low) =>
        word.Stretches is [{ Times: 1 } only] && only.Net?.Register == register && only.Low == low;

    public double UnitHeight { get; }
    public double StripHeight { get; }

    /// <summary>Whether one bar stands for all words of a choice.</summary>
    public bool IsFolded { get; }
    public double AfterY { get; }

    /// <summary>Everything but what the registers hold behind the edge.</summary>
    public IReadOnlyList<BlockPiece> Pieces => pieces;

    public IReadOnlyList<BlockPiece> Afters => afters;

    /// <summary>Registers that shift by themselves, which their own bars tell.</summary>
    public IEnumerable<BlockPiece> Told => plan.Afters.Where(IsTold);

    /// <summary>Whether nothing happens to any register that is asked for.</summary>
    public bool IsEmpty => plan.Afters.Count == 0;

    /// <summary>Where everything ends.</summary>
    public double Lowest => afters.Select(a => a.Bottom).Append(pieces.Max(p => p.Bottom)).Max();

    public BlockPiece Of(Register register) => registers[register];

    public BlockPiece? Giver(Net net) =>
        net.Register is { } register ? registers[register] : givers.GetValueOrDefault(net);

    /// <summary>The left edge of a bit of a net, where it stands on the sheet.</summary>
    public double? X(Net net, int bit)
    {
        if (Giver(net) is not { } piece || Flag(net) || bit >= piece.Width)
        {
            return null;
        }
        return piece.X + (piece.Width - 1 - bit) * grid.Pitch;
    }

    /// <summary>Carry, borrow, or what was compared: it leaves at the left end of its unit.</summary>
    public static bool Flag(Net net) =>
        net.Kind == NetKind.Unit && net.Output is not (UnitOutput.Result or UnitOutput.CarryWord);

    // ---- registers

    private void Put(Register register)
    {
        var row = grid.Arrangement.Below.TryGetValue(register, out var meeting) ? meeting.Row : 0;
        var piece = new BlockPiece(BlockPieceKind.Register, register.Width)
        {
            Register = register,
            X = grid.X(register),
            Breadth = grid.Breadth(register.Width),
            Y = Top + row * (RegisterHeight + Between),
            Height = RegisterHeight,
        };
        registers[register] = piece;
        pieces.Add(piece);
    }

    // ---- what the bits go through

    private void Put(BlockPiece piece)
    {
        if (piece.Kind == BlockPieceKind.Unit)
        {
            PutUnit(piece);
            return;
        }
        piece.Breadth = grid.Breadth(Math.Max(piece.Width, piece.Word?.Width ?? 0));
        Broaden(piece);
        piece.X = piece.Serves is { } serves ? UnitX(plan.Pieces.Single(p => p.Unit == serves.Unit)) : Best(piece);
        piece.Height =
            piece.Kind == BlockPieceKind.Table ? UnitHeight
            : IsFolded ? StripHeight
            : piece.Arms.Count * StripHeight;
        Add(piece, ribbonHeight);
    }

    /// <summary>A table that only decides need not be to scale, but is read best where its words have room.</summary>
    private void Broaden(BlockPiece table)
    {
        var said = Typeface.Of(Face.Bold).Width(table.Said, BlockGrid.TextSize) + 24;
        if (!isSpread || table.IsCarried || table.Said.Length == 0 || said > WidestTable || said < table.Breadth)
        {
            return;
        }
        var scaled = table.Breadth;
        table.Breadth = said;
        var x = Best(table);
        if (IsOnTheWay(x, x + said))
        {
            table.Breadth = scaled;
        }
    }

    private void Add(BlockPiece piece, double gap)
    {
        piece.Y = Skyline(piece.X, piece.X + piece.Breadth) + gap;
        pieces.Add(piece);
        foreach (var net in piece.Gives)
        {
            givers[net] = piece;
        }
    }

    private double Skyline(double from, double to) =>
        pieces.Where(p => p.X < to + 12 && from - 12 < p.X + p.Breadth).Select(p => p.Bottom).Append(Top).Max();

    private void PutUnit(BlockPiece unit)
    {
        unit.Breadth = grid.Breadth(unit.Width);
        unit.X = UnitX(unit);
        var operands = unit.Settings.Count > 0 ? unit.Settings[0].Operands : [];
        var isPaper = false;
        for (var i = 0; i < operands.Count; i++)
        {
            var isOne = unit.Settings.All(s => s.Operands[i].Equals(operands[i]));
            if (!isOne || IsAbove(unit, operands[i]))
            {
                isPaper = true;
                continue;
            }
            if (!operands[i].Nets.Any())
            {
                continue;
            }
            var strip = new BlockPiece(BlockPieceKind.Choice, operands[i].Width)
            {
                Serves = (unit.Unit!, i),
                Arms = [new Arm("", operands[i], _ => true)],
                X = unit.X,
                Breadth = grid.Breadth(operands[i].Width),
                Height = StripHeight,
            };
            Add(strip, isPaper ? Between : ribbonHeight);
            isPaper = true;
        }
        unit.Height = UnitHeight;
        Add(unit, isPaper ? Between : ribbonHeight);
    }

    /// <summary>Whether a word stands column for column above a unit, with nothing between them that does not meet there too.</summary>
    private bool IsAbove(BlockPiece unit, Bundle word)
    {
        var low = word.Width;
        foreach (var stretch in word.Stretches)
        {
            low -= stretch.Width;
            if (stretch.Net is not { } net)
            {
                continue;
            }
            var stands = unit.X + (unit.Width - low - 1) * grid.Pitch;
            if (stretch.Times > 1 && Giver(net) is not null)
            {
                continue;
            }
            if (X(net, stretch.Low) is not { } x || Math.Abs(x - stands) > 0.5 || !IsFree(unit, Giver(net)!))
            {
                return false;
            }
        }
        return word.Nets.Any();
    }

    private bool IsFree(BlockPiece unit, BlockPiece source)
    {
        var meeting = Meeting(unit.Settings.SelectMany(s => s.Operands));
        return pieces.TrueForAll(p =>
            p == source
            || p.Y < source.Bottom
            || p.X + p.Breadth <= Math.Max(source.X, unit.X)
            || p.X >= Math.Min(source.X + source.Breadth, unit.X + unit.Breadth)
            || meeting.Contains(p)
            || p.Serves?.Unit == unit.Unit
        );
    }

    /// <summary>What words are taken of, and what those choose from.</summary>
    private HashSet<BlockPiece> Meeting(IEnumerable<Bundle> words)
    {
        var met = words.SelectMany(w => w.Nets).Select(Giver).OfType<BlockPiece>().ToHashSet();
        var through = met.Where(p => p.Kind == BlockPieceKind.Choice)
            .SelectMany(p => p.Arms)
            .Select(a => a.Word)
            .ToList();
        if (through.Count > 0)
        {
            met.UnionWith(Meeting(through));
        }
        return met;
    }

    /// <summary>The register whose bits, or what stands for them by now, are chosen here to stay in it; null where it is another word.</summary>
    public Register? Home(BlockPiece choice, Bundle word)
    {
        var owners = word
            .Stretches.Select(s => s.Net is { } net ? net.Register ?? Owner(net) : null)
            .Distinct()
            .ToList();
        var after = plan.Afters.FirstOrDefault(a => owners is [{ } register] && a.Register == register);
        return after is not null && Structure.Reach.From(after.Word!.Nets, Chosen).Intersect(choice.Gives).Any()
            ? after.Register
            : null;

        IEnumerable<Net> Chosen(Net n) => n.Kind == NetKind.Choice ? n.Inputs.Skip(1).SelectMany(i => i.Nets) : [];
    }

    /// <summary>The register that a choice may leave as it is.</summary>
    private static Register? Owner(Net net) =>
        net.Kind == NetKind.Choice
            ? net
                .Inputs.Skip(1)
                .SelectMany(i => i.Nets)
                .Select(n => n.Register ?? Owner(n))
                .FirstOrDefault(r => r is not null)
            : null;
}
