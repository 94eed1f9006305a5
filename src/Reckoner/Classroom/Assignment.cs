using System.Globalization;
using System.Numerics;
using System.Security.Cryptography;
using System.Text;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Classroom;

/// <summary>What a whole class is to work out: so many sums on one machine, the operands of each from a number of one's own.</summary>
/// <param name="Sums">From 1 to <see cref="MostSums"/>.</param>
internal sealed record Assignment(SittingRules Rules, int Sums)
{
    public const int MostSums = 8;

    private static readonly (Filling Fill, string Word)[] Fillings =
    [
        (Filling.All, "all"),
        (Filling.Decisions, "decisions"),
        (Filling.Bits, "bits"),
    ];

    /// <summary>What a link says of it.</summary>
    public IEnumerable<(string Key, string Value)> Values =>
        [
            ("task", Fillings.First(f => f.Fill == Rules.Fill).Word),
            ("sums", Sums.ToString(CultureInfo.InvariantCulture)),
            .. Rules.HasHints ? [] : new[] { ("hints", "no") },
        ];

    /// <summary>Null where a link sets no task, or none of these.</summary>
    public static Assignment? Read(IReadOnlyDictionary<string, string> values)
    {
        var fill = Array.FindIndex(Fillings, f => f.Word == values.GetValueOrDefault("task"));
        return
            fill >= 0
            && int.TryParse(
                values.GetValueOrDefault("sums", "1"),
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var sums
            )
            && sums is >= 1 and <= MostSums
            ? new Assignment(new SittingRules(Fillings[fill].Fill, values.GetValueOrDefault("hints") != "no"), sums)
            : null;
    }
}

/// <summary>An assignment on hardware: who gets which operands.</summary>
internal sealed class AssignedSums(Datapath datapath, Assignment assignment)
{
    /// <summary>A number of one's own is at most so long.</summary>
    public const int LongestNumber = 24;

    /// <summary>So many operands inside "given" are looked at for some in whose walk a decision falls both ways.</summary>
    private const int Looked = 24;

    /// <summary>Cycles that are walked for that, about, for each sum: the page has one thread.</summary>
    private const int MostCycles = 20_000;

    /// <summary>So many are drawn where "given" excludes most.</summary>
    private const int Drawn = 4000;

    public Datapath Datapath => datapath;

    public Assignment Assignment => assignment;

    /// <summary>Tells one task from another: the machine's text, its widths, what is to be done.</summary>
    public string Mark { get; } =
        $"{datapath.Machine.Hash} {WidthText.Of(datapath.Widths)} {string.Join(' ', assignment.Values)}";

    /// <summary>A number as it counts: its letters and digits, in capitals; empty where it has none or too many.</summary>
    public static string Plain(string number)
    {
        var plain = string.Concat(number.Where(char.IsAsciiLetterOrDigit)).ToUpperInvariant();
        return plain.Length > LongestNumber ? "" : plain;
    }

    /// <summary>
    /// The bits of the operands of each sum, the same wherever they are drawn. In their walks a decision falls both ways where such
    /// are soon found. Null where none inside "given" are found.
    /// </summary>
    /// <param name="number">As <see cref="Plain"/> gives it.</param>
    public IReadOnlyList<IReadOnlyList<BigInteger>>? For(string number)
    {
        var sums = new List<IReadOnlyList<BigInteger>>();
        for (var sum = 0; sum < assignment.Sums; sum++)
        {
            var seed = SHA256.HashData(Encoding.UTF8.GetBytes($"{Mark}\n{number}\n{sum}"));
            if (Chosen(new Generator(BitConverter.ToUInt64(seed)), sums) is not { } operands)
            {
                return null;
            }
            sums.Add(operands);
        }
        return sums;
    }

    private IReadOnlyList<BigInteger>? Chosen(Generator generator, List<IReadOnlyList<BigInteger>> before)
    {
        IReadOnlyList<BigInteger>? first = null;
        var looked = 0;
        var most = Math.Clamp(MostCycles / Math.Max(1, datapath.MostCycles), 1, Looked);
        for (var i = 0; i < Drawn && looked < most; i++)
        {
            var operands = datapath.Operands.Select(o => Bits(generator, o.Width)).ToArray();
            if (!datapath.IsGiven(operands) || before.Exists(b => b.SequenceEqual(operands)))
            {
                continue;
            }
            first ??= operands;
            looked++;
            if (FallsBothWays(Walk.Of(datapath, operands)))
            {
                return operands;
            }
        }
        return first ?? before.FirstOrDefault();
    }

    private static BigInteger Bits(Generator generator, int width)
    {
        var bits = BigInteger.Zero;
        for (var i = 0; i < width; i += 64)
        {
            bits = (bits << 64) | generator.Next();
        }
        return Numbers.Bits.Wrap(bits, width);
    }

    private static bool FallsBothWays(Walk walk) =>
        walk
            .Rows.SelectMany(r => r.Moments)
            .SelectMany(m => m.Happenings)
            .OfType<Tested>()
            .Where(t => t.IsLast is null)
            .GroupBy(t => (t.Source, t.Line))
            .Any(asked => asked.Select(t => t.Way).Distinct().Count() > 1);
}
