using Reckoner.Datapaths;
using Reckoner.Measuring;
using Reckoner.Reporting;
using Reckoner.Structure;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>
/// Machines below each other, such as one below those that it follows: registers and adders as ribbons to scale, cycles, and what each version saved over the
/// one above it.
/// </summary>
internal sealed class ComparisonView
{
    private const double TextSize = FigureHead.TextSize;
    private const double LeastRibbonHeight = 30;
    private const double MostStretch = 2.8;

    private const double Longest = 760;
    private const double LargestPitch = 14;
    private const double Between = 12;

    private readonly Vocabulary words;
    private readonly string heading;
    private readonly IReadOnlyList<Hardware> versions;
    private readonly List<Shape> shapes = [];
    private readonly double pitch;
    private readonly double labels;
    private readonly double totals;

    /// <summary>How many times as high things are as they must be, so that the page is filled.</summary>
    private double stretch = 1;

    private ComparisonView(IReadOnlyList<Hardware> versions, string heading, Vocabulary words, FigureRoom? room)
    {
        this.words = words;
        this.heading = heading;
        this.versions = versions;
        var most = versions.Max(v => Math.Max(RegisterBits(v), AdderBits(v)));
        pitch = Math.Min(LargestPitch, Longest / most);
        labels =
            20
            + Math.Max(
                Width(words.Say("comparison.registers"), Face.Plain),
                Width(words.Say("comparison.adders"), Face.Plain)
            );
        var gaps = versions.Max(v => Math.Max(v.Datapath.Registers.Count, Adders(v).Count()));
        if (room is not null)
        {
            pitch = Math.Max(2, (room.Width - RoomBeside(labels, gaps)) / most);
        }
        totals = WeaveGrid.Margin + labels + most * pitch + gaps * Between + 18;
    }

    /// <summary>What stands beside the bits of the widest version.</summary>
    private double RoomBeside(double labels, int gaps) =>
        2 * WeaveGrid.Margin + labels + gaps * Between + 18 + Counts();

    /// <summary>How wide the numbers of bits are.</summary>
    private double Counts() =>
        versions.Max(v =>
            Math.Max(
                Width(words.Say("comparison.register-bits", ("bits", RegisterBits(v))), Face.Plain),
                Width(words.Say("comparison.adder-bits", ("bits", AdderBits(v))), Face.Plain)
            )
        );

    private double RibbonHeight => LeastRibbonHeight * stretch;

    /// <summary>Whether a machine follows another that can be built at its widths.</summary>
    public static bool Suits(Datapath datapath) => Lineage(datapath).Count > 1;

    /// <summary>Machines in the order in which they are named.</summary>
    public static IReadOnlyList<Scene> Of(IReadOnlyList<Datapath> datapaths, Vocabulary words, FigureTarget? target) =>
        Of(datapaths, words.Say("compare.title"), words, target);

    /// <summary>A machine below those that it follows.</summary>
    public static IReadOnlyList<Scene> Of(Datapath datapath, Vocabulary words, FigureTarget? target) =>
        Of(Lineage(datapath), words.Say("comparison.title", ("machine", datapath.Machine.Name)), words, target);

    private static IReadOnlyList<Scene> Of(
        IReadOnlyList<Datapath> datapaths,
        string heading,
        Vocabulary words,
        FigureTarget? target
    )
    {
        var room = target?.Room(TextSize);
        var versions = datapaths.Select(Hardware.Of).ToList();
        var view = new ComparisonView(versions, heading, words, room);
        var page = view.Drawn(stretch: 1);
        var most = view.Drawn(MostStretch).Height;
        var share = Math.Clamp(Fitting.Lacking(page, room) / (most - page.Height), 0, 1);
        return Fitting.On(target, [view.Drawn(1 + share * (MostStretch - 1))]);
    }

    /// <summary>A machine behind those that it follows, the oldest first.</summary>
    internal static IReadOnlyList<Datapath> Lineage(Datapath datapath)
    {
        var versions = new List<Datapath> { datapath };
        for (var machine = datapath.Machine.Followed; machine is not null; machine = machine.Followed)
        {
            var shared = machine
                .Widths.Select(w => w.Name.Text)
                .Where(datapath.Numbers.ContainsKey)
                .ToDictionary(name => name, name => datapath.Numbers[name].Numerator);
            if (machine.At(shared).Datapath is not { } earlier)
            {
                break;
            }
            versions.Insert(0, earlier);
        }
        return versions;
    }

    internal static int RegisterBits(Hardware version) => version.Datapath.Registers.Sum(r => r.Width);

    internal static int AdderBits(Hardware version) => Adders(version).Sum(u => u.Size.Count);

    private static IEnumerable<Unit> Adders(Hardware version) =>
        version.Units.Where(u => u.Kind == Datapaths.UnitKind.Adder);

    private static double Width(string text, Face face) => Typeface.Of(face).Width(text, TextSize);

