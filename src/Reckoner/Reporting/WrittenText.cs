using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Values as a description writes them, with the names that its wires have in the reader's language.</summary>
internal static class WrittenText
{
    public static string Of(Value value, Vocabulary words) =>
        Printer.Text(Named(value.Written!, Wires(value).DistinctBy(w => w.Name).ToDictionary(w => w.Name), words));

    private static IEnumerable<Wire> Wires(Value value) =>
        value.Operation == Operation.Wire ? [value.Wire!] : value.Inputs.SelectMany(Wires);

    private static Expression Named(Expression e, Dictionary<string, Wire> wires, Vocabulary words) =>
        e is NameReference name
            ? wires.TryGetValue(name.Name, out var wire)
                ? new NameReference(name.Span, wire.In(words.Language))
                : name
            : Rewriting.Over(e, [.. e.Children.Select(c => Named(c, wires, words))]);
}
