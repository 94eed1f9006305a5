using System.Text;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Timelines;

namespace Reckoner.Reporting;

/// <summary>The inner stages as plain text, for looking at what a description became.</summary>
internal static class Dump
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
                $"unit #{unit.Number} {unit.Name ?? "-"} : {unit.Kind} {UnitText.WidthOf(unit)}, used {unit.Uses.Count} times\n"
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
                    text.Append(Acts(step.Moments[i], 2));
                }
            }
        }
        foreach (var result in datapath.Results)
        {
            text.Append($"result {result.Name} = {Text(result.Value)}\n");
        }
        return text.ToString();
    }

    private static string Acts(IReadOnlyList<Act> acts, int level)
    {
        var indent = new string(' ', 2 * level);
        return string.Concat(acts.Select(a => $"{indent}{a.Line}: {Text(a, indent, level + 1)}"));
    }

    private static string Text(Act act, string indent, int inside) =>
        act.Match(
            let: a => $"let {string.Join(", ", a.Names.Select(w => w.Name))} = {Text(a.Wire.Value)}\n",
            transfer: a => $"{string.Join(':', a.Places.Select(Text))} <- {Text(a.Value)}\n",
            branch: a => $"if {Text(a.Condition)}\n{Acts(a.Then, inside)}{indent}else\n{Acts(a.Otherwise, inside)}",
            arms: a =>
                $"case {Text(a.Subject)}\n"
                + string.Concat(a.Arms.Select(arm => $"{indent}{arm.Patterns.Written}:\n{Acts(arm.Acts, inside)}")),
            hold: _ => "hold\n",
            remark: a => $"note {Printer.Text(a.Text)}\n"
        );

    private static string Text(Place place) => $"{place.Register.Name}[{place.High}..{place.Low}]";

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
            Operation.Unknown
            or Operation.Last
            or Operation.Join
            or Operation.Copies
            or Operation.Reread
            or Operation.Extend
            or Operation.ShiftLeft
            or Operation.ShiftRight
            or Operation.Add
            or Operation.Subtract
            or Operation.Negate
            or Operation.Magnitude
            or Operation.Multiply
            or Operation.CarrySaveSum
            or Operation.CarrySaveCarry
            or Operation.Carry
            or Operation.Borrow
            or Operation.And
            or Operation.Or
            or Operation.Xor
            or Operation.Not
            or Operation.Equal
            or Operation.Unequal
            or Operation.Less
            or Operation.LessOrEqual
            or Operation.Greater
            or Operation.GreaterOrEqual
            or Operation.Choose
            or Operation.Select => value.Operation.ToString(),
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
                WordOperation.Constant => " " + Bits.Text(word.Bits, word.Width),
                WordOperation.Operand => " " + timeline.Datapath.Operands[word.Low].Name,
                WordOperation.Slice => $" from {word.Low}",
                WordOperation.Lookup => " " + word.Table!.Name,
                WordOperation.Register
                or WordOperation.Last
                or WordOperation.Join
                or WordOperation.Copies
                or WordOperation.Add
                or WordOperation.Carry
                or WordOperation.Subtract
                or WordOperation.Less
                or WordOperation.Multiply
                or WordOperation.CarrySaveSum
                or WordOperation.CarrySaveCarry
                or WordOperation.And
                or WordOperation.Or
                or WordOperation.Xor
                or WordOperation.Not
                or WordOperation.Equal
                or WordOperation.Choose => "",
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
