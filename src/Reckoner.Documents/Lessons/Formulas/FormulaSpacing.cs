namespace Reckoner.Documents.Lessons.Formulas;

/// <summary>How much room stands before each part of a row, in shares of the size of its letters.</summary>
internal static class FormulaSpacing
{
    public const double Thin = 0.17;
    private const double Medium = 0.22;
    private const double Thick = 0.28;

    public static double Before(IReadOnlyList<Formula> parts, int index)
    {
        if (index == 0)
        {
            return 0;
        }
        var (left, right) = (Role(parts[index - 1]), Role(parts[index]));
        // A sign before a number stands close to it, as behind another operator it does.
        var isSign = left == SymbolRole.Operator && (index == 1 || !IsOperand(Role(parts[index - 2])));
        return left == SymbolRole.Relation || right == SymbolRole.Relation ? Thick
            : left == SymbolRole.Words || right == SymbolRole.Words ? 0
            : left == SymbolRole.Comma || left == SymbolRole.Large || right == SymbolRole.Large ? Thin
            : isSign ? 0
            : left == SymbolRole.Operator || (right == SymbolRole.Operator && IsOperand(left)) ? Medium
            : left == SymbolRole.Name && right == SymbolRole.Name && IsLong(parts[index - 1], parts[index]) ? Thin
            : 0;
    }

    private static bool IsOperand(SymbolRole role) =>
        role switch
        {
            SymbolRole.Name or SymbolRole.Number or SymbolRole.Closing or SymbolRole.Words => true,
            SymbolRole.Operator or SymbolRole.Relation or SymbolRole.Opening or SymbolRole.Comma or SymbolRole.Large =>
                false,
        };

    private static bool IsLong(params Formula[] names) => names.Any(n => n is Symbol { Text.Length: > 1 });

    /// <summary>Of what is no symbol: a thing like a name, but for a sum with its bounds.</summary>
    private static SymbolRole Role(Formula formula) =>
        formula.Match(
            symbol: s => s.Role,
            row: _ => SymbolRole.Name,
            scripts: s => s.Of is Symbol { Role: SymbolRole.Large } ? SymbolRole.Large : SymbolRole.Name,
            fraction: _ => SymbolRole.Name,
            root: _ => SymbolRole.Name
        );
}
