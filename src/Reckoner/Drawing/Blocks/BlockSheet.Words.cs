using Reckoner.Datapaths;
using Reckoner.Measuring;
using Reckoner.Numbers;
using Reckoner.Structure;

namespace Reckoner.Drawing;

internal sealed partial class BlockSheet
{
    private const double LargestTitle = 36;
    private const int LongestEntering = 32;

    private void Head()
    {
        var title = FigureHead.Title(Datapath, words);
        var room = BlockGrid.Right - BlockGrid.Margin;
        var size = Math.Clamp(
            room / (Width(title, Face.Bold, 1) * Typeface.WidestInstead),
            BlockGrid.TextSize,
            LargestTitle
        );
        if (Width(title, Face.Bold, size) <= room)
        {
            Say(title, BlockGrid.Margin, 46, Anchor.Start, Face.Bold, size: size);
            var second = telling.Second.FirstOrDefault(s => Width(s) <= room, "");
            Say(second, BlockGrid.Margin, 84, Anchor.Start, ink: Role.Quiet);
            return;
        }
        var cut = Enumerable
            .Range(0, title.Length)
            .Last(i => title[i] == ' ' && Width(title[..i], Face.Bold) * Typeface.WidestInstead <= room);
        Say(title[..cut], BlockGrid.Margin, 40, Anchor.Start, Face.Bold);
        Say(title[(cut + 1)..], BlockGrid.Margin, 70, Anchor.Start, Face.Bold);
    }

    /// <summary>The registers' names and widths: above the top row, beside the others.</summary>
    private void Names()
    {
        foreach (var register in Datapath.Registers)
        {
            var piece = layout.Of(register);
            var wide = BlockGrid.NameWidth(register);
            if (!grid.Arrangement.Below.ContainsKey(register))
            {
                Name(register, grid.NameX(register), piece.Y - 10);
                continue;
            }
            var baseline = piece.Box.Centre.Y + Rise(Face.Bold, BlockGrid.NameSize) / 2;
            var left = new Box(piece.X - 10 - wide, piece.Y + 6, wide, piece.Height - 12);
            var right = left with { Width = wide, Left = piece.X + piece.Breadth + 10 };
            if (new[] { left, right }.Where(b => b.Left > 6 && b.Right < BlockGrid.Wide - 6).Any(IsFree))
            {
                Name(register, (IsFree(left) && left.Left > 6 ? left : right).Left, baseline);
            }
            else
            {
                nameless.Add(register);
            }
        }
    }

    /// <summary>Registers without room beside their bars: they are named inside.</summary>
    private readonly HashSet<Register> nameless = [];

    private void Name(Register register, double x, double baseline)
    {
        Say(register.Name, x, baseline, Anchor.Start, Face.Bold, size: BlockGrid.NameSize);
        Say(
            BlockGrid.WidthOf(register),
            x + Width(register.Name, Face.Bold, BlockGrid.NameSize) * Typeface.WidestInstead + 6,
            baseline,
            Anchor.Start,
            ink: Role.Quiet
        );
    }

    /// <summary>Below each register what became of it: how far it moved, what entered, where nothing else says so.</summary>
    private void Movements()
    {
        foreach (var after in layout.Afters.OrderBy(a => a.X))
        {
            var said = words.Say("blocks.after", ("name", after.Register!.Name));
            var news = string.Join(", ", News(after));
            string[] candidates =
                news.Length > 0 ? [$"{said}: {news}", $"{said}: {news.Split(", ")[0]}", said] : [said];
            _ = candidates
                .SelectMany(c => Enumerable.Range(0, 4), (c, tier) => (c, tier))
                .Any(x => Fits(x.c, after, after.Bottom + 28 + x.tier * 30));
        }
    }

    /// <summary>Choices that have been told below a register.</summary>
    private readonly HashSet<BlockPiece> told = [];

