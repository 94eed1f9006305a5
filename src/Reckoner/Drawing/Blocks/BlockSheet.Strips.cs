using Reckoner.Structure;

namespace Reckoner.Drawing;

internal sealed partial class BlockSheet
{
    private readonly HashSet<BlockPiece> celled = [];

    /// <summary>Choices that have no room for what is chosen; it is told below the register.</summary>
    private readonly HashSet<BlockPiece> unsaid = [];

    /// <summary>Whether cells at the ends of the strips say when each is taken.</summary>
    private bool HasCells(BlockPiece choice) => IsWired(choice) || celled.Contains(choice);

    private string CellText(Arm arm) => arm.When.Length > 0 ? arm.When : words.Say("blocks.else");

    private void Strips(BlockPiece piece)
    {
        if (piece.Question is { } question && !IsWired(piece))
        {
            var cell = CellBox(piece, 0);
            var box = piece.Box with
            {
                Height = layout.StripHeight,
                Width = Math.Max(piece.Breadth, cell.Right - piece.X),
            };
            if (Beside(box, Face.Bold, Role.Ink, isLeftFirst: true, [$"{names.Asked(question)}?"]))
            {
                celled.Add(piece);
            }
        }
        if (layout.IsFolded)
        {
            Folded(piece);
            return;
        }
        for (var i = 0; i < piece.Arms.Count; i++)
        {
            var arm = piece.Arms[i];
            var box = ArmBox(piece, i);
            var hue = HueOf(arm.Word);
            var isTaken = telling.Wires is not { } wires || arm.Decides(w => wires[w]);
            shapes.Add(
                isTaken
                    ? new Area(new Rectangle(box, 4), Role.Tint(hue), Role.Edge(hue), 2.2)
                    : new Area(new Rectangle(box, 4), null, Role.Edge(hue), 1.6) { Line = EdgeLine.Dashed }
            );
            Label(piece, arm, i, box, isTaken ? Role.Tint(hue) : Role.Ground, isTaken);
        }
    }

    /// <summary>Where the height does not suffice for a strip each, one bar stands for them.</summary>
    private void Folded(BlockPiece piece)
    {
        var shown = telling.Wires is { } wires
            ? piece.Arms.FirstOrDefault(a => a.Decides(w => wires[w]), piece.Arms[0])
            : piece.Arms[0];
        var hue = HueOf(shown.Word);
        var box = piece.Box with { Top = piece.Y + 2, Height = piece.Height - 4 };
        shapes.Add(new Area(new Rectangle(box, 4), Role.Tint(hue), Role.Edge(hue), 2.2));
        string[] said =
            piece.Arms.Count == 1 || telling.Wires is not null ? [.. ArmText(piece, shown)] : [Chosen(piece)];
        if (!Centred(box, Role.Tint(hue), Face.Plain, Role.Ink, said) && !Beside(box, Face.Plain, Role.Ink, said))
        {
            unsaid.Add(piece);
        }
    }

    private Box ArmBox(BlockPiece piece, int arm) =>
        new(piece.X, piece.Y + arm * layout.StripHeight + 2, piece.Breadth, layout.StripHeight - 4);

    private void Label(BlockPiece piece, Arm arm, int index, Box box, Role on, bool isTaken)
    {
        var face = telling.Wires is not null && isTaken && piece.Arms.Count > 1 ? Face.Bold : Face.Plain;
        var said = ArmText(piece, arm);
        var when = WhenText(piece, arm);
        if (HasCells(piece))
        {
            var cell = CellBox(piece, index);
            var decided = hues.Decided;
            shapes.Add(new Area(new Rectangle(cell, 4), Role.Tint(decided), Role.Edge(decided), 2.2));
            shapes.Add(Text.Centred(CellText(arm), cell, Face.Bold, BlockGrid.TextSize, Role.Ink, Role.Tint(decided)));
            var rest = CellsAtRight(piece)
                ? box with
                {
                    Width = Math.Max(0, cell.Left - box.Left),
                }
                : new Box(cell.Right, box.Top, Math.Max(0, box.Right - cell.Right), box.Height);
            if (IsUntold(piece))
            {
                said = said.Select(s => $"{names.Asked(piece.Question!)} = {arm.When}: {s}").Concat(said);
            }
            if (!Centred(rest, on, face, Role.Ink, said))
            {
                var whole = cell.Right <= box.Right ? box : box with { Width = cell.Right - box.Left };
                if (!Beside(whole, face, Role.Ink, [.. said]))
                {
                    unsaid.Add(piece);
                }
            }
            return;
        }
        var all = said.Select(s => when.Length > 0 ? $"{when}: {s}" : s).ToList();
        if (!Centred(box, on, face, Role.Ink, all) && !Beside(box, face, Role.Ink, [.. all]))
        {
            Centred(box, on, face, Role.Ink, said);
            unsaid.Add(piece);
        }
    }

