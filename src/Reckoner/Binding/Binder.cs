using System.Numerics;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Words;
using Term = Reckoner.Claims.Term;

namespace Reckoner.Binding;

/// <summary>
/// Gives every name its meaning and every value its width and reading, at chosen widths, and says everything that is wrong.
/// Needs a read description; leaves a datapath that every later stage may rely on. What is wrong becomes an unknown value,
/// about which nothing more is said.
/// </summary>
internal sealed partial class Binder
{
    /// <summary>The widest word; a register of more bits is a slip, not a design.</summary>
    public const int WidestWord = 1 << 16;

    /// <summary>How many operations on words of 64 bits all unrolled loops together may have.</summary>
    public const long MostOperations = 4_194_304;

    private readonly Machine machine;
    private readonly Report report;
    private readonly Build build;
    private readonly Source source;
    private readonly Dictionary<string, Symbol> symbols = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Rational> numbers = new(StringComparer.Ordinal);
    private readonly List<Operand> operands = [];
    private readonly List<Result> results = [];
    private readonly Exact exact;
    private readonly FormulaBinding sizes;
    private readonly NamedFormulas formulas;

    private Binder(Machine machine, Report report, Build build)
    {
        this.machine = machine;
        this.report = report;
        this.build = build;
        source = machine.Description.Source;
        exact = new Exact(_ => null, report);
        sizes = new FormulaBinding(report, KnownNumber);
        formulas = new NamedFormulas(report, Lines.OfType<FormulaLine>(), InAnyFormula);
    }

    private IReadOnlyList<Declaration> Lines => machine.Description.Declarations;

    public static Datapath? Bind(
        Machine machine,
        IReadOnlyDictionary<string, BigInteger> chosen,
        Report report,
        bool examine = true
    )
    {
        var binder = new Binder(machine, report, new Build());
        if (!binder.Widths(chosen))
        {
            return null;
        }
        binder.Head();
        binder.Constants();
        binder.DeclareOperands();
        binder.DeclareHardware();
        var core = binder.DeclareCore();
        binder.Loads();
        core?.Loads();
        binder.Schedule(core);
        binder.Results();
        binder.Meanings();
        core?.Meanings();
        var claims = binder.Claims();
        Sharing.Assign(binder.build);
        binder.CheckCore(core);
        binder.Unused();
        if (report.HasErrors)
        {
            return null;
        }
        var datapath = new Datapath
        {
            Machine = machine,
            Widths = [.. machine.Widths.Select(w => (w.Name.Text, binder.numbers[w.Name.Text].Numerator))],
            Numbers = binder.numbers,
            Operands = binder.operands,
            Registers = binder.build.Registers,
            Meanings = binder.build.Meanings,
            Units = binder.build.Units,
            Tables = binder.build.Tables,
            Schedule = binder.build.Schedule,
            Results = binder.results,
            Given = Section(ClaimSection.Given),
            Laws = Section(ClaimSection.Law),
            Outside = Section(ClaimSection.Outside),
        };
        if (examine)
        {
            binder.CheckGiven(datapath, core);
        }
        return datapath;

        List<Claim> Section(ClaimSection section) => claims.FindAll(c => c.Section == section);
    }

    /// <summary>The sentences that stand once: the machine's name, title, what it follows, a width at least.</summary>
    private void Head()
    {
        Once<MachineLine>("machine");
        Once<TitleLine>("title");
        Once<FollowsLine>("follows");
        Once<CoreBlock>("core");
        if (!machine.Widths.Any() && IsWhole)
        {
            report.Add(Id.WidthMissing, Lines.Count > 0 ? Lines[0].Span : new Span(0, 0));
        }
    }

    private void Once<T>(string word)
        where T : Declaration
    {
        foreach (var line in Lines.OfType<T>().Skip(1))
        {
            var first = Lines.OfType<T>().First();
            var place = new Span(line.Span.Start, line.Span.Start + word.Length);
            report.Add(Id.SaidTwice, place, ("word", word), ("line", source.LineOf(first.Span.Start)));
        }
    }

    private int LineOf(Span span) => source.LineOf(span.Start);

    // ---- names