    /// <summary>What strips had no room for, in a line of its own below everything.</summary>
    private void Unsaid()
    {
        var lowest = layout.Afters.Select(a => a.Bottom).Append(layout.AfterY).Max();
        foreach (var choice in layout.Pieces.Where(p => unsaid.Contains(p) && !told.Contains(p)))
        {
            foreach (var tier in Enumerable.Range(0, 4))
            {
                var at = new Point(BlockGrid.Margin, lowest + 28 + tier * 30);
                var text = new Text(
                    Chosen(choice),
                    at,
                    Anchor.Start,
                    Face.Plain,
                    BlockGrid.TextSize,
                    Role.Ink,
                    Role.Ground,
                    null
                );
                var isOnSheet = text.Box.Right <= BlockGrid.Right && text.Box.Bottom < grid.High - 6;
                if (isOnSheet && IsFree(text.Box.Grown(2)))
                {
                    shapes.Add(text);
                    taken.Add(text.Box);
                    break;
                }
            }
        }
    }

    private bool Fits(string said, BlockPiece after, double baseline)
    {
        var wide = Width(said);
        if (BlockGrid.Margin + wide > BlockGrid.Right)
        {
            return false;
        }
        var x = Math.Clamp(after.X, BlockGrid.Margin, BlockGrid.Right - wide);
        var text = new Text(
            said,
            new Point(x, baseline),
            Anchor.Start,
            Face.Plain,
            BlockGrid.TextSize,
            Role.Ink,
            Role.Ground,
            null
        );
        if (!IsFree(text.Box.Grown(2)) || x > after.X + after.Breadth || text.Box.Bottom > grid.High - 6)
        {
            return false;
        }
        shapes.Add(text);
        taken.Add(text.Box with { Width = text.Box.Width + 16 });
        return true;
    }

    private IEnumerable<string> News(BlockPiece after)
    {
        var word = after.Word!;
        if (Moved(after, word) is { } places and not 0)
        {
            yield return Places(places);
            var enters = places > 0 ? word.Part(0, places) : word.Part(word.Width + places, -places);
            var said = names.Of(enters);
            if (said.Length <= LongestEntering && !IsOfMain(word, enters))
            {
                yield return words.Say("blocks.enters", ("bits", said));
            }
        }
        else if (word.Stretches is [{ Net: { } net }] && layout.Giver(net) is { } choice && unsaid.Contains(choice))
        {
            told.Add(choice);
            yield return Chosen(choice);
        }
        else if (!ways.Any(w => w.Into == after))
        {
            yield return names.Of(word);
        }
    }

    /// <summary>Whether bits are only the end of the word that moves.</summary>
    private static bool IsOfMain(Bundle word, Bundle enters) =>
        word.Stretches.MaxBy(s => s.Width) is var main
        && enters.Stretches is [{ Net: { } net } only]
        && main.Net == net
        && (main.Low == only.Low || main.High == only.High);

    private string Chosen(BlockPiece choice) =>
        string.Join(
            $" {words.Say("blocks.else")} ",
            choice.Arms.Select(a =>
                a == choice.Arms[^1]
                    ? names.Of(a.Word)
                    : words.Say("blocks.chosen", ("word", names.Of(a.Word)), ("condition", When(choice, a)))
            )
        );

    private string When(BlockPiece choice, Arm arm) =>
        choice.Question is { } question ? $"{names.Of(question)} = {arm.When}" : arm.When;

    private void Foot()
    {
        var hardware = Hardware.Of(Datapath);
        var adders = Comparison.BitsOf(hardware, UnitKind.Adder);
        var totals = words.Say(
            "blocks.totals",
            ("registers", Counted(hardware.RegisterBits)),
            ("adders", Counted(adders))
        );
        Say(totals, BlockGrid.Right, grid.High - 18, Anchor.End, ink: Role.Quiet);
        if (telling.Saved is not var (structure, _))
        {
            return;
        }
        var before = Hardware.Of(structure.Datapath);
        var saved = new List<string>();
        Add("blocks.saved-registers", before.RegisterBits - hardware.RegisterBits);
        Add("blocks.saved-adders", Comparison.BitsOf(before, UnitKind.Adder) - adders);
        if (saved.Count > 0)
        {
            Say(
                words.Say("blocks.saved", ("what", string.Join(", ", saved))),
                BlockGrid.Margin,
                grid.High - 18,
                Anchor.Start,
                Face.Bold
            );
        }

        void Add(string key, Size size)
        {
            if (size.Count > 0)
            {
                saved.Add(words.Say(key, ("bits", BlockGrid.Short(size))));
            }
        }

        static string Counted(Size size) =>
            BlockGrid.Short(size) is var said && said == $"{size.Count}" ? said : $"{said} = {size.Count}";
    }
}
