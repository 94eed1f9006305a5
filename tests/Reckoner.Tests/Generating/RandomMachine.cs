namespace Reckoner.Tests;

/// <summary>A random description that keeps every rule at its usual widths, with the machines that it names.</summary>
internal sealed record RandomMachine(string Name, string Text, IReadOnlyList<(string Name, string Text)> Beside)
{
    /// <summary>The machines of one seed are always the same.</summary>
    public static RandomMachine Of(int seed) => Of(seed, isSmall: false);

    /// <summary>One that is soon done with, for what must be done often.</summary>
    public static RandomMachine SmallOf(int seed) => Of(seed, isSmall: true);

    private static RandomMachine Of(int seed, bool isSmall)
    {
        var random = new Random(seed);
        var head = new RandomHead(random, random.Next(40) == 0, isSmall);
        var beside = new List<(string, string)>();
        var text = new RandomMachines(random, head) { Name = "drawn" };
        if (random.Next(6) == 0 && head.Operands.Count > 0)
        {
            var before = new RandomMachines(random, head) { Name = "drawn-before", Letter = "b" }.Text();
            beside.Add(("drawn-before", before));
            text.Follows = "drawn-before";
        }
        if (random.Next(6) == 0 && head.Operands.Count > 0)
        {
            var core = new RandomMachines(random, new RandomHead(random, head))
            {
                Name = "drawn-core",
                Letter = "c",
                IsCore = true,
            };
            beside.Add(("drawn-core", core.Text()));
            text.Core = core;
        }
        return new("drawn", text.Text(), beside);
    }

    /// <summary>One that names no other.</summary>
    public static string Alone(int seed)
    {
        var random = new Random(seed);
        return new RandomMachines(random, new RandomHead(random, isBare: false, isSmall: false)).Text();
    }

    /// <summary>Everything of it, one text behind the other.</summary>
    public string Whole => string.Join('\n', Beside.Select(b => b.Text).Append(Text));
}
