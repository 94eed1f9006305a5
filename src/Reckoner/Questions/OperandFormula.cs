using Reckoner.Claims;
using Reckoner.Conditions;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;

namespace Reckoner.Questions;

/// <summary>Reads a formula about the operands of a machine at its widths, as it would stand behind "given".</summary>
internal static class OperandFormula
{
    /// <summary>Null with the reason in the findings, which know what was found at an earlier width.</summary>
    public static Truth? Read(Datapath datapath, string text, Findings found)
    {
        if (found.HasErrors)
        {
            return null;
        }
        var line = text.ReplaceLineEndings(" ");
        var report = new Report(new Source("", line));
        var formulas = new ConditionFormulas(datapath, line, report)
        {
            Variables = [.. datapath.Operands.Select(o => o.Variable)],
        };
        var formula = formulas.Truth(new Span(0, line.Length));
        found.AddRange(report.InOrder().Take(1).Select(d => new Finding(d, AskedPart.Only)));
        return formula;
    }
}
