namespace Reckoner.Words;

/// <summary>What a stretch of a sentence is; outputs set each kind in their own way.</summary>
public enum RunKind
{
    /// <summary>Words of the message table.</summary>
    Text,

    /// <summary>Words put in, most of them from the description.</summary>
    Phrase,

    /// <summary>Something as the description writes it.</summary>
    Formula,

    /// <summary>Digits that keep their leading zeros, in groups with a blank between.</summary>
    Digits,

    /// <summary>A whole number in decimal.</summary>
    Number,

    /// <summary>A sign for each bit or each cycle, in groups with a blank between.</summary>
    Marks,
}

/// <param name="Base">Of digits and numbers: 2, 8, 10 or 16; else 0.</param>
public readonly record struct Run(RunKind Kind, string Text, int Base = 0)
{
    public static Run Formula(string text) => new(RunKind.Formula, text);

    public static Run Number(System.Numerics.BigInteger number) => new(RunKind.Number, Numbers.Bits.Text(number), 10);
}

/// <summary>A sentence, or the content of a cell: runs that know what they are.</summary>
public sealed record Content(IReadOnlyList<Run> Runs)
{
    public static readonly Content Empty = new([]);

    public bool IsEmpty => Runs.All(r => r.Text.Length == 0);

    public static implicit operator Content(Run run) => new([run]);

    public static Content Phrase(string text) => new([new Run(RunKind.Phrase, text)]);

    public static Content Text(string text) => new([new Run(RunKind.Text, text)]);

    public static Content Join(string separator, IEnumerable<Content> parts)
    {
        var runs = new List<Run>();
        foreach (var part in parts)
        {
            if (runs.Count > 0)
            {
                runs.Add(new Run(RunKind.Text, separator));
            }
            runs.AddRange(part.Runs);
        }
        return new Content(runs);
    }

    public static Content operator +(Content first, Content second) => new([.. first.Runs, .. second.Runs]);

    public bool Equals(Content? other) => other is not null && Runs.SequenceEqual(other.Runs);

    public override int GetHashCode() => ToString().GetHashCode(StringComparison.Ordinal);

    /// <summary>Plain text.</summary>
    public override string ToString() => string.Concat(Runs.Select(r => r.Text));
}
