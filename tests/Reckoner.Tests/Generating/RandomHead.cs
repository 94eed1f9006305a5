using System.Text;
using Reckoner.Datapaths;

namespace Reckoner.Tests;

/// <summary>What versions of a machine share: widths, operands, and which operands they are for.</summary>
internal sealed class RandomHead
{
    /// <summary>So many bits of operands are tried one and all in no time.</summary>
    private const int MostNarrow = 8;
    private const int MostSmall = 5;

    private readonly Random random;
    private readonly StringBuilder text = new();

    /// <param name="isBare">Whether the machine has neither operands nor registers.</param>
    /// <param name="isSmall">Whether the machine should be small too.</param>
    public RandomHead(Random random, bool isBare, bool isSmall)
    {
        this.random = random;
        IsSmall = isSmall;
        Sizes = new Sizes(random, isSmall);
        IsBare = isBare;
        Symbols();
        Operands = isBare ? [] : SomeOperands("o");
        Given();
    }

    /// <summary>For a machine inside another: the same widths, operands of its own.</summary>
    public RandomHead(Random random, RandomHead outer)
    {
        this.random = random;
        IsSmall = outer.IsSmall;
        Sizes = outer.Sizes;
        HasTimes = outer.HasTimes;
        text.Append(outer.symbols);
        symbols = outer.symbols;
        Operands = SomeOperands("i");
    }

    public Sizes Sizes { get; }

    public bool IsBare { get; }

    public bool IsSmall { get; }

    /// <summary>Whether "k" is a parameter, for counts.</summary>
    public bool HasTimes { get; private set; }

    public IReadOnlyList<Readable> Operands { get; }

    public IReadOnlyList<string> Names => Sizes.M is null ? ["n"] : ["n", "m"];

    public string Text => text.ToString();

    private string symbols = "";

    private void Symbols()
    {
        text.Append($"width {Sizes.N.Declared}\n");
        if (Sizes.M is { } second)
        {
            text.Append($"width {second.Declared}\n");
        }
        if (random.Next(4) == 0)
        {
            HasTimes = true;
            text.Append($"parameter k = {random.Next(1, 4)} in {random.Next(2)}..{random.Next(3, 6)}\n");
        }
        if (random.Next(4) == 0)
        {
            Sizes.Named = new WidthForm(random.Next(1, 3), 1);
            text.Append($"constant w = {Sizes.Named}\n");
        }
        if (random.Next(6) == 0)
        {
            text.Append($"constant log = ceil(log2(n + {random.Next(1, 4)})) - floor(log2({random.Next(1, 9)}))\n");
        }
        symbols = text.ToString();
    }

    private List<Readable> SomeOperands(string letter)
    {
        var operands = new List<Readable>();
        var left =
            Sizes.IsWide ? Sizes.Most
            : IsSmall ? MostSmall
            : MostNarrow;
        for (var count = random.Next(1, 4); count > 0 && left > 0; count--)
        {
            var width = Sizes.Some(left);
            var reading = random.Next(2) == 0 ? Reading.Signed : Reading.Unsigned;
            operands.Add(new($"{letter}{operands.Count + 1}", width, reading));
            var phrase = new RandomPhrases(random).Maybe("an operand");
            text.Append($"operand {operands[^1].Name}{phrase} : {Type(operands[^1])}\n");
            left -= Sizes.Usual(width);
        }
        return operands;
    }

    public string Type(Readable typed) => (typed.Reading == Reading.Signed ? "signed " : "") + Sizes.Text(typed.Width);

    /// <summary>Sentences that some operands satisfy, whatever the widths.</summary>
    private void Given()
    {
        if (Operands.Count == 0)
        {
            return;
        }
        foreach (var operand in Operands.Where(_ => random.Next(5) == 0))
        {
            var sentence = random.Next(4) switch
            {
                0 => $"{operand.Name} <> 0",
                1 => $"not {operand.Name} in 1..2",
                2 => $"{operand.Name} < 2^({Sizes.Text(operand.Width - 1)}) or {operand.Name} = 0",
                _ => $"abs({operand.Name}) >= {(Sizes.Least(operand.Width) > 1 ? 1 : 0)}",
            };
            text.Append($"given {sentence}\n");
        }
    }
}
