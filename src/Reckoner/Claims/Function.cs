namespace Reckoner.Claims;

/// <summary>The functions of formulas.</summary>
public enum Function
{
    Floor,
    Ceiling,

    /// <summary>Towards zero.</summary>
    Truncate,

    /// <summary>To the nearest whole number, halves upward.</summary>
    Round,
    Absolute,

    /// <summary>A logarithm is exact only when it is rounded, so it exists only so.</summary>
    FloorOfLogarithm,
    CeilingOfLogarithm,

    /// <summary>What is left of the first by the second: a - b * floor(a / b), which has the sign of b.</summary>
    Modulo,
    Largest,
    Smallest,
}

/// <summary>How functions are written.</summary>
internal static class Functions
{
    /// <summary>The logarithm to base 2; it must stand inside a rounding.</summary>
    public const string Logarithm = "log2";

    private static readonly Function[] All = Enum.GetValues<Function>();

    /// <summary>Every name that may stand before a bracket.</summary>
    public static IReadOnlyList<string> Names { get; } = [.. All.SelectMany(Spelling).Distinct()];

    /// <summary>The names around the number, the outermost first: floor and log2 in floor(log2(x)).</summary>
    public static IReadOnlyList<string> Spelling(Function function) =>
        function switch
        {
            Function.Floor => ["floor"],
            Function.Ceiling => ["ceil"],
            Function.Truncate => ["trunc"],
            Function.Round => ["round"],
            Function.Absolute => ["abs"],
            Function.FloorOfLogarithm => ["floor", Logarithm],
            Function.CeilingOfLogarithm => ["ceil", Logarithm],
            Function.Modulo => ["mod"],
            Function.Largest => ["max"],
            Function.Smallest => ["min"],
        };

    /// <summary>How many numbers it takes.</summary>
    public static int Arity(Function function) =>
        function switch
        {
            Function.Floor
            or Function.Ceiling
            or Function.Truncate
            or Function.Round
            or Function.Absolute
            or Function.FloorOfLogarithm
            or Function.CeilingOfLogarithm => 1,
            Function.Modulo or Function.Largest or Function.Smallest => 2,
        };

    /// <summary>The function that is written so; null for none.</summary>
    public static Function? Spelt(params IReadOnlyList<string> names) =>
        All.Where(f => Spelling(f).SequenceEqual(names)).Select(f => (Function?)f).FirstOrDefault();
}
