using System.Globalization;
using System.Text;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Timelines;

namespace Reckoner.Reporting;

/// <summary>The inner stages as plain text, for looking at what a description became.</summary>
public static class Dump
{
    /// <summary>Every register, unit and step of a datapath with widths and operations.</summary>
    public static string Of(Datapath datapath)
    {
        var text = new StringBuilder();
        foreach (var operand in datapath.Operands)
        {
            text.Append($"operand {operand.Name} : {(operand.IsSigned ? "signed " : "")}{operand.Width}\n");
        }
        foreach (var register in datapath.Registers)
        {
            text.Append(
                $"register {register.Name} : {(register.IsSigned ? "signed " : "")}{register.Width} loads {Text(register.Loads)}\n"
            );
        }
        foreach (var meaning in datapath.Meanings)
        {
            var point = meaning.Point is { } places ? $" point {places}" : "";
            var until = meaning.Until is { } number ? $" until step {number}" : "";
            text.Append($"meaning {meaning.Name} = {meaning.Text}{point}{until}\n");
        }
        foreach (var unit in datapath.Units)
        {
            text.Append(
                $"unit #{unit.Number} {unit.Name ?? "-"} : {unit.Kind} {HardwareText.WidthOf(unit)}, used {unit.Uses.Count} times\n"
            );
        }
        foreach (var segment in datapath.Schedule)
        {
            if (segment.IsLoop)
            {
                text.Append(
                    $"repeat #{segment.Repeat} {segment.Count}{(segment.While is null ? "" : " while " + Text(segment.While))}\n"
                );
            }
            foreach (var step in segment.Steps)
            {
                text.Append($"  step #{step.Number} {step.Name}".TrimEnd()).Append('\n');
                for (var i = 0; i < step.Moments.Count; i++)
                {
                    text.Append(i == 0 ? "" : "    then\n");
                    Acts(text, step.Moments[i], 2);
                }
            }
        }
        foreach (var result in datapath.Results)
        {
            text.Append($"result {result.Name} = {Text(result.Value)}\n");
        }
        return text.ToString();
    }

    private static void Acts(StringBuilder text, IReadOnlyList<Act> acts, int level)
    {
        var indent = new string(' ', 2 * level);
        foreach (var act in acts)
        {
            text.Append(indent).Append(act.Line.ToString(CultureInfo.InvariantCulture)).Append(": ");
            switch (act)
            {
                case LetAct a:
                    text.Append(
                        $"let {a.Wire.Name}{(a.Second is null ? "" : ", " + a.Second.Name)} = {Text(a.Wire.Value)}\n"
                    );
                    break;
                case TransferAct a:
                    text.Append(
                        $"{string.Join(':', a.Places.Select(p => $"{p.Register.Name}[{p.High}..{p.Low}]"))} <- {Text(a.Value)}\n"
                    );
                    break;
                case BranchAct a:
                    text.Append($"if {Text(a.Condition)}\n");
                    Acts(text, a.Then, level + 1);
                    text.Append(indent).Append("else\n");
                    Acts(text, a.Otherwise, level + 1);
                    break;
                case CaseAct a:
                    text.Append($"case {Text(a.Subject)}\n");
                    foreach (var arm in a.Arms)
                    {
                        text.Append(indent).Append(arm.Patterns.Written).Append(":\n");
                        Acts(text, arm.Acts, level + 1);
                    }
                    break;
                case HoldAct:
                    text.Append("hold\n");
                    break;
                case RemarkAct a:
                    text.Append($"note {Printer.Text(a.Text)}\n");
                    break;
                default:
                    throw new InvalidOperationException(act.GetType().Name);
            }
        }
    }

    /// <summary>operation:width(inputs), with the number of its unit.</summary>
    private static string Text(Value value)
    {
        var self = value.Operation switch
        {
            Operation.Constant => Bits.Text(value.Bits, value.Width),
            Operation.Operand => value.Operand!.Name,
            Operation.Register => value.Register!.Name,
            Operation.Wire => value.Wire!.Name,
            Operation.Slice => $"{Text(value.Inputs[0])}[{value.Low + value.Width - 1}..{value.Low}]",
            Operation.Lookup => value.Table!.Name,
            _ => value.Operation.ToString(),
        };
        if (value.Inputs.Count == 0 || value.Operation == Operation.Slice)
        {
            return self;
        }
        var unit = value.Unit is null ? "" : $" #{value.Unit.Number}";
        return $"{self}:{value.Width}({string.Join(", ", value.Inputs.Select(Text))}){unit}";
    }

    /// <summary>The flat list of word operations, then the edges as places in it.</summary>
    public static string Of(Timeline timeline)
    {
        var text = new StringBuilder();
        var words = timeline.Graph.Words;
        for (var i = 0; i < words.Count; i++)
        {
            var word = words[i];
            var detail = word.Operation switch
            {
                Operation.Constant => " " + Bits.Text(word.Bits, word.Width),
                Operation.Operand => " " + timeline.Datapath.Operands[word.Low].Name,
                Operation.Slice => $" from {word.Low}",
                Operation.Lookup => " " + word.Table!.Name,
                _ => "",
            };
            var inputs = word.Inputs.Count == 0 ? "" : $" ({string.Join(", ", word.Inputs)})";
            var origin = word.Origin.Line == 0 ? "" : $"  -- step {word.Origin.Step}, line {word.Origin.Line}";
            text.Append(
                $"{i} {word.Operation}{(word.IsSigned ? " signed" : "")} : {word.Width}{detail}{inputs}{origin}\n"
            );
        }
        text.Append($"load {string.Join(' ', timeline.Load)}\n");
        foreach (var edge in timeline.Edges)
        {
            text.Append(
                $"edge {edge.Cycle} repeat {edge.Repeat} round {edge.Round} step {edge.Step.Number} active {edge.Active} registers {string.Join(' ', edge.Registers)}\n"
            );
        }
        text.Append($"results {string.Join(' ', timeline.Results)}\n");
        return text.ToString();
    }
}
