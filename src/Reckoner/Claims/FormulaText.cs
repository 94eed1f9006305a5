using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Claims;

/// <summary>
/// Formulas as they are written, in canonical form; as the notation's printer writes them. On request some names are replaced
/// by their numbers: 29 = 4 * 6 + 5 for dividend = quotient * divisor + remainder.
/// </summary>
internal sealed class FormulaText
{
    /// <summary>How tightly a form binds, from the loosest to the tightest, as in the grammar.</summary>
    private enum Binding
    {
        Value,
        Logic,
        Negation,
        Comparison,
        Sum,
        Product,
        Sign,
        Atom,
    }

    private static readonly FormulaText AsWritten = new(new Dictionary<string, BigInteger>(), FormulaWords.Notation);

    private readonly IReadOnlyDictionary<string, BigInteger> numbers;
    private readonly FormulaWords spoken;

    private FormulaText(IReadOnlyDictionary<string, BigInteger> numbers, FormulaWords spoken)
    {
        this.numbers = numbers;
        this.spoken = spoken;
    }

    public static string Of(Formula formula) =>
        formula is Truth truth ? AsWritten.Text(truth) : AsWritten.Text((Term)formula);

    public static string Of(ClaimMode mode, Truth formula, Truth? condition) =>
        mode switch
        {
            ClaimMode.Always => Of(formula),
            ClaimMode.When => $"{Of(formula)} when {Of(condition!)}",
            ClaimMode.ExactlyWhen => $"{Of(formula)} exactly when {Of(condition!)}",
        };

    /// <summary>As readers of a language are shown it.</summary>
    public static string Of(Truth formula, FormulaWords spoken) =>
        WithNumbers(formula, new Dictionary<string, BigInteger>(), spoken);

    public static string Of(Formula formula, FormulaWords spoken) =>
        formula is Truth truth ? Of(truth, spoken) : Of((Term)formula, spoken);

    public static string Of(Term formula, FormulaWords spoken) =>
        new FormulaText(new Dictionary<string, BigInteger>(), spoken).Text(formula);

    /// <summary>The same with numbers in the place of names.</summary>
    public static string WithNumbers(
        Truth formula,
        IReadOnlyDictionary<string, BigInteger> numbers,
        FormulaWords spoken
    ) => new FormulaText(numbers, spoken).Text(formula);

    private string Text(Truth t) =>
        t.Kind switch
        {
            TruthKind.Comparison => Text(t.Terms[0], Binding.Sum)
                + string.Concat(t.Relations.Select((r, i) => $" {r.Symbol()} {Text(t.Terms[i + 1], Binding.Sum)}")),
            TruthKind.Between =>
                $"{Text(t.Terms[0], Binding.Sum)} {spoken.Word("in")} {Text(t.Terms[1], Binding.Sum)}..{Text(t.Terms[2], Binding.Sum)}",
            TruthKind.Bracketed => $"({Text(t.Inputs[0])})",
            TruthKind.And => Chain(t, "and"),
            TruthKind.Or => Chain(t, "or"),
            TruthKind.Xor => Chain(t, "xor"),
            TruthKind.Every => $"{Word("every")} {Range(t.Range!)}: {Without(t.Range!.Index).Every(t.Range.Pattern)}",
            TruthKind.Applied => Applied(t.Text, t.Terms),
            TruthKind.Not => $"{spoken.Word("not")} {Text(t.Inputs[0], Binding.Negation)}",
        };

    private static Binding BindingOf(Truth t) =>
        t.Kind switch
        {
            TruthKind.Comparison or TruthKind.Between => Binding.Comparison,
            TruthKind.Bracketed or TruthKind.Applied => Binding.Atom,
            TruthKind.Every => Binding.Value,
            TruthKind.And or TruthKind.Or or TruthKind.Xor => Binding.Logic,
            TruthKind.Not => Binding.Negation,
        };

    private string Text(Truth t, Binding atLeast) => BindingOf(t) < atLeast ? $"({Text(t)})" : Text(t);

    /// <summary>Another word on the left needs brackets: "and" and "or" do not mix.</summary>
    private string Chain(Truth t, string word)
    {
        var left = t.Inputs[0];
        var first = Text(left, left.Kind == t.Kind ? Binding.Logic : Binding.Negation);
        return $"{first} {spoken.Word(word)} {Text(t.Inputs[1], Binding.Negation)}";
    }

    private string Text(Term t) =>
        t.Kind switch
        {
            TermKind.Literal => t.Text,
            TermKind.Named => Name(t.Text),
            TermKind.Variable => Name(t.Variable!.Name),
            TermKind.Bracketed => $"({Text(t.Inputs[0])})",
            TermKind.Negation => Apart($"-{Text(t.Inputs[0], Binding.Sign)}"),
            TermKind.Sum => Pair(t, " + ", Binding.Sum),
            TermKind.Difference => Pair(t, " - ", Binding.Sum),
            TermKind.Product => Pair(t, " * ", Binding.Product),
            TermKind.Multiple => NumberOf(t.Inputs[1]) is null
                ? Text(t.Inputs[0]) + Text(t.Inputs[1])
                : Pair(t, " * ", Binding.Product),
            TermKind.Quotient => Pair(t, IsNumeral(t.Inputs[1]) ? "/" : " / ", Binding.Product),
            TermKind.Power => $"{Root(t.Inputs[0])}^{Close(Text(t.Inputs[1], Binding.Sign))}",
            TermKind.Call => Called(t),
            TermKind.Total =>
                $"{Word("sum")} {Range(t.Range!)} {Word("of")} {Without(t.Range!.Index).Total(t.Range.Pattern)}",
            TermKind.Applied => ValueOf(t)?.ToString() ?? Applied(t.Text, t.Inputs),
        };

