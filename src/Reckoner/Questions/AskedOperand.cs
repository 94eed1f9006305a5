using System.Globalization;
using System.Numerics;

namespace Reckoner.Questions;

/// <summary>
/// An operand as it is asked for: a number, in the place of the operand that is next in the text or by name. Numbers are those
/// that the operand's bits stand for, so a signed one may be negative; whether it fits is said when the question is asked.
/// </summary>
/// <param name="Name">Null for the next in the order of the text that has none yet.</param>
/// <param name="Text">The number as people write it.</param>
public readonly record struct AskedOperand(string? Name, string Text)
{
    public string Text
    {
        get => field ?? "";
        init;
    } = Text;

    /// <summary>29, 0b1_1101, 0o35, 0x1d, or name=29.</summary>
    public static AskedOperand Read(string text) =>
        text.IndexOf('=', StringComparison.Ordinal) is var equals and > 0
            ? new AskedOperand(text[..equals], text[(equals + 1)..])
            : new AskedOperand(null, text);

    public static AskedOperand Of(BigInteger number) => new(null, number.ToString(CultureInfo.InvariantCulture));

    public static implicit operator AskedOperand(int number) => Of(number);

    public static implicit operator AskedOperand(BigInteger number) => Of(number);

    public static implicit operator AskedOperand(string text) => Read(text);

    /// <summary>As it is read.</summary>
    public override string ToString() => Name is null ? Text : $"{Name}={Text}";
}
