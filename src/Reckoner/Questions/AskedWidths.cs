using System.Globalization;
using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Questions;

/// <summary>
/// Widths and parameters as they are asked for: a number for the main one or by name, several; in a check one of them may be a
/// range. Those that are not named take their default.
/// </summary>
public sealed class AskedWidths
{
    private const string To = "..";

    /// <summary>As many widths as are asked about at once.</summary>
    internal const int MostInRange = 1024;

    /// <summary>Longer numbers are not even looked at.</summary>
    private const int MostBits = 4096;

    private readonly IReadOnlyList<Item> items;

    private AskedWidths(IReadOnlyList<Item> items) => this.items = items;

    /// <param name="Name">Null for the main width.</param>
    /// <param name="Text">A number as people write it, or two and ".." between them.</param>
    /// <param name="Known">The number, where it was given as one.</param>
    private sealed record Item(string? Name, string Text, BigInteger? Known = null)
    {
        /// <summary>Null where the text is none. A number that no machine is so wide as is one too, and its range says so.</summary>
        public BigInteger? Number =>
            Known ?? (OperandReader.Number(Text) is { } number && number.GetBitLength() <= MostBits ? number : null);

        /// <summary>As it was asked for; nothing at all as a pair of quotes, or nobody would see it.</summary>
        public string Written =>
            Name is not null ? $"{Name}={Text}"
            : Text.Length > 0 ? Text
            : "\"\"";

        public static Item Of(string? name, BigInteger number) =>
            new(name, number.ToString(CultureInfo.InvariantCulture), number);

        /// <summary>The ends of a range; null where it is none, or where one of them is no number.</summary>
        public (BigInteger From, BigInteger To)? Ends =>
            Text.Split(AskedWidths.To, 2).Select(OperandReader.Number).ToList() is [{ } from, { } to]
                ? (from, to)
                : null;

        public static Item Read(string text) =>
            text.Split('=', 2) is [var name, var value] ? new Item(name, value) : new Item(null, text);
    }

    /// <summary>Every width at its default.</summary>
    public static AskedWidths Usual { get; } = new([]);

    /// <summary>The main width: the first that the description declares.</summary>
    public static AskedWidths Main(BigInteger width) => new([Item.Of(null, width)]);

    public static AskedWidths Named(IEnumerable<KeyValuePair<string, BigInteger>> widths)
    {
        ArgumentNullException.ThrowIfNull(widths);
        return new([.. widths.Select(w => Item.Of(w.Key, w.Value))]);
    }

    /// <summary>As they are written: 8, or n=8,m=4; in a check also 4..8 or n=4..8,m=4. What is wrong is said when it is asked.</summary>
    public static AskedWidths Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return new([.. text.Split(',').Select(Item.Read)]);
    }

    public static implicit operator AskedWidths(int main) => Main(main);

    public static implicit operator AskedWidths(string text) => Read(text);

    /// <summary>One choice of widths; null with the reason in the findings.</summary>
    /// <param name="index">Which of the machines of the question they are for.</param>
    internal IReadOnlyDictionary<string, BigInteger>? Chosen(IMachine machine, int index, Findings found) =>
        Chosen(machine, index, items, found);

    /// <summary>
    /// All choices, in a range from the lowest; null with the reason in the findings. Of a range that is too long only its ends, so
    /// that it is said first where one of them is no width of the machine.
    /// </summary>
    internal (bool IsRange, IReadOnlyList<IReadOnlyDictionary<string, BigInteger>> Choices)? Choices(
        IMachine machine,
        Findings found
    )
    {
        var range = items.FirstOrDefault(i => i.Ends is not null);
        if (range?.Ends is not var (from, to) || machine.Widths.FirstOrDefault() is not { } main)
        {
            // An end that is no number is refused as a width that is none.
            return Chosen(machine, 0, found) is { } one ? (false, [one]) : null;
        }
        var name = range.Name ?? main.Name.Text;
        var lowest = new Item(name, from.ToString(CultureInfo.InvariantCulture));
        if (Chosen(machine, 0, [.. items.Select(i => i == range ? lowest : i)], found) is not { } first)
        {
            return null;
        }
        if (from > to)
        {
            found.Add(Id.WidthsTurned, AskedPart.Widths, 0, ("width", AskedWord.Width), ("from", from), ("to", to));
            return null;
        }
        IEnumerable<BigInteger> each =
            to - from < MostInRange ? Enumerable.Range(0, (int)(to - from) + 1).Select(i => from + i) : [from, to];
        return (true, [.. each.Select(width => new Dictionary<string, BigInteger>(first) { [name] = width })]);
    }

    /// <summary>Whether one of them is a range.</summary>
    internal bool IsRange => items.Any(i => i.Ends is not null);

    /// <summary>Refuses a range of more widths than are asked about at once; whether it did.</summary>
    internal bool IsTooLong(Findings found)
    {
        if (
            items.Select(i => i.Ends).FirstOrDefault(e => e is not null) is not var (from, to)
            || to - from < MostInRange
        )
        {
            return false;
        }
        found.Add(Id.WidthsTooMany, AskedPart.Widths, 0, ("count", to - from + 1), ("most", MostInRange));
        return true;
    }

    private static Dictionary<string, BigInteger>? Chosen(
        IMachine machine,
        int index,
        IReadOnlyList<Item> items,
        Findings found
    )
    {
        var widths = new Dictionary<string, BigInteger>();
        var names = machine.Widths.Select(w => w.Name.Text).ToList();
        foreach (var item in names.Count == 0 ? [] : items)
        {
            var name = item.Name ?? names[0];
            if (item.Ends is not null)
            {
                found.Add(
                    Id.WidthNotOne,
                    AskedPart.Widths,
                    index,
                    ("value", Excerpt.Of(item.Text)),
                    ("width", AskedWord.Width)
                );
                return null;
            }
            if (item.Number is not { } number)
            {
                found.Add(
                    Id.WidthNotNumber,
                    AskedPart.Widths,
                    index,
                    ("value", Excerpt.Of(item.Written)),
                    ("width", AskedWord.Width),
                    ("example", string.Join(',', names.Select((n, i) => $"{n}={8 - 4 * (i % 2)}")))
                );
                return null;
            }
            if (!names.Contains(name))
            {
                found.Add(
                    Id.UnknownWidth,
                    AskedPart.Widths,
                    index,
                    ("machine", machine.Name),
                    ("name", name),
                    ("known", names),
                    ("near", NearNames.Of(name, names))
                );
                return null;
            }
            if (!widths.TryAdd(name, number))
            {
                found.Add(Id.OptionTwice, AskedPart.Widths, index, ("option", name));
                return null;
            }
        }
        return widths;
    }
}
