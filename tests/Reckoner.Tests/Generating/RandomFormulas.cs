namespace Reckoner.Tests;

/// <summary>Random claims: sentences about operands and results that have a value for every operand, true or not.</summary>
internal sealed class RandomFormulas(Random random, IReadOnlyList<string> symbols)
{
    private const int Deepest = 2;

    /// <summary>Operands and results, by the names that claims know.</summary>
    public IReadOnlyList<string> Names { get; set; } = [];

    /// <summary>Formulas by name, each of one number, and truths of one.</summary>
    public IReadOnlyList<string> Applied { get; init; } = [];
    public IReadOnlyList<string> AppliedTruths { get; init; } = [];

    /// <summary>A number over these names alone.</summary>
    public string Number() => Number(2);

    public string Truth() => Truth(random.Next(Deepest + 1));

    private string Truth(int depth)
    {
        if (depth == 0)
        {
            return Compared();
        }
        return random.Next(8) switch
        {
            6 => $"(every i in {random.Next(2)}..{random.Next(3)}: {Number(1)} {Relation()} i * {Name()})",
            7 when AppliedTruths.Count > 0 => $"{Pick([.. AppliedTruths])}({Number(1)})",
            0 => $"({Truth(depth - 1)} and {Truth(depth - 1)})",
            1 => $"({Truth(depth - 1)} or {Truth(depth - 1)})",
            2 => $"({Truth(depth - 1)} xor {Truth(depth - 1)})",
            3 => $"not ({Truth(depth - 1)})",
            4 when Names.Count > 0 => Divided(Name()),
            _ => Compared(),
        };
    }

    /// <summary>Division by an operand or result, where it is not 0.</summary>
    private string Divided(string name) => $"({name} <> 0 and {Number(1)} / {name} {Relation()} {Number(0)})";

    private string Compared() =>
        random.Next(7) switch
        {
            0 => $"{random.Next(3)} <= {Number(1)} < {Number(1)}",
            1 => $"{Number(1)} in {random.Next(4)}..{Number(0)}",
            2 => $"{Name()} = {Name()}",
            3 => $"{Name()} {Relation()} 2^({Symbol()}-1)",
            _ => $"{Number(2)} {Relation()} {Number(1)}",
        };

    private string Number(int depth)
    {
        if (depth == 0 || random.Next(4) == 0)
        {
            return random.Next(4) == 0 ? $"{random.Next(20)}" : Name();
        }
        string Inner() => Number(depth - 1);
        return random.Next(14) switch
        {
            9 => $"mod({Inner()}, {Pick("2", "4", $"2^{Symbol()}", "3")})",
            10 => $"{Pick("max", "min")}({Inner()}, {Inner()})",
            11 => $"(sum i in 0..{random.Next(3)} of {Name()} * i)",
            12 => $"(({Inner()}) {Pick("*", "/")} 2^(mod({Name()}, 4) - {random.Next(3)}))",
            13 when Applied.Count > 0 => $"{Pick([.. Applied])}({Inner()})",
            0 => $"({Inner()} + {Inner()})",
            1 => $"({Inner()} - {Inner()})",
            2 => $"{random.Next(2, 5)} * {Inner()}",
            3 => $"({Name()} * {Name()})",
            4 => $"{Pick("floor", "ceil", "trunc")}({Inner()} / {random.Next(2, 6)})",
            5 => $"round({Inner()} / 3)",
            6 => $"abs({Inner()})",
            7 => $"({Inner()})^2",
            _ => $"(2^{Symbol()} - {Inner()} / {random.Next(1, 4)})",
        };
    }

    private string Name() => Names.Count == 0 ? $"{random.Next(9)}" : Names[random.Next(Names.Count)];

    private string Symbol() => symbols[random.Next(symbols.Count)];

    private string Relation() => Pick("=", "<>", "<", "<=", ">", ">=");

    private string Pick(params string[] choices) => choices[random.Next(choices.Length)];
}
