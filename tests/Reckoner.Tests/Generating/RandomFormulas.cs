namespace Reckoner.Tests;

/// <summary>Random claims: sentences about operands and results that have a value for every operand, true or not.</summary>
internal sealed class RandomFormulas(Random random, IReadOnlyList<string> symbols)
{
    private const int Deepest = 2;

    /// <summary>Operands and results, by the names that claims know.</summary>
    public IReadOnlyList<string> Names { get; set; } = [];

    public string Truth() => Truth(random.Next(Deepest + 1));

    private string Truth(int depth)
    {
        if (depth == 0)
        {
            return Compared();
        }
        return random.Next(6) switch
        {
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
        return random.Next(9) switch
        {
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
