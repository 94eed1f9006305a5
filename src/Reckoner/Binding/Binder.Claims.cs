using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Execution;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Binding;

internal sealed partial class Binder
{
    private (List<Expression> Given, List<Claim> Laws, List<Claim> Outside) Claims()
    {
        var aboutOperands = new FormulaCheck(report, name => MayBeClaimed(name, withResults: false));
        var aboutAll = new FormulaCheck(report, name => MayBeClaimed(name, withResults: true));
        var given = new List<Expression>();
        var laws = new List<Claim>();
        var outside = new List<Claim>();
        foreach (var line in Lines)
        {
            if (line is GivenLine g && aboutOperands.Truth(g.Formula))
            {
                given.Add(g.Formula);
            }
            else if (
                line is ClaimLine claim
                && (aboutAll.Truth(claim.Formula) & (claim.Condition is null || aboutAll.Truth(claim.Condition)))
            )
            {
                (claim.IsOutside ? outside : laws).Add(new Claim(claim, Text(claim)));
            }
        }
        return (given, laws, outside);
    }

    /// <summary>A claim as it is written, without its first word.</summary>
    private static string Text(ClaimLine claim) =>
        claim.Kind switch
        {
            ClaimCondition.Always => Printer.Text(claim.Formula),
            ClaimCondition.When => $"{Printer.Text(claim.Formula)} when {Printer.Text(claim.Condition!)}",
            ClaimCondition.ExactlyWhen =>
                $"{Printer.Text(claim.Formula)} exactly when {Printer.Text(claim.Condition!)}",
        };

    private bool MayBeClaimed(NameReference name, bool withResults)
    {
        if (operands.Exists(o => o.Name == name.Name) || (withResults && results.Exists(r => r.Name == name.Name)))
        {
            return true;
        }
        switch (symbols.GetValueOrDefault(name.Name))
        {
            case NumberSymbol or BitsSymbol:
                return IsKnownNumber(name);
            case OperandSymbol:
                return false;
            case MeaningSymbol:
                report.Add(Id.MeaningAsValue, name.Span, ("value", name.Name));
                return false;
            case RegisterSymbol or PartSymbol:
                report.Add(Id.RegisterInLaw, name.Span, ("name", name.Name));
                return false;
        }
        var known = operands.Select(o => o.Name).Concat(numbers.Keys);
        ReportUnknown(name, withResults ? known.Concat(results.Select(r => r.Name)) : known);
        return false;
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
        var claims = new ClaimJudge(datapath);
        var inside = samples.Where(claims.IsGiven).ToList();
        if (
            inside.Count == 0
            && Lines.OfType<GivenLine>().FirstOrDefault() is { } given
            && OperandCorners.Everybody(datapath)?.Any(claims.IsGiven) == false
        )
        {
            report.Add(Id.GivenNobody, given.Formula.Span, ("widths", Spoken(datapath)));
        }
        else if (
            inside.Count == samples.Count
            && Lines.OfType<ClaimLine>().FirstOrDefault(c => c.IsOutside) is { } outside
            && (datapath.Given.Count == 0 || OperandCorners.Everybody(datapath)?.All(claims.IsGiven) == true)
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
        var formulas = core.Lines.OfType<GivenLine>().Select(g => g.Formula).ToList();
        var fed = core.symbols.Values.OfType<OperandSymbol>().ToList();
        foreach (var operands in formulas.Count == 0 ? [] : inside)
        {
            var execution = new Execution<System.Numerics.BigInteger>(new NumberWords(operands));
            var names = new Dictionary<string, Rational>(core.numbers, StringComparer.Ordinal);
            foreach (var symbol in fed)
            {
                names[symbol.Name] = symbol.Value.Number(execution.Word(symbol.Value));
            }
            if (formulas.Find(f => new Formulas(names).Truth(f) == false) is { } broken)
            {
                report.Add(
                    Id.CoreGiven,
                    block.Machine.Span,
                    ("machine", block.Machine.Text),
                    ("given", Printer.Text(broken)),
                    (
                        "operands",
                        string.Join(
                            ", ",
                            datapath.Operands.Select(o => $"{o.Name} = {Evaluator.Number(o, operands[o.Index])}")
                        )
                    )
                );
                return;
            }
        }
    }

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
            var name = line switch
            {
                WidthLine d => d.Name,
                ConstantLine d => d.Name,
                OperandLine d => d.Name,
                RegisterLine d => d.Name,
                PartLine d => d.Name,
                UnitLine d => d.Name,
                TableBlock d => d.Name,
                _ => null,
            };
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
                    ("is", new Term(KindOf(symbol))),
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
}
