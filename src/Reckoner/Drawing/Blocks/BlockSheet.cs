using Reckoner.Datapaths;
using Reckoner.Structure;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>What is told on a sheet of blocks besides its hardware.</summary>
/// <param name="Second">Below the title: step, round, operands; the first that has room.</param>
/// <param name="Wires">What the wires carry, in a cycle; null where the sheet is still.</param>
/// <param name="Saved">What there was in the version before, and its grid.</param>
internal sealed record BlockTelling(
    IReadOnlyList<string> Second,
    string Said,
    CycleWires? Wires,
    (MachineStructure Structure, BlockGrid Grid)? Saved
);

/// <summary>A sheet of blocks as shapes.</summary>
internal sealed partial class BlockSheet
{
    private const double LowestForCapitals = 34;

    private readonly MachineStructure structure;
    private readonly BlockGrid grid;
    private readonly BlockLayout layout;
    private readonly NetNames names;
    private readonly BlockHues hues;
    private readonly Vocabulary words;
    private readonly BlockTelling telling;
    private readonly List<Shape> shapes = [];

    /// <summary>Boxes of texts and bars: nothing else is written there.</summary>
    private readonly List<Box> taken = [];

    /// <summary>Dotted outlines and what stands in them, over whatever runs through them.</summary>
    private readonly List<(Box Box, string Words)> outlines = [];
    private readonly IReadOnlyList<Way> ways;

    public BlockSheet(
        MachineStructure structure,
        BlockGrid grid,
        BlockLayout layout,
        NetNames names,
        Vocabulary words,
        BlockTelling telling
    )
    {
        this.structure = structure;
        this.grid = grid;
        this.layout = layout;
        this.names = names;
        this.words = words;
        this.telling = telling;
        hues = new BlockHues(structure);
        ways = layout.Ways();
        taken.AddRange(layout.Pieces.Concat(layout.Afters).Select(p => p.Box));
    }

    public BlockLayout Layout => layout;
    public IReadOnlyList<Way> Ways => ways;

    private Datapath Datapath => structure.Datapath;

    public Scene Scene()
    {
        FindWires();
        Outlines();
        foreach (var way in ways)
        {
            Ribbon(way);
        }
        foreach (var (box, said) in outlines)
        {
            shapes.Add(new Area(new Rectangle(box, 6), null, Role.Quiet, 2.6) { Line = EdgeLine.Dotted });
            if (said.Length > 0)
            {
                Plate(box, said, Role.Ground, Role.Quiet);
            }
        }
        Head();
        Foot();
        Names();
        foreach (var piece in layout.Pieces.Concat(layout.Afters))
        {
            Bar(piece);
        }
        Deciding();
        Movements();
        Unsaid();
        return new Scene(
            BlockGrid.Wide,
            grid.High,
            FigureHead.Title(Datapath, words),
            telling.Said,
            words.Language,
            shapes
        );
    }

    // ---- text

    private static double Width(string text, Face face = Face.Plain, double size = BlockGrid.TextSize) =>
        Typeface.Of(face).Width(text, size);

    private static double Rise(Face face, double size) => Typeface.Of(face).CapitalHeight * size;

    private Text Say(
        string said,
        double x,
        double baseline,
        Anchor anchor,
        Face face = Face.Plain,
        Role? ink = null,
        double size = BlockGrid.TextSize,
        Role? on = null
    )
    {
        var text = new Text(said, new Point(x, baseline), anchor, face, size, ink ?? Role.Ink, on ?? Role.Ground, null);
        shapes.Add(text);
        taken.Add(text.Box);
        return text;
    }

    /// <summary>A text in the middle of a box, the first of several that fits with room to spare; none where none does.</summary>
    private bool Centred(Box box, Role on, Face face, Role ink, params IEnumerable<string> candidates)
    {
        foreach (var said in candidates.Where(c => c.Length > 0))
        {
            if (Width(said, face) + 12 <= box.Width)
            {
                shapes.Add(Middle(said, box, face, ink, on));
                return true;
            }
        }
        return false;
    }

    /// <summary>In a low box letters are halved with what hangs below the line, so that nothing of them leaves it.</summary>
    private static Text Middle(string said, Box box, Face face, Role ink, Role on)
    {
        var text = Text.Centred(said, box, face, BlockGrid.TextSize, ink, on);
        return box.Height >= LowestForCapitals
            ? text
            : text with
            {
                At = text.At with { Y = text.At.Y + box.Centre.Y - text.Box.Centre.Y },
            };
    }

    /// <summary>A text in the middle of a box, and behind it nothing but its ground.</summary>
    private void Plate(Box box, string said, Role ground, Role ink)
    {
        var wide = Width(said) + 16;
        var plate = new Box(box.Centre.X - wide / 2, box.Centre.Y - 17, wide, 34);
        shapes.Add(new Area(new Rectangle(plate), ground));
        shapes.Add(Text.Centred(said, plate, Face.Plain, BlockGrid.TextSize, ink, ground));
    }

    // ---- what was there before

    private void Outlines()
    {
        if (telling.Saved is not var (before, old))
        {
            return;
        }
        foreach (var register in before.Datapath.Registers)
        {
            var now = Datapath.Registers.FirstOrDefault(r => r.Name == register.Name);
            if (now is null)
            {
                var row = old.Arrangement.Below.TryGetValue(register, out var m) ? m.Row : 0;
                var y = BlockLayout.Top + row * (BlockLayout.RegisterHeight + 4);
                Outline(
                    new Box(old.X(register), y, old.Breadth(register.Width), BlockLayout.RegisterHeight),
                    register.Name,
                    BlockGrid.Short(register.Size)
                );
            }
            else if (now.Width < register.Width)
            {
                var piece = layout.Of(now);
                var by = register.Size - now.Size;
                Outline(
                    new Box(piece.X + piece.Breadth, piece.Y, by.Count * grid.Pitch, piece.Height),
                    "",
                    BlockGrid.Short(by)
                );
            }
        }
        var units = before.Units.Where(u => u.Settings.Count > 0).Select(u => u.Unit).ToList();
        foreach (var piece in layout.Pieces.Where(p => p.Unit is not null))
        {
            var kind = Datapath.Units.Where(u => u.Kind == piece.Unit!.Kind).ToList();
            var was = units.Where(u => u.Kind == piece.Unit!.Kind).ElementAtOrDefault(kind.IndexOf(piece.Unit!));
            if (was is not null && was.Size.Count > piece.Width)
            {
                var by = was.Size - piece.Unit!.Size;
                Outline(
                    new Box(piece.X + piece.Breadth, piece.Y, by.Count * grid.Pitch, piece.Height),
                    "",
                    BlockGrid.Short(by)
                );
            }
        }
    }

    /// <summary>Dotted where a bar stood in the version before and nothing stands now.</summary>
    private void Outline(Box box, string name, string bits)
    {
        if (box.Right > BlockGrid.Wide - 4 || taken.Exists(t => t.Overlaps(box.Grown(-1))))
        {
            return;
        }
        var fewer = words.Say("blocks.fewer", ("bits", bits));
        var said = name.Length > 0 ? $"{name}: {fewer}" : fewer;
        if (Width(said) + 12 <= box.Width)
        {
            outlines.Add((box, said));
        }
        else if (Beside(box, Face.Plain, Role.Quiet, said))
        {
            outlines.Add((box, ""));
        }
        else
        {
            return;
        }
        taken.Add(box);
    }
}
