using System.Numerics;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Execution;
using Reckoner.Notation;
using Reckoner.Numbers;
using BoundTerm = Reckoner.Claims.Term;
using Term = Reckoner.Diagnostics.Term;

namespace Reckoner.Binding;

internal sealed partial class Binder
{
    private List<Claim> Claims()
    {
        var aboutOperands = new FormulaBinding(report, name => Claimed(name, withResults: false), formulas)
        {
            Kinds = [VariableKind.Operand],
        };
        var aboutAll = new FormulaBinding(report, name => Claimed(name, withResults: true), formulas);
        var claims = new List<Claim>();
        foreach (var line in Lines)
        {
            if (line is GivenLine given && aboutOperands.Truth(given.Formula) is { } always)
            {
                claims.Add(new Claim(ClaimSection.Given, ClaimMode.Always, always, null, line.Span));
            }
            else if (line is ClaimLine claim)
            {
                var formula = aboutAll.Truth(claim.Formula);
                var condition = claim.Condition is null ? null : aboutAll.Truth(claim.Condition);
                if (formula is not null && (condition is null) == (claim.Condition is null))
                {
                    var section = claim.IsOutside ? ClaimSection.Outside : ClaimSection.Law;
                    claims.Add(new Claim(section, ModeOf(claim.Kind), formula, condition, line.Span));
                }
            }
        }
        formulas.Bind();
        foreach (var name in formulas.Names.Where(formulas.IsNamed))
        {
            symbols[name].IsUsed = true;
        }
        return claims;
    }

    private static ClaimMode ModeOf(ClaimCondition kind) =>
        kind switch
        {
            ClaimCondition.Always => ClaimMode.Always,
            ClaimCondition.When => ClaimMode.When,
            ClaimCondition.ExactlyWhen => ClaimMode.ExactlyWhen,
        };

    private BoundTerm? Claimed(NameReference name, bool withResults)
    {
        if (operands.Find(o => o.Name == name.Name) is { } operand)
        {
            return BoundTerm.Of(name.Span, operand.Variable);
        }
        var place = withResults ? results.FindIndex(r => r.Name == name.Name) : -1;
        if (place >= 0)
        {
            return BoundTerm.Of(name.Span, results[place].Variable(place));
        }
        switch (symbols.GetValueOrDefault(name.Name))
        {
            case NumberSymbol or BitsSymbol:
                return KnownNumber(name);
            case OperandSymbol:
                return null;
            case OperandPartSymbol part:
                part.IsUsed = true;
                return Bits(name, part, part.Of.Value.Operand?.Variable);
            case MeaningSymbol:
                report.Add(Id.MeaningAsValue, name.Span, ("value", name.Name));
                return null;
            case RegisterSymbol or PartSymbol:
                report.Add(Id.RegisterInLaw, name.Span, ("name", name.Name));
                return null;
        }
        var known = operands.Select(o => o.Name).Concat(numbers.Keys).Concat(formulas.Names);
        ReportUnknown(name, withResults ? known.Concat(results.Select(r => r.Name)) : known);
        return null;
    }

    /// <summary>
    /// What a name stands for in a formula by itself, which may be bound before registers and results are: tables name formulas too.
    /// </summary>
    private BoundTerm? InAnyFormula(NameReference name)
    {
        if (Lines.OfType<ResultLine>().Any(r => r.Name.Text == name.Name))
        {
            return BoundTerm.Of(name.Span, new Variable(VariableKind.Result, name.Name, 0, 1, IsSigned: false));
        }
        var part = symbols.ContainsKey(name.Name)
            ? null
            : Lines.OfType<PartLine>().FirstOrDefault(p => p.Name.Text == name.Name);
        return part is not null && OperandPart(part) is { } bits
            ? Bits(name, bits, bits.Of.Value.Operand?.Variable)
            : Claimed(name, withResults: false);
    }

    /// <summary>
    /// The number that bits of an operand stand for, whatever its sign: cut off above, cut off below; with a sign of their own, half
    /// their range is added before and taken off after.
    /// </summary>
    private static BoundTerm? Bits(NameReference name, OperandPartSymbol part, Variable? operand)
    {
        if (part.Range is not var (high, low, size) || operand is null)
        {
            return null;
        }
        var place = name.Span;
        BoundTerm Power(int exponent) => BoundTerm.Literal(BigInteger.One << exponent);
        BoundTerm Modulo(BoundTerm term, int exponent) =>
            BoundTerm.Call(place, Reckoner.Claims.Function.Modulo, term, Power(exponent));
        BoundTerm Of(TermKind kind, BoundTerm left, BoundTerm right) => BoundTerm.Of(place, kind, left, right);

        var below = Of(TermKind.Quotient, Modulo(BoundTerm.Of(place, operand), high + 1), Power(low));
        var bits = BoundTerm.Call(place, Reckoner.Claims.Function.Floor, below);
        if (part.Reading == Reading.Signed)
        {
            var half = Power(size.Count - 1);
            bits = Of(TermKind.Difference, Modulo(Of(TermKind.Sum, bits, half), size.Count), half);
        }
        return BoundTerm.Applied(place, name.Name, [], bits);
    }

