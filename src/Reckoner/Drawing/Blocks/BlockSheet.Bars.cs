using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Reporting;

namespace Reckoner.Drawing;

internal sealed partial class BlockSheet
{
    private const double NarrowestTicks = 8;
    private const double NarrowestDigits = 19;

    private void Bar(BlockPiece piece)
    {
        switch (piece.Kind)
        {
            case BlockPieceKind.Register:
                Register(piece);
                break;
            case BlockPieceKind.Unit:
                Unit(piece);
                break;
            case BlockPieceKind.Table:
                Table(piece);
                break;
            case BlockPieceKind.Choice:
                Strips(piece);
                break;
            case BlockPieceKind.After:
                After(piece);
                break;
            default:
                throw new InvalidOperationException(piece.Kind.ToString());
        }
    }

    // ---- registers

    private void Register(BlockPiece piece)
    {
        var register = piece.Register!;
        var hue = hues.Of(register);
        shapes.Add(
            new Area(new Rectangle(piece.Box, 6), Role.Tint(hue), Role.Ink, 2.4) { Link = new Link(Register: register) }
        );
        Ticks(piece, register);
        var isPassed = false;
        foreach (var way in ways.Where(w => w.From != piece && BlockLayout.Passes(w, piece) && Crosses(w, piece.Box)))
        {
            Pass(way, piece);
            isPassed = true;
        }
        if (
            telling.Wires is { } wires
            && Digits(piece.Box, wires.Before(register), register.Width, Role.Tint(hue), isPassed)
        )
        {
            // Where digits stand in the bar, how it moves is told below.
            lines.AddRange(
                layout.Told.Where(a => a.Register == register).Select(a => $"{After(register)}: {Shifted(a)}")
            );
            return;
        }
        var parts = register.Parts.Where(p => IsApart(p, register)).OrderByDescending(p => p.High).ToList();
        var phrase = register.Phrase?.In(words.Language) ?? "";
        if (nameless.Contains(register))
        {
            phrase = $"{register.Name} {BlockGrid.WidthOf(register)}";
        }
        if (parts.Count == 0 || nameless.Contains(register))
        {
            var folded = layout.Told.FirstOrDefault(a => a.Register == register);
            var news = folded is null ? "" : Shifted(folded);
            var places = folded is null ? "" : Places(BlockLayout.Shift(folded)!.Value.Places);
            string[] all =
                news.Length == 0 ? [phrase]
                : nameless.Contains(register) ? [$"{phrase}: {news}", $"{phrase}: {places}", phrase, register.Name]
                : [$"{phrase}: {news}", news, places];
            var room = piece.Breadth - (Marks(piece).Any() ? 2 * grid.Breadth(1) : 0);
            var said = all.FirstOrDefault(t => Width(t) + 12 <= room);
            if (said is null && news.Length > 0)
            {
                Beside(piece.Box, Face.Plain, Role.Ink, news, places);
            }
            if (said is { Length: > 0 } && isPassed)
            {
                Plate(piece.Box, said, Role.Tint(hue), Role.Ink);
            }
            else if (said is not null)
            {
                Centred(piece.Box, Role.Tint(hue), Face.Plain, Role.Ink, said);
            }
            return;
        }
        foreach (var part in parts)
        {
            var box = Stretch(piece, part.High, part.Low);
            var said = part.Phrase?.In(words.Language) ?? "";
            var reserve = Marks(piece).Any(m => m.Overlaps(box)) ? grid.Breadth(1) : 0;
            Centred(
                box with
                {
                    Left = box.Left + reserve,
                    Width = box.Width - 2 * reserve,
                },
                Role.Tint(hue),
                Face.Plain,
                Role.Ink,
                $"{part.Name}: {said}",
                said,
                part.Name
            );
        }
    }

    private string After(Register register) => words.Say("blocks.after", ("name", register.Name));

    /// <summary>How a register moves that shifts by itself.</summary>
    private string Shifted(BlockPiece after)
    {
        var (places, enters) = BlockLayout.Shift(after)!.Value;
        return $"{Places(places)}, {words.Say("blocks.enters", ("bits", names.Of(enters)))}";
    }

    private static bool IsApart(Part part, Register register) =>
        !register.Parts.Any(p => p != part && p.Low <= part.High && part.Low <= p.High && p.Width >= part.Width);

    private Box Stretch(BlockPiece piece, int high, int low) =>
        new(piece.X + (piece.Width - 1 - high) * grid.Pitch, piece.Y, grid.Breadth(high - low + 1), piece.Height);

    /// <summary>A short tick for each bit, a line through for the end of a part.</summary>
    private void Ticks(BlockPiece piece, Register? register)
    {
        for (var bit = 1; bit < piece.Width && grid.Pitch >= NarrowestTicks; bit++)
        {
            var x = piece.X + (piece.Width - bit) * grid.Pitch;
            var isEnd = register is not null && register.Parts.Any(p => p.Low == bit || p.High == bit - 1);
            shapes.Add(
                isEnd
                    ? new Stroke(Trace.Through(new(x, piece.Y), new(x, piece.Bottom)), Role.Ink, 1.6)
                    : new Stroke(Trace.Through(new(x, piece.Y), new(x, piece.Y + 7)), Role.Quiet, 1.2)
            );
        }
    }