    private string Word(string word) => spoken.Word(word);

    private string Range<T>(IndexRange<T> range)
        where T : Formula => $"{range.Index} {Word("in")} {Close(Text(range.Low))}..{Close(Text(range.High))}";

    private string Every(Truth t) => t.Kind == TruthKind.Every ? Text(t) : Text(t, Binding.Logic);

    private string Total(Term t) => t.Kind == TermKind.Total ? Text(t) : Text(t, Binding.Product);

    /// <summary>Inside a range its index is a name, whatever else has that name outside.</summary>
    private FormulaText Without(string index) =>
        numbers.ContainsKey(index) || spoken.Names.ContainsKey(index)
            ? new(
                numbers.Where(n => n.Key != index).ToDictionary(),
                spoken with
                {
                    Names = spoken.Names.Where(n => n.Key != index).ToDictionary(),
                }
            )
            : this;

    private string Applied(string name, IReadOnlyList<Term> inputs) =>
        spoken.Names.GetValueOrDefault(name, name)
        + (inputs.Count == 0 ? "" : $"({string.Join(", ", inputs.Select(Text))})");

    /// <summary>Where names are replaced by their numbers, the number of a name that stands alone for a formula.</summary>
    private Rational? ValueOf(Term t) =>
        numbers.Count > 0
        && t is { Kind: TermKind.Applied, Inputs: [] }
        && t.Variables.All(v => numbers.ContainsKey(v.Name))
            ? new Exact(v => numbers[v.Name]).Number(t)
            : null;

    private Binding BindingOf(Term t) =>
        t.Kind switch
        {
            TermKind.Literal or TermKind.Bracketed or TermKind.Call => Binding.Atom,
            TermKind.Applied => ValueOf(t) is not { } value ? Binding.Atom
            : !value.IsWhole ? Binding.Product
            : value.Sign < 0 ? Binding.Sign
            : Binding.Atom,
            TermKind.Named or TermKind.Variable => NumberOf(t) < 0 ? Binding.Sign : Binding.Atom,
            TermKind.Negation or TermKind.Power => Binding.Sign,
            TermKind.Sum or TermKind.Difference or TermKind.Total => Binding.Sum,
            TermKind.Product or TermKind.Quotient => Binding.Product,
            TermKind.Multiple => NumberOf(t.Inputs[1]) is null ? Binding.Atom : Binding.Product,
        };

    private string Text(Term t, Binding atLeast) => BindingOf(t) < atLeast ? $"({Text(t)})" : Text(t);

    private string Pair(Term t, string sign, Binding binding) =>
        Text(t.Inputs[0], binding)
        + sign
        + (
            t.Inputs[1].Kind == TermKind.Total && binding == Binding.Sum
                ? Text(t.Inputs[1])
                : Text(t.Inputs[1], binding + 1)
        );

    /// <summary>2n^2 is refused as unclear, so a multiple is bracketed under a power.</summary>
    private string Root(Term root) => root.Kind == TermKind.Multiple ? $"({Text(root)})" : Text(root, Binding.Atom);

    private string Called(Term t)
    {
        var names = Functions.Spelling(t.Function);
        var inputs = string.Join(", ", t.Inputs.Select(Text));
        return string.Concat(names.Select(n => n + "(")) + inputs + new string(')', names.Count);
    }

    private string Name(string name) =>
        numbers.TryGetValue(name, out var number) ? Bits.Text(number) : spoken.Names.GetValueOrDefault(name, name);

    /// <summary>The number that is written in the place of a name.</summary>
    private BigInteger? NumberOf(Term name) =>
        numbers.TryGetValue(name.Variable?.Name ?? name.Text, out var number) ? number : null;

    /// <summary>What makes a fraction of what it divides: decimal digits alone.</summary>
    private bool IsNumeral(Term t) =>
        t.Kind == TermKind.Literal
            ? !t.Text.StartsWith("0b", StringComparison.Ordinal)
            : t.Inputs.Count == 0 && NumberOf(t) >= 0;

    /// <summary>Powers stand close together: 2^(n-1).</summary>
    private string Close(string text) =>
        text.Split(' ').Contains(Word("in")) ? text : Apart(text.Replace(" ", "", StringComparison.Ordinal));

    /// <summary>Two hyphens would begin a comment.</summary>
    private static string Apart(string text)
    {
        while (text.Contains("--", StringComparison.Ordinal))
        {
            text = text.Replace("--", "- -", StringComparison.Ordinal);
        }
        return text;
    }
}
