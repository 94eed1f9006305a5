using Reckoner.Structure;

namespace Reckoner.Drawing;

internal sealed partial class BlockLayout
{
    private double UnitX(BlockPiece unit)
    {
        var votes = new Dictionary<double, double>();
        foreach (var setting in unit.Settings)
        {
            for (var i = 0; i < setting.Operands.Count; i++)
            {
                Vote(votes, setting.Operands[i], unit.Width, i == 0 ? 3 : 1);
            }
        }
        Home(votes, unit, 0.5);
        return isSpread && !unit.IsCarried ? Roomiest(unit) : Elected(votes, unit);
    }

    /// <summary>Where the most height is left.</summary>
    private double Roomiest(BlockPiece piece)
    {
        var broad = Math.Max(piece.Breadth, 150) + 20;
        return Enumerable
            .Range(0, 60)
            .Select(i => BlockGrid.Right - broad - i * 20)
            .Where(x => x >= grid.Left)
            .DefaultIfEmpty(grid.Left)
            .MinBy(x => Math.Round(Skyline(x, x + broad) / 40) + (IsOnTheWay(x, x + broad) ? 20 : 0));
    }

    /// <summary>Whether the words of a register come down there.</summary>
    private bool IsOnTheWay(double from, double to) =>
        plan.Afters.Any(a => grid.X(a.Register!) < to + 12 && from - 12 < grid.X(a.Register!) + grid.Breadth(a.Width));

    private double Best(BlockPiece piece)
    {
        if (
            isSpread
            && !piece.IsCarried
            && piece.Word is { } asked
            && asked.Nets.Select(Giver).FirstOrDefault(p => p?.Kind == BlockPieceKind.Unit) is { } above
        )
        {
            return above.X;
        }
        if (isSpread && !piece.IsCarried)
        {
            return Roomiest(piece);
        }
        var votes = new Dictionary<double, double>();
        foreach (var arm in piece.Arms)
        {
            Vote(votes, arm.Word, piece.Width, 1);
        }
        if (piece.Word is not null)
        {
            Vote(votes, piece.Word, piece.Width, 1);
        }
        Home(votes, piece, 1.5);
        var best = Elected(votes, piece);
        var home = new Dictionary<double, double>();
        Home(home, piece, 1);
        return home.Count == 0 || home.Keys.Any(x => Math.Abs(x - best) <= FarthestSlant) ? best : Elected(home, piece);
    }

    private double Elected(Dictionary<double, double> votes, BlockPiece piece)
    {
        var x = votes.OrderByDescending(v => v.Value).ThenBy(v => v.Key).Select(v => v.Key).FirstOrDefault(grid.Left);
        return Math.Clamp(x, BlockGrid.Margin + 34, Math.Max(BlockGrid.Margin + 34, BlockGrid.Right - piece.Breadth));
    }

    private void Vote(Dictionary<double, double> votes, Bundle word, int width, double weight)
    {
        var low = word.Width;
        foreach (var stretch in word.Stretches)
        {
            low -= stretch.Width;
            if (stretch is { Net: { } net, Times: 1 } && X(net, stretch.Low) is { } x)
            {
                Cast(votes, x - (width - 1 - low) * grid.Pitch, weight * stretch.Width);
            }
        }
    }

    /// <summary>The columns of the registers that take what a piece gives, directly or by way of choices.</summary>
    private void Home(Dictionary<double, double> votes, BlockPiece piece, double weight)
    {
        foreach (var (x, bits) in Homes(piece.Gives, piece.Width, 0))
        {
            Cast(votes, x, weight * bits);
        }
    }

    private IEnumerable<(double X, int Bits)> Homes(IReadOnlyList<Net> gives, int width, int depth)
    {
        foreach (var after in plan.Afters)
        {
            foreach (var (stretch, low) in Placed(after.Word!, gives))
            {
                var x = grid.X(after.Register!) + (after.Width - 1 - low) * grid.Pitch;
                yield return (x - (width - 1 - stretch.Low) * grid.Pitch, stretch.Width);
            }
        }
        foreach (
            var choice in depth < 4 ? plan.Pieces.Where(p => p.Kind == BlockPieceKind.Choice && p.Gives.Count > 0) : []
        )
        {
            foreach (var (stretch, low) in choice.Arms.SelectMany(a => Placed(a.Word, gives)))
            {
                foreach (var (home, _) in Homes(choice.Gives, choice.Width, depth + 1))
                {
                    var x = home + (choice.Width - 1 - low) * grid.Pitch;
                    yield return (x - (width - 1 - stretch.Low) * grid.Pitch, stretch.Width);
                }
            }
        }
    }

    /// <summary>The stretches of a word that these nets give, with their lowest places.</summary>
    private static IEnumerable<(Stretch Stretch, int Low)> Placed(Bundle word, IReadOnlyList<Net> gives)
    {
        var low = word.Width;
        foreach (var stretch in word.Stretches)
        {
            low -= stretch.Width;
            if (stretch is { Net: { } net, Times: 1 } && gives.Contains(net) && !Flag(net))
            {
                yield return (stretch, low);
            }
        }
    }

    private static void Cast(Dictionary<double, double> votes, double x, double weight)
    {
        var rounded = Math.Round(x, 2);
        votes[rounded] = votes.GetValueOrDefault(rounded) + weight;
    }
}
