using System.Text.RegularExpressions;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Values as a description writes them, with the names that its wires have in the reader's language.</summary>
internal static partial class WrittenText
{
    public static string Of(Value value, Vocabulary words) =>
        Printer.Text(Named(value.Written!, Wires(value).DistinctBy(w => w.Name).ToDictionary(w => w.Name), words));

    /// <summary>A decision by its text, as a description or a request writes it.</summary>
    public static string Of(string decision, Datapath datapath, Vocabulary words)
    {
        var wires = WalkColumn.Wires(datapath).DistinctBy(w => w.Name).ToDictionary(w => w.Name);
        return Word()
            .Replace(decision, m => wires.TryGetValue(m.Value, out var wire) ? wire.In(words.Language) : m.Value);
    }

    [GeneratedRegex(@"\p{L}[\p{L}\p{N}_]*")]
    private static partial Regex Word();

    private static IEnumerable<Wire> Wires(Value value) =>
        value.Operation == Operation.Wire ? [value.Wire!] : value.Inputs.SelectMany(Wires);

    private static Expression Named(Expression e, Dictionary<string, Wire> wires, Vocabulary words) =>
        e is NameReference name
            ? wires.TryGetValue(name.Name, out var wire)
                ? new NameReference(name.Span, wire.In(words.Language))
                : name
            : Rewriting.Over(e, [.. e.Children.Select(c => Named(c, wires, words))]);
}
