using System.Globalization;
using System.Numerics;

namespace Reckoner.Verifier;

/// <summary>How bits are read as a number.</summary>
internal enum Reading
{
    Bare,
    Unsigned,
    Signed,
}

/// <summary>A register or an operand.</summary>
internal sealed record Store(string Name, Size Width, Reading Reading, Tree? Loads);

/// <summary>A name for the places High..Low of a register.</summary>
internal sealed record Part(string Register, Size High, Size Low, Reading Reading);

/// <summary>What a description declares, every width a formula of n; read from its tree and nothing else.</summary>
internal sealed class Machine
{
    private readonly Dictionary<string, Size> numbers = new(StringComparer.Ordinal);
    private readonly HashSet<string> names = new(StringComparer.Ordinal);

    public Machine(Tree tree)
    {
        if (tree.Inside.FirstOrDefault(t => t.Kind is "core" or "table" or "parameter") is { } unknown)
        {
            throw new RefusedException(Refusal.NotKnown, unknown.Kind);
        }
        var width = tree.Of("width").ToList() is [var only]
            ? only
            : throw new RefusedException(Refusal.NotKnown, "width");
        Least = Size(width[1]) is { IsNumber: true } least
            ? least.K
            : throw new RefusedException(Refusal.NotKnown, "width");
        numbers[width.Text] = new(1, 0, 0);
        foreach (var constant in tree.Of("constant"))
        {
            numbers[constant.Text] = Size(constant[0]);
        }
        Operands = [.. tree.Of("operand").Select(o => StoreOf(o, null))];
        Registers = [.. tree.Of("register").Select(r => StoreOf(r, r[1]))];
        foreach (var part in tree.Of("part"))
        {
            var (slice, reading) = part[0] is { Kind: "call" } call
                ? (call[0], call.Text == "signed" ? Reading.Signed : Reading.Unsigned)
                : (part[0], Reading.Unsigned);
            if (slice is not { Kind: "slice", Inside: [{ Kind: "name" } register, var high, var low] })
            {
                throw new RefusedException(Refusal.NotKnown, part.Text);
            }
            Declare(part.Text);
            Parts[part.Text] = new(register.Text, Size(high), Size(low), reading);
        }
        Tree = tree;
    }

    public Tree Tree { get; }

    public int Least { get; }

    public IReadOnlyList<Store> Operands { get; }

    public IReadOnlyList<Store> Registers { get; }

    public Dictionary<string, Part> Parts { get; } = new(StringComparer.Ordinal);

    public Store? Register(string name) => Registers.FirstOrDefault(r => r.Name == name);

    public bool IsNumber(string name) => numbers.ContainsKey(name);

    private Store StoreOf(Tree line, Tree? loads)
    {
        Declare(line.Text);
        var width = Size(line[0][0]);
        return new Region(Least, null).NeverNegative(width - 1)
            ? new(line.Text, width, line[0].Text == "signed" ? Reading.Signed : Reading.Unsigned, loads)
            : throw new RefusedException(Refusal.NotKnown, line.Text);
    }

    /// <summary>Names stand for variables, so no two may be alike.</summary>
    private void Declare(string name)
    {
        if (!names.Add(name) || numbers.ContainsKey(name))
        {
            throw new RefusedException(Refusal.NotKnown, name);
        }
    }

    /// <summary>A width, place or count.</summary>
    public Size Size(Tree formula) =>
        formula switch
        {
            { Kind: "number" } when Whole(formula) is var number && BigInteger.Abs(number) < 1 << 16 => (int)number,
            { Kind: "name" } when numbers.TryGetValue(formula.Text, out var size) => size,
            { Kind: "neg" } => Size(formula[0]) * -1,
            { Kind: "+" } => Size(formula[0]) + Size(formula[1]),
            { Kind: "-" } => Size(formula[0]) - Size(formula[1]),
            { Kind: "*" } when Size(formula[0]) is { IsNumber: true } by => Size(formula[1]) * by.K,
            { Kind: "*" } when Size(formula[1]) is { IsNumber: true } by => Size(formula[0]) * by.K,
            _ => throw new RefusedException(Refusal.NotKnown, formula.Text.Length > 0 ? formula.Text : formula.Kind),
        };

    public static BigInteger Whole(Tree number) =>
        BigInteger.Parse(number.Text.Replace("_", "", StringComparison.Ordinal), CultureInfo.InvariantCulture);
}
