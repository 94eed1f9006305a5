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
            var said = After(after.Register!);
            var news = string.Join(", ", News(after));
            string[] candidates =
                news.Length > 0 ? [$"{said}: {news}", $"{said}: {news.Split(", ")[0]}", said] : [said];
            _ = candidates.Any(c =>
                Enumerable.Range(0, 4).Any(tier => Fits(c, after.X, after.Bottom + 28 + tier * 30, after.Box.Right))
                || Elsewhere(c, after)
            );
        }
    }

    /// <summary>Choices that have been told below a register.</summary>
    private readonly HashSet<BlockPiece> told = [];

    /// <summary>What tables had no room for.</summary>
    private readonly List<string> lines = [];

    /// <summary>What strips and tables had no room for, in lines of their own below everything.</summary>
    private void Unsaid()
    {
        var lowest = layout.Afters.Select(a => a.Bottom).Append(layout.AfterY).Max();
        lines.AddRange(layout.Pieces.Where(p => unsaid.Contains(p) && !told.Contains(p)).Select(Chosen));
        foreach (var line in lines)
        {
            _ = Enumerable.Range(0, 4).Any(tier => Fits(line, BlockGrid.Margin, lowest + 28 + tier * 30));
        }
    }

    /// <summary>A line that has no room below its register stands in the same lines where there is some.</summary>
    private bool Elsewhere(string said, BlockPiece after) =>
        Enumerable
            .Range(0, 3)
            .SelectMany(_ => Enumerable.Range(0, 24), (tier, i) => (tier, X: BlockGrid.Margin + 48 * i))
            .Any(x => x.X <= after.Box.Right && Fits(said, x.X, layout.Afters.Max(a => a.Bottom) + 28 + x.tier * 30));

    /// <param name="last">Where it must begin at the right at the latest.</param>
    private bool Fits(string said, double left, double baseline, double last = BlockGrid.Right)
    {
        var wide = Width(said);
        if (BlockGrid.Margin + wide > BlockGrid.Right)
        {
            return false;
        }
        var x = Math.Clamp(left, BlockGrid.Margin, BlockGrid.Right - wide);
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
        if (!IsFree(text.Box.Grown(2)) || x > last || text.Box.Bottom > grid.High - 6)
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
        choice.Question is not { } question ? arm.When
        : names.Asked(question) is var asked && !asked.Contains(' ', StringComparison.Ordinal) ? $"{asked} = {arm.When}"
        : arm.When switch
        {
            // What is a sentence already is so or is not.
            "1" => asked,
            "0" => words.Say("blocks.not-so", ("condition", asked)),
            _ => $"{asked} = {arm.When}",
        };

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