    /// <summary>
    /// Whether anyone satisfies "given", anyone is left outside it where something is stated, and the core's own "given" follows
    /// from ours, unless the core states what it gives outside. That there is nobody is said only where all operands can be looked
    /// at; whether one breaks the core's "given" is looked at over all where they are few, else over corners.
    /// </summary>
    private void CheckGiven(Datapath datapath, Binder? core)
    {
        if (datapath.Operands.Count == 0 || (datapath.Given.Count == 0 && datapath.Outside.Count == 0 && core is null))
        {
            return;
        }
        var samples = OperandCorners.Of(datapath);
        var inside = samples.Where(datapath.IsGiven).ToList();
        if (
            inside.Count == 0
            && Lines.OfType<GivenLine>().FirstOrDefault() is { } given
            && OperandCorners.Everybody(datapath)?.Any(datapath.IsGiven) == false
        )
        {
            report.Add(Id.GivenNobody, given.Formula.Span, ("widths", Spoken(datapath)));
        }
        else if (
            inside.Count == samples.Count
            && Lines.OfType<ClaimLine>().FirstOrDefault(c => c.IsOutside) is { } outside
            && (datapath.Given.Count == 0 || OperandCorners.Everybody(datapath)?.All(datapath.IsGiven) == true)
        )
        {
            report.Add(Id.OutsideNobody, outside.Formula.Span, ("widths", Spoken(datapath)));
        }
        if (core is not null)
        {
            CheckCoreGiven(datapath, core, inside);
        }
    }

    private static string Spoken(Datapath datapath) => WidthText.Of(datapath.Widths);

    private void CheckCoreGiven(Datapath datapath, Binder core, List<System.Numerics.BigInteger[]> inside)
    {
        var block = Lines.OfType<CoreBlock>().First();
        if (core.Lines.Any(d => d is ClaimLine { IsOutside: true }))
        {
            return;
        }
        var fed = core.symbols.Values.OfType<OperandSymbol>().ToList();
        var given = core.GivenOver([.. fed.Select(s => s.Name)]);
        foreach (var operands in given.Count == 0 ? [] : inside)
        {
            var execution = new Execution<System.Numerics.BigInteger>(new NumberWords(operands));
            var numbers = fed.ConvertAll(s => s.Value.Number(execution.Word(s.Value)));
            var exact = new Exact(v => numbers[v.Index]);
            if (given.Find(g => exact.Truth(g) is false) is { } broken)
            {
                report.Add(
                    Id.CoreGiven,
                    block.Machine.Span,
                    ("machine", block.Machine.Text),
                    ("given", broken.ToString()),
                    (
                        "operands",
                        string.Join(", ", datapath.Operands.Select(o => $"{o.Name} = {o.Number(operands[o.Index])}"))
                    )
                );
                return;
            }
        }
    }

    /// <summary>What "given" says about values that are fed to a core; what is wrong in it is said where it is bound alone.</summary>
    private List<Truth> GivenOver(List<string> fed)
    {
        var unheard = new Report(source);
        // Named formulas too speak of what is fed here.
        var binding = new FormulaBinding(unheard, Fed, new NamedFormulas(unheard, Lines.OfType<FormulaLine>(), Fed));
        return [.. Lines.OfType<GivenLine>().Select(g => binding.Truth(g.Formula)).OfType<Truth>()];

        BoundTerm? Fed(NameReference name) =>
            fed.IndexOf(name.Name) is >= 0 and var at ? BoundTerm.Of(name.Span, FedAs(name.Name, at))
            : symbols.GetValueOrDefault(name.Name) is OperandPartSymbol part
                ? Bits(name, part, FedAs(part.Of.Name, fed.IndexOf(part.Of.Name)))
            : numbers.TryGetValue(name.Name, out var number) ? BoundTerm.Named(name.Span, name.Name, number)
            : null;
    }

    /// <summary>A value is fed as a number, so that its width does not matter.</summary>
    private static Variable FedAs(string name, int index) => new(VariableKind.Operand, name, index, 0, IsSigned: false);

    // ---- never used

    /// <summary>Remarks about what is declared and never used; nothing of it on lines that could not be read.</summary>
    private void Unused()
    {
        if (report.HasErrors)
        {
            return;
        }
        foreach (var (name, symbol) in wires)
        {
            if (!symbol.IsUsed)
            {
                report.Add(
                    Id.NeverUsed,
                    name.Span,
                    ("is", new Term("wire")),
                    ("name", name.Text),
                    ("how", new Term("never-used"))
                );
            }
        }
        foreach (var line in Lines)
        {
            var name = NameToUse(line);
            if (name is null || !symbols.TryGetValue(name.Text, out var symbol))
            {
                continue;
            }
            if (!symbol.IsUsed)
            {
                var how = symbol is RegisterSymbol { IsWritten: true } ? "never-read" : "never-used";
                report.Add(
                    Id.NeverUsed,
                    name.Span,
                    ("is", new Term(symbol.Kind)),
                    ("name", name.Text),
                    ("how", new Term(how))
                );
            }
            else if (symbol is RegisterSymbol { IsWritten: false })
            {
                report.Add(Id.NeverWritten, name.Span, ("name", name.Text));
            }
        }
    }

    /// <summary>The name that a line declares for other lines to use.</summary>
    private static Declared? NameToUse(Declaration line) =>
        line.Match<Declared?>(
            machine: _ => null,
            title: _ => null,
            note: _ => null,
            follows: _ => null,
            width: d => d.Name,
            constant: d => d.Name,
            operand: d => d.Name,
            given: _ => null,
            register: d => d.Name,
            part: d => d.Name,
            meaning: _ => null,
            unit: d => d.Name,
            table: d => d.Name,
            core: _ => null,
            repeat: _ => null,
            step: _ => null,
            result: _ => null,
            formula: d => d.Name,
            claim: _ => null
        );
}
