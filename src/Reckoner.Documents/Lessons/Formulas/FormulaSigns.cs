namespace Reckoner.Documents.Lessons.Formulas;

/// <summary>The signs that formulas have, by how they are typed.</summary>
internal static class FormulaSigns
{
    /// <summary>What stands as it is; some of it is seen otherwise.</summary>
    private static readonly Dictionary<char, Symbol> Characters = new()
    {
        ['+'] = new("+", SymbolRole.Operator),
        ['-'] = new("\u2212", SymbolRole.Operator),
        ['\u2212'] = new("\u2212", SymbolRole.Operator),
        ['*'] = new("\u00B7", SymbolRole.Operator),
        ['\u00B7'] = new("\u00B7", SymbolRole.Operator),
        ['\u00D7'] = new("\u00D7", SymbolRole.Operator),
        ['\u00F7'] = new("\u00F7", SymbolRole.Operator),
        ['\u00B1'] = new("\u00B1", SymbolRole.Operator),
        ['/'] = new("/", SymbolRole.Operator),
        ['='] = new("=", SymbolRole.Relation),
        ['<'] = new("<", SymbolRole.Relation),
        ['>'] = new(">", SymbolRole.Relation),
        [':'] = new(":", SymbolRole.Relation),
        ['\u2264'] = new("\u2264", SymbolRole.Relation),
        ['\u2265'] = new("\u2265", SymbolRole.Relation),
        ['\u2260'] = new("\u2260", SymbolRole.Relation),
        ['\u2248'] = new("\u2248", SymbolRole.Relation),
        ['\u2192'] = new("\u2192", SymbolRole.Relation),
        ['\u2190'] = new("\u2190", SymbolRole.Relation),
        ['('] = new("(", SymbolRole.Opening),
        ['['] = new("[", SymbolRole.Opening),
        [')'] = new(")", SymbolRole.Closing),
        [']'] = new("]", SymbolRole.Closing),
        ['!'] = new("!", SymbolRole.Closing),
        ['\''] = new("\u2032", SymbolRole.Closing),
        ['|'] = new("|", SymbolRole.Name),
        [','] = new(",", SymbolRole.Comma),
        [';'] = new(";", SymbolRole.Comma),
        ['.'] = new(".", SymbolRole.Comma),
    };

    /// <summary>What begins with a backslash.</summary>
    private static readonly Dictionary<string, Symbol> Words = new()
    {
        ["cdot"] = new("\u00B7", SymbolRole.Operator),
        ["times"] = new("\u00D7", SymbolRole.Operator),
        ["div"] = new("\u00F7", SymbolRole.Operator),
        ["pm"] = new("\u00B1", SymbolRole.Operator),
        ["oplus"] = new("\u2295", SymbolRole.Operator),
        ["land"] = new("\u2227", SymbolRole.Operator),
        ["lor"] = new("\u2228", SymbolRole.Operator),
        ["neg"] = new("\u00AC", SymbolRole.Operator),
        ["bmod"] = new("mod", SymbolRole.Operator),
        ["le"] = new("\u2264", SymbolRole.Relation),
        ["leq"] = new("\u2264", SymbolRole.Relation),
        ["ge"] = new("\u2265", SymbolRole.Relation),
        ["geq"] = new("\u2265", SymbolRole.Relation),
        ["ne"] = new("\u2260", SymbolRole.Relation),
        ["neq"] = new("\u2260", SymbolRole.Relation),
        ["approx"] = new("\u2248", SymbolRole.Relation),
        ["equiv"] = new("\u2261", SymbolRole.Relation),
        ["in"] = new("\u2208", SymbolRole.Relation),
        ["to"] = new("\u2192", SymbolRole.Relation),
        ["gets"] = new("\u2190", SymbolRole.Relation),
        ["Rightarrow"] = new("\u21D2", SymbolRole.Relation),
        ["Leftrightarrow"] = new("\u21D4", SymbolRole.Relation),
        ["lfloor"] = new("\u230A", SymbolRole.Opening),
        ["lceil"] = new("\u2308", SymbolRole.Opening),
        ["{"] = new("{", SymbolRole.Opening),
        ["rfloor"] = new("\u230B", SymbolRole.Closing),
        ["rceil"] = new("\u2309", SymbolRole.Closing),
        ["}"] = new("}", SymbolRole.Closing),
        ["sum"] = new("\u2211", SymbolRole.Large),
        ["prod"] = new("\u220F", SymbolRole.Large),
        ["ldots"] = new("\u2026", SymbolRole.Name),
        ["dots"] = new("\u2026", SymbolRole.Name),
        ["infty"] = new("\u221E", SymbolRole.Name),
        ["log"] = new("log", SymbolRole.Name),
        ["max"] = new("max", SymbolRole.Name),
        ["min"] = new("min", SymbolRole.Name),
        ["%"] = new("%", SymbolRole.Name),
        ["_"] = new("_", SymbolRole.Name),
    };

    /// <summary>The Greek letters in the order of their characters, small ones first; no name for those that look like Latin ones.</summary>
    private static readonly string[] Greek =
    [
        .. "alpha beta gamma delta epsilon zeta eta theta iota kappa lambda mu nu xi . pi rho . sigma tau upsilon phi chi psi omega".Split(
            ' '
        ),
    ];

    private const string LargeGreek = "Gamma Delta Theta Lambda Xi Pi Sigma Upsilon Phi Psi Omega";

    public static Symbol? Of(char character) => Characters.GetValueOrDefault(character);

    public static Symbol? Of(string word)
    {
        if (Words.TryGetValue(word, out var sign))
        {
            return sign;
        }
        var isLarge = LargeGreek.Split(' ').Contains(word);
        var place = Array.IndexOf(Greek, isLarge ? word.ToLowerInvariant() : word);
        return place < 0 || word == "."
            ? null
            : new($"{(char)((isLarge ? '\u0391' : '\u03B1') + place)}", SymbolRole.Name);
    }
}
