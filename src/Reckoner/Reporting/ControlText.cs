using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Structure;

namespace Reckoner.Reporting;

/// <summary>What the control unit does and looks at, as the description writes it.</summary>
internal static class ControlText
{
    /// <summary>A condition; where it must not be so, its turn is said beside it. Of a case "SUBJECT = LABEL".</summary>
    public static string Of(Guard guard) =>
        guard.Arms.Count > 0 ? $"{Written(guard.Value)} = {guard.Arms[guard.Arm].Written}" : Written(guard.Value);

    private static string Written(Value value) =>
        value.Operation == Operation.Last ? Operations.Row(Operation.Last).Written : Printer.Text(value.Written!);

    public static string Of(Decision decision) => Printer.Text(decision.Value.Written!);

    /// <summary>An act that names a value or writes registers; null of any other.</summary>
    public static string? Of(Act act) =>
        act.Match<string?>(
            let: a => $"{Names(a)} = {Printer.Text(a.Wire.Value.Written!)}",
            transfer: a => $"{Places(a)} <- {Printer.Text(a.Value.Written!)}",
            branch: _ => null,
            arms: _ => null,
            hold: _ => null,
            remark: _ => null
        );

    private static string Names(LetAct act) =>
        act.Second is null ? act.Wire.Name : $"{act.Wire.Name}, {act.Second.Name}";

    private static string Places(TransferAct act) => string.Join(":", act.Places.Select(p => Printer.Text(p.Written)));
}