    private Scene Drawn(double stretch)
    {
        this.stretch = stretch;
        shapes.Clear();
        shapes.Add(FigureHead.Of(heading));
        var y = 64.0;
        for (var i = 0; i < versions.Count; i++)
        {
            y = Version(versions[i], i == 0 ? null : versions[i - 1], y);
        }
        return new Scene(
            shapes.OfType<Text>().Max(t => t.Box.Right) + WeaveGrid.Margin,
            y + 16,
            heading,
            words.Say(
                "figure.comparison",
                ("count", versions.Count),
                ("machines", string.Join(words.Say("walk.between-effects"), versions.Select(Counted)))
            ),
            words.Language,
            [.. shapes]
        );
    }

    /// <summary>A machine with what the ribbons show of it, in words.</summary>
    private string Counted(Hardware version) =>
        words.Say(
            "figure.comparison-counts",
            ("machine", Names.Of(version.Datapath, words)),
            ("registers", words.Say("comparison.register-bits", ("bits", RegisterBits(version)))),
            ("adders", words.Say("comparison.adder-bits", ("bits", AdderBits(version)))),
            ("cycles", words.Say("comparison.cycles", ("cycles", version.Datapath.MostCycles)))
        );

    private double Version(Hardware version, Hardware? before, double y)
    {
        var datapath = version.Datapath;
        var title = FigureHead.Title(datapath, words);
        Say(title, WeaveGrid.Margin, y + 26, Face.Bold);
        var beside = WeaveGrid.Margin + Width(title, Face.Bold) * Typeface.WidestInstead + 16;
        Say(Names.Of(datapath, words), beside, y + 26, Face.Plain, Role.Quiet);
        y += 40;
        // The colours are those of the weave: where bits come from.
        var hues = new BlockHues(MachineStructure.Of(datapath));
        Ribbons(
            words.Say("comparison.registers"),
            datapath.Registers.Select(r => (r.Name, r.Width, hues.Of(r))),
            words.Say("comparison.register-bits", ("bits", RegisterBits(version))),
            y
        );
        y += RibbonHeight + 10 * stretch;
        Ribbons(
            words.Say("comparison.adders"),
            Adders(version).Select(u => (u.Name ?? "", u.Size.Count, hues.Of(u))),
            words.Say("comparison.adder-bits", ("bits", AdderBits(version))),
            y
        );
        y += RibbonHeight + 26 * Math.Sqrt(stretch);
        var cycles = words.Say("comparison.cycles", ("cycles", datapath.MostCycles));
        var said = before is null
            ? cycles
            : cycles + words.Say("comparison.than-before", ("differences", Saved(version, before)));
        Say(said, WeaveGrid.Margin + labels, y, Face.Plain);
        return y + 14 * stretch;
    }

    /// <summary>What changed since the version before, a saving first.</summary>
    private string Saved(Hardware version, Hardware before)
    {
        (string Fewer, string More, int By)[] differences =
        [
            (
                "comparison.fewer-register-bits",
                "comparison.more-register-bits",
                RegisterBits(before) - RegisterBits(version)
            ),
            ("comparison.fewer-adder-bits", "comparison.more-adder-bits", AdderBits(before) - AdderBits(version)),
            (
                "comparison.fewer-cycles",
                "comparison.more-cycles",
                before.Datapath.MostCycles - version.Datapath.MostCycles
            ),
        ];
        var changed = differences
            .Where(d => d.By != 0)
            .OrderByDescending(d => d.By)
            .Select(d => words.Say(d.By > 0 ? d.Fewer : d.More, ("by", Math.Abs(d.By))))
            .ToList();
        return changed.Count == 0
            ? words.Say("comparison.nothing")
            : string.Join(words.Say("walk.between-names"), changed);
    }

    private void Ribbons(string label, IEnumerable<(string Name, int Bits, int Hue)> things, string total, double y)
    {
        var baseline = y + RibbonHeight / 2 + Typeface.Of(Face.Plain).CapitalHeight * TextSize / 2;
        Say(label, WeaveGrid.Margin, baseline, Face.Plain, Role.Quiet);
        var x = WeaveGrid.Margin + labels;
        foreach (var (name, bits, hue) in things)
        {
            var box = new Box(x, y, bits * pitch, RibbonHeight);
            shapes.Add(new Area(new Rectangle(box, 4), Role.Tint(hue), Role.Edge(hue), 1.3));
            var cells = pitch >= 6 ? Enumerable.Range(1, Math.Max(0, bits - 1)) : [];
            foreach (var bit in cells)
            {
                shapes.Add(
                    new Stroke(Trace.Through(new(x + bit * pitch, y), new(x + bit * pitch, y + 5)), Role.Edge(hue), 0.8)
                );
            }
            var said =
                new[] { $"{name} {bits}".Trim(), name }.FirstOrDefault(s => Width(s, Face.Plain) + 6 <= box.Width)
                ?? "";
            if (said.Length > 0)
            {
                shapes.Add(Text.Centred(said, box, Face.Plain, TextSize, Role.Ink, Role.Tint(hue)));
            }
            x = box.Right + Between;
        }
        Say(total, totals, baseline, Face.Plain);
    }

    private void Say(string words, double x, double baseline, Face face, Role? ink = null) =>
        shapes.Add(
            new Text(words, new Point(x, baseline), Anchor.Start, face, TextSize, ink ?? Role.Ink, Role.Ground, null)
        );
}