    /// <summary>Enters a name; declared twice is said at the second place.</summary>
    private void Declare(Declared name, Symbol symbol)
    {
        if (name.Text.Length == 0)
        {
            return;
        }
        if (Operations.IsFunction(name.Text) && symbol is TableSymbol)
        {
            report.Add(Id.NameIsFunction, name.Span, ("name", name.Text));
        }
        if (symbol is FormulaSymbol && Functions.Names.Contains(name.Text))
        {
            report.Add(Id.NameIsFunction, name.Span, ("name", name.Text));
        }
        if (!symbols.TryAdd(name.Text, symbol))
        {
            report.Add(Id.DeclaredTwice, name.Span, ("name", name.Text), ("line", symbols[name.Text].Line));
        }
    }

    /// <summary>
    /// Whether nothing should be said about a name: a line that could not be read, or a core that could not be used, may have
    /// declared it.
    /// </summary>
    private bool IsTorn(string name) =>
        name.Length == 0
        || machine.Description.Torn.Contains(name)
        || machine.Description.Torn.Contains("")
        || lostNames.Contains(name)
        || (machine.Core is null && Lines.Any(d => d is CoreBlock));

    /// <summary>
    /// Whether every sentence could be read. If not, nothing is said about what may only be missing or may only seem to
    /// stand together.
    /// </summary>
    private bool IsWhole =>
        machine.Found.All(d => d.Severity != Severity.Error || d.Id == Id.UnknownMachine || d.Id == Id.MachineCircle);

    /// <summary>Looked for while few things are wrong; nobody reads on to the hundredth.</summary>
    private IReadOnlyList<string> Near(string name, IEnumerable<string> known) =>
        report.Count < 100 ? NearNames.Of(name, known) : [];

    private void ReportUnknown(NameReference reference, IEnumerable<string> known)
    {
        if (!IsTorn(reference.Name))
        {
            report.Add(Id.UnknownName, reference.Span, ("name", reference.Name), ("near", Near(reference.Name, known)));
            lostNames.Add(reference.Name);
        }
    }

    /// <summary>For widths, counts and places: the number with this name.</summary>
    private Term? KnownNumber(NameReference reference)
    {
        if (symbols.TryGetValue(reference.Name, out var symbol))
        {
            symbol.IsUsed = true;
            if (numbers.TryGetValue(reference.Name, out var number))
            {
                return Term.Named(reference.Span, reference.Name, number);
            }
            if (symbol is not (NumberSymbol or BitsSymbol))
            {
                report.Add(Id.HardwareInFormula, reference.Span, ("value", reference.Name));
            }
            return null;
        }
        ReportUnknown(reference, numbers.Keys);
        return null;
    }

    /// <summary>A width, count or place: a whole number, or null when something is wrong with it.</summary>
    private BigInteger? Whole(Expression formula) => sizes.Number(formula) is { } bound ? exact.Whole(bound) : null;

    /// <summary>A number of bits from 1 to <see cref="WidestWord"/>.</summary>
    private Size? Bits(Expression formula, string name)
    {
        if (Whole(formula) is not { } count)
        {
            return null;
        }
        if (count < 1)
        {
            report.Add(Id.NoBits, formula.Span, ("name", name), ("size", Spoken(formula, count)));
            return null;
        }
        if (count > WidestWord)
        {
            report.Add(
                Id.TooManyBits,
                formula.Span,
                ("name", name),
                ("size", Spoken(formula, count)),
                ("limit", WidestWord)
            );
            return null;
        }
        return new Size((int)count, LinearFormula.Of(formula));
    }

    /// <summary>Whether a number may be another at another width: constants, too, may be made of widths.</summary>
    private bool NamesNumbers(Expression formula) =>
        sizes.Number(formula)?.Leaves.Any(l => l.Kind == TermKind.Named) == true;

    /// <summary>"n - 2 = 3": a number as it is spoken of and what it is here.</summary>
    private static string Spoken(Expression formula, BigInteger value)
    {
        var symbol = LinearFormula.Of(formula);
        var here = value.GetBitLength() > 200 ? $"about 2^{value.GetBitLength() - 1}" : Vocabulary.Grouped(value);
        return symbol.IsConstant ? here : $"{symbol} = {here}";
    }
}
