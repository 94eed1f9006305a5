using System.Globalization;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Structure;

namespace Reckoner.Drawing;

/// <summary>
/// The columns of a sheet of blocks. Machines that follow one another share pitch and left border, so that what did not change
/// stands in its place when one turns from sheet to sheet.
/// </summary>
internal sealed class BlockGrid
{
    public const double Wide = 1280;

    /// <summary>A screen of 16 to 9; what is drawn for a higher sheet has more room below.</summary>
    public const double Lowest = 720;
    public const double Margin = 36;
    public const double Right = Wide - Margin;
    public const double TextSize = 26;
    public const double NameSize = 30;

    private const double LargestPitch = 72;
    private const double Narrowest = 14;
    private const double BetweenRuns = 30;

    private readonly Dictionary<Register, double> lefts = [];
    private readonly Dictionary<Register, double> names = [];

    private BlockGrid(Arrangement arrangement, double left, double pitch, double high)
    {
        High = high;
        Arrangement = arrangement;
        Pitch = pitch;
        Left = left;
        var x = left;
        foreach (var run in arrangement.Runs)
        {
            x = Place(run, x, isFirst: x == left);
        }
        Needs = x - BetweenRuns;
        foreach (var (register, meeting) in arrangement.Below)
        {
            lefts[register] = lefts[meeting.Above] + (meeting.Above.Width - meeting.Bit - register.Width) * pitch;
        }
    }

    public Arrangement Arrangement { get; }

    /// <summary>How high the sheet is.</summary>
    public double High { get; }

    /// <summary>Below this stand words only.</summary>
    public double LowestBar => High - 98;
    public double Pitch { get; }
    public double Left { get; }

    /// <summary>How far the top row reaches to the right.</summary>
    private double Needs { get; }

    public double X(Register register) => lefts[register];

    public bool Stands(Register register) => lefts.ContainsKey(register);

    public double Breadth(int bits) => Math.Max(bits * Pitch, Narrowest);

    /// <summary>The grids of machines that are to be laid over each other.</summary>
    /// <param name="target">What they are drawn for; null for a screen of 16 to 9.</param>
    public static IReadOnlyList<BlockGrid> Of(
        IReadOnlyList<MachineStructure> structures,
        double left,
        FigureTarget? target = null
    )
    {
        var arrangements = structures.Select(s => new Arrangement(s)).ToList();
        var pitch = LargestPitch;
        var high = target is null || Below(target) > 1 ? Lowest : Math.Max(Lowest, HeightOn(target));
        while (pitch > 1.5 && arrangements.Exists(a => new BlockGrid(a, left, pitch, high).Needs > Right))
        {
            pitch -= pitch > 12 ? 1 : 0.25;
        }
        return [.. arrangements.Select(a => new BlockGrid(a, left, pitch, high))];
    }

    private static double HeightOn(FigureTarget target) => Wide * target.Height / target.Width;

    /// <summary>How many sheets there is room for below each other.</summary>
    public static int Below(FigureTarget target) => Math.Max(1, (int)(HeightOn(target) / Lowest));

    /// <summary>A run of registers; single bits before the first wide one of all hang over to the left, their names too.</summary>
    private double Place(IReadOnlyList<Register> run, double x, bool isFirst)
    {
        var hanging = isFirst ? run.TakeWhile(r => r.Width == 1).Count() : 0;
        hanging = hanging < run.Count ? hanging : 0;
        var end = x - hanging * Breadth(1);
        var named = 0.0;
        for (var i = 0; i < run.Count; i++)
        {
            end = i < hanging ? end : Math.Max(end, named);
            lefts[run[i]] = end;
            end += Breadth(run[i].Width);
            names[run[i]] = i < hanging ? end - NameWidth(run[i]) - 16 : lefts[run[i]];
            named = i < hanging ? 0 : names[run[i]] + NameWidth(run[i]) + 14;
        }
        return Math.Max(end, named) + BetweenRuns;
    }

    /// <summary>Where the name of a register of the top row begins, above its bar.</summary>
    public double NameX(Register register) => names[register];

    public static double NameWidth(Register register) =>
        Typeface.Of(Face.Bold).Width(register.Name, NameSize) * Typeface.WidestInstead
        + 6
        + Typeface.Of(Face.Plain).Width(WidthOf(register), TextSize);

    public static string WidthOf(Register register) => Short(register.Size);

    /// <summary>As it is spoken of where that is short, else the number.</summary>
    public static string Short(Size size) =>
        size.Symbol.ToString() is { Length: <= 6 } symbol ? symbol : size.Count.ToString(CultureInfo.InvariantCulture);
}
