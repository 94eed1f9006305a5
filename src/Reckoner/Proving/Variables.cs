using System.Globalization;

namespace Reckoner.Proving;

/// <summary>The names of variables and their numbers.</summary>
internal sealed class Variables
{
    private readonly Dictionary<string, int> numbers = new(StringComparer.Ordinal);
    private readonly List<string> names = [""];
    private readonly HashSet<int> operands = [];

    public string this[int variable] => names[variable];

    public int Of(string name)
    {
        if (!numbers.TryGetValue(name, out var number))
        {
            number = numbers[name] = names.Count;
            names.Add(name);
        }
        return number;
    }

    public int Operand(string name)
    {
        var number = Of(name);
        operands.Add(number);
        return number;
    }

    public bool IsOperand(int variable) => operands.Contains(variable);

    /// <summary>1 where a number is below 0, else 0.</summary>
    public int Sign(string name) => Of(name + "<0");

    /// <summary>The size of a number without its sign.</summary>
    public int Magnitude(string name) => Of($"|{name}|");

    /// <summary>A variable that stands for something on one path only.</summary>
    public int Fresh(int count) => Of(string.Create(CultureInfo.InvariantCulture, $"#{count}"));
}