    private string WhenText(BlockPiece piece, Arm arm) =>
        piece.Arms.Count == 1 ? ""
        : arm.When.Length == 0 ? words.Say("blocks.else")
        : piece.Question is { } question ? When(piece, arm)
        : arm.When;

    /// <summary>What an arm brings: where its bits only move, how far; else what they are called.</summary>
    private IEnumerable<string> ArmText(BlockPiece piece, Arm arm)
    {
        var name = names.Given(arm.Word) ?? (arm.Told is { } told ? names.Said(told) : names.OfNumber(arm.Word));
        if (piece.Serves is null && Moved(piece, arm.Word) is { } places)
        {
            if (places == 0 && layout.Home(piece, arm.Word) is { } home)
            {
                yield return words.Say("blocks.stays", ("name", arm.Word.Stretches.Count == 1 ? name : home.Name));
                yield return name;
                yield break;
            }
            if (places != 0)
            {
                var entering = arm.Word.Stretches.Where(s => s.Net is null).ToList();
                if (entering.Count == 1)
                {
                    yield return $"{Places(places)}, {words.Say("blocks.enters", ("bits", names.Of(entering[0])))}";
                }
                yield return Places(places);
            }
        }
        yield return name;
    }

    private string Places(int places) =>
        words.Say(places > 0 ? "blocks.left" : "blocks.right", ("places", Math.Abs(places)));

    /// <summary>
    /// How many places the bits of a word move to the left on their way into a bar: all that come from bars, those left out that
    /// enter where the others made room. Null where they differ.
    /// </summary>
    private int? Moved(BlockPiece piece, Bundle word)
    {
        var steps = new List<(int? Places, int Low, int Width)>();
        var low = word.Width;
        foreach (var stretch in word.Stretches)
        {
            low -= stretch.Width;
            if (stretch is { Net: { } net, Times: 1 } && !BlockLayout.Flag(net) && layout.Giver(net) is not null)
            {
                var to = piece.X + (piece.Width - 1 - low) * grid.Pitch;
                int? places =
                    layout.X(net, stretch.Low) is { } x && Near(x - to) ? (int)Math.Round((x - to) / grid.Pitch) : null;
                steps.Add((places, low, stretch.Width));
            }
        }
        var main = steps.OrderByDescending(s => s.Width).Select(s => s.Places).FirstOrDefault();
        return steps.TrueForAll(s => s.Places == main || IsEntering(s.Low, s.Width, main ?? 0, word.Width))
            ? main
            : null;
    }

    private static bool IsEntering(int low, int width, int places, int all) =>
        places > 0 ? low + width <= places : places < 0 && low >= all + places;

    /// <summary>Farther than this no shift goes: it is another place of the sheet.</summary>
    private bool Near(double distance) => Math.Abs(distance) <= 4.2 * grid.Pitch;

    private int HueOf(Bundle word)
    {
        var stretch = word
            .Stretches.Where(s => s.Net is not null)
            .OrderByDescending(s => s.Times == 1 ? s.Width : 0)
            .FirstOrDefault();
        return stretch.Net is { } net ? HueOf(net) : Role.Neutral;
    }

    /// <summary>In a cycle what is chosen has the colour of the word that was taken.</summary>
    private int HueOf(Net net) =>
        net.Kind == NetKind.Choice && telling.Wires is { } wires && net.Inputs[0].Width == 1
            ? HueOf(net.Inputs[wires[net.Inputs[0]].IsOne ? 1 : 2])
            : hues.Of(net);
}