    /// <summary>The digits of a word in its columns; false where these are too narrow for them.</summary>
    /// <param name="isPassed">Whether something runs over the bar, so that digits need a ground of their own.</param>
    private bool Digits(Box box, BigInteger bits, int width, Role on, bool isPassed = false)
    {
        var pitch = grid.Pitch;
        if (pitch < NarrowestDigits)
        {
            // Where no digit has room, the number has.
            var number = bits.ToString(System.Globalization.CultureInfo.InvariantCulture);
            if (Width(number) + 20 <= box.Width)
            {
                Plate(box, number, on, Role.Ink);
            }
            return Width(number) + 20 <= box.Width;
        }
        for (var bit = 0; bit < width; bit++)
        {
            var cell = new Box(box.Left + (width - 1 - bit) * pitch, box.Top, pitch, box.Height);
            var digit = (bits >> bit).IsEven ? "0" : "1";
            if (isPassed)
            {
                shapes.Add(new Area(new Rectangle(new Box(cell.Centre.X - 9, cell.Centre.Y - 14, 18, 28)), on));
            }
            shapes.Add(Text.Centred(digit, cell, Face.Mono, BlockGrid.TextSize, Role.Ink, on));
        }
        return true;
    }

    // ---- units and tables

    private void Unit(BlockPiece piece)
    {
        var unit = piece.Unit!;
        var hue = hues.Of(unit);
        shapes.Add(new Area(new Rectangle(piece.Box, 14), Role.Tint(hue), Role.Edge(hue), 4));
        var wide = BlockGrid.Short(unit.Size);
        var kind = $"{unit.Name ?? UnitText.KindOf(unit, words)} {wide}";
        var told = telling.Wires?.Told(unit);
        var said = told is not null ? names.Said(told) : names.Said(piece.Settings);
        string[] whole = [$"{UnitText.KindOf(unit, words)} {wide}: {said}", $"{kind}: {said}"];
        if (Centred(piece.Box, Role.Tint(hue), Face.Bold, Role.Ink, whole))
        {
            return;
        }
        // What it does is told beside it where only what it is has room inside.
        if (Centred(piece.Box, Role.Tint(hue), Face.Bold, Role.Ink, kind))
        {
            Beside(piece.Box, Face.Plain, Role.Ink, said);
            return;
        }
        Inside(piece, Role.Tint(hue), Face.Bold, [.. whole, kind, said]);
    }

    private void Table(BlockPiece piece)
    {
        var net = piece.Gives[0];
        var hue = hues.Of(net);
        shapes.Add(new Area(new Rectangle(piece.Box, 0), Role.Tint(hue), Role.Edge(hue), 3));
        var asked = string.Join(", ", piece.Word!.Stretches.Select(names.Of));
        if (
            Centred(piece.Box, Role.Tint(hue), Face.Bold, Role.Ink, piece.Said)
            || Beside(piece.Box, Face.Bold, Role.Ink, piece.Said)
        )
        {
            return;
        }
        Inside(
            piece,
            Role.Tint(hue),
            Face.Bold,
            $"{net.Table!.Name}({names.Of(piece.Word!)})",
            $"{net.Table.Name}({asked})",
            net.Table.Name
        );
        lines.Add(piece.Said);
    }

    // ---- behind the edge

    /// <summary>Thinner than a register and open at its left: the same register, a moment later.</summary>
    private void After(BlockPiece piece)
    {
        var register = piece.Register!;
        var low = piece.Width;
        foreach (var stretch in piece.Word!.Stretches)
        {
            low -= stretch.Width;
            var box = Stretch(piece, low + stretch.Width - 1, low);
            var hue = stretch.Net is { } net ? HueOf(net) : Role.Neutral;
            shapes.Add(new Area(new Rectangle(box), Role.Tint(hue)));
        }
        var (left, right) = (piece.X, piece.X + piece.Breadth);
        shapes.Add(
            new Stroke(
                Trace.Through(
                    new(left, piece.Y),
                    new(right, piece.Y),
                    new(right, piece.Bottom),
                    new(left, piece.Bottom)
                ),
                Role.Ink,
                1.6
            )
        );
        if (telling.Wires is { } wires && Digits(piece.Box, wires[piece.Word!], piece.Width, Role.Ground))
        {
            return;
        }
        foreach (var (name, high, from) in Results(register))
        {
            var box = Stretch(piece, high, from);
            shapes.Add(
                new Stroke(
                    Trace.Through(new(box.Left + 2, box.Bottom - 2.5), new(box.Right - 2, box.Bottom - 2.5)),
                    Role.Ink,
                    5
                )
            );
            Centred(box with { Height = box.Height - 4 }, Role.Ground, Face.Bold, Role.Ink, name);
        }
    }

    /// <summary>The results that stand in a register in the end, bit for bit.</summary>
    private IEnumerable<(string Name, int High, int Low)> Results(Register register)
    {
        foreach (var (result, wires) in Datapath.Results.Zip(structure.Results))
        {
            var own = wires
                .Stretches.Where(s => s.Times == 1 && s.Net?.Register == register)
                .OrderBy(s => -s.Width)
                .FirstOrDefault();
            if (own.Net is not null)
            {
                yield return (result.In(words.Language), own.High, own.Low);
            }
        }
    }
}
