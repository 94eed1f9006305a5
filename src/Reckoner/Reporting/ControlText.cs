using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Structure;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// What the control unit does and looks at, as the description writes it; for readers with the names that wires have in their
/// language, for programs as it stands.
/// </summary>
internal static class ControlText
{
    /// <summary>A condition; where it must not be so, its turn is said beside it. Of a case "SUBJECT = LABEL".</summary>
    public static string Of(Guard guard, Vocabulary? words = null) =>
        guard.Arms.Count > 0
            ? $"{Written(guard.Value, words)} = {guard.Arms[guard.Arm].Written}"
            : Written(guard.Value, words);

    private static string Written(Value value, Vocabulary? words) =>
        value.Operation == Operation.Last ? Operations.Row(Operation.Last).Written
        : words is null ? Printer.Text(value.Written!)
        : WrittenText.Of(value, words);

    public static string Of(Decision decision, Vocabulary? words = null) => Written(decision.Value, words);

    /// <summary>An act that names a value or writes registers; null of any other.</summary>
    public static string? Of(Act act, Vocabulary? words = null) =>
        act.Match<string?>(
            let: a => $"{Names(a, words)} = {Written(a.Wire.Value, words)}",
            transfer: a => $"{Places(a)} <- {Written(a.Value, words)}",
            branch: _ => null,
            arms: _ => null,
            hold: _ => null,
            remark: _ => null
        );

    private static string Names(LetAct act, Vocabulary? words) =>
        string.Join(", ", act.Names.Select(w => words is null ? w.Name : w.In(words.Language)));

    private static string Places(TransferAct act) => string.Join(":", act.Places.Select(p => Printer.Text(p.Written)));
}
