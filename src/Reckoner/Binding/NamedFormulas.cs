using Reckoner.Claims;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Term = Reckoner.Claims.Term;

namespace Reckoner.Binding;

/// <summary>
/// The "formula" lines of a description. Each is bound once by itself, its parameters unknown numbers, so that what is wrong in it
/// is said once and where it stands; whoever names it binds it again with what the parameters are there.
/// </summary>
/// <param name="lines">Of several with one name the first counts.</param>
/// <param name="known">What any other name stands for, operands and results among them.</param>
internal sealed class NamedFormulas(Report report, IEnumerable<FormulaLine> lines, Func<NameReference, Term?> known)
{
    /// <summary>How many formulas may name each other in a row.</summary>
    public const int LongestChain = 64;

    /// <summary>How many numbers and relations a formula may come to with every name in it written out.</summary>
    public const int MostTerms = 1 << 16;

    /// <summary>How often names and ranges of a description are written out.</summary>
    public const int MostInAll = 1 << 17;

    /// <summary>How deep they may stand inside each other, so that every later pass may recurse.</summary>
    public const int Deepest = 512;

    private readonly Dictionary<string, FormulaLine> byName = lines
        .GroupBy(l => l.Name.Text)
        .ToDictionary(l => l.Key, l => l.First(), StringComparer.Ordinal);

    /// <summary>What lines say by themselves; null for those in which something is wrong.</summary>
    private readonly Dictionary<FormulaLine, Formula?> bound = new(ReferenceEqualityComparer.Instance);

    /// <summary>Looked for once: whoever names a line asks, and in a row of lines each leads through all before it.</summary>
    private readonly Dictionary<FormulaLine, IReadOnlyList<Variable>> mentioned = new(
        ReferenceEqualityComparer.Instance
    );

    /// <summary>Those that are being bound, each named by the one before it.</summary>
    private readonly List<FormulaLine> open = [];

    private readonly HashSet<string> named = [];
    private bool isDepthTold;
    private int inAll;

    public IEnumerable<string> Names => byName.Keys;

    /// <summary>Those that are named somewhere.</summary>
    public bool IsNamed(string name) => named.Contains(name);

    public FormulaLine? Find(string name) => byName.GetValueOrDefault(name);

    /// <summary>False too where nobody knows: that a line leads to itself, or too deep, is found by who names it.</summary>
    public bool IsTruth(string name) =>
        Find(name) is { } line
        && (bound.ContainsKey(line) || (!IsTooDeep(line) && !open.Contains(line)))
        && Bound(line) is Truth;

    /// <summary>Whether the formulas that are open are too many or, brackets and all, too deep to bind another within them.</summary>
    private bool IsTooDeep(FormulaLine line) =>
        !bound.ContainsKey(line)
        && (open.Count == LongestChain || open.Sum(l => l.Body.Depth) + line.Body.Depth > 2 * Deepest);

    /// <summary>The operands and results that a line speaks of, by itself or through the formulas it names.</summary>
    public IReadOnlyList<Variable> Mentioned(FormulaLine line)
    {
        if (!mentioned.TryGetValue(line, out var variables))
        {
            variables = [.. bound[line]!.Variables.Where(v => v.Kind != VariableKind.Parameter)];
            mentioned.Add(line, variables);
        }
        return variables;
    }

    /// <summary>Binds every line that nobody has named yet.</summary>
    public void Bind()
    {
        foreach (var line in byName.Values)
        {
            _ = Bound(line);
        }
    }

    /// <param name="name">Where it is named, for what is wrong with that.</param>
    public bool IsGood(FormulaLine line, Span name)
    {
        named.Add(line.Name.Text);
        if (open.IndexOf(line) is >= 0 and var at)
        {
            var path = open.Skip(at).Append(line).Select(l => l.Name.Text);
            report.Add(Id.FormulaCircle, name, ("name", line.Name.Text), ("path", string.Join(" > ", path)));
            return false;
        }
        if (IsTooDeep(line))
        {
            ReportTooDeep(report, name);
            return false;
        }
        return Bound(line) is not null;
    }

    /// <summary>Whether a formula is not too large and not too deep, which is reported.</summary>
    public bool Fits(Formula formula, Span place, Report to)
    {
        if (formula.Size.Depth > Deepest)
        {
            ReportTooDeep(to, place);
            return false;
        }
        var isFirst = ++inAll == MostInAll + 1;
        if (formula.Size.Terms > MostTerms || isFirst)
        {
            to.Add(Id.FormulaTooLarge, place, ("limit", MostTerms), ("all", MostInAll));
        }
        return formula.Size.Terms <= MostTerms && inAll <= MostInAll;
    }

    /// <summary>Said once: whoever names what is too deep is deeper still.</summary>
    public void ReportTooDeep(Report to, Span place)
    {
        if (!isDepthTold)
        {
            isDepthTold = true;
            to.Add(Id.FormulaTooDeep, place, ("chain", LongestChain), ("limit", Deepest));
        }
    }

    private Formula? Bound(FormulaLine line)
    {
        if (!bound.TryGetValue(line, out var formula))
        {
            open.Add(line);
            var binding = new FormulaBinding(
                report,
                known,
                this,
                n =>
                    line.Parameters.Index().FirstOrDefault(p => p.Item.Text == n.Name) is (var i, { })
                        ? Term.Of(n.Span, new Variable(VariableKind.Parameter, n.Name, i, 1, IsSigned: false))
                        : null
            );
            formula = binding.Any(line.Body) is { } whole && Fits(whole, line.Name.Span, report) ? whole : null;
            open.RemoveAt(open.Count - 1);
            bound.Add(line, formula);
        }
        return formula;
    }
}
