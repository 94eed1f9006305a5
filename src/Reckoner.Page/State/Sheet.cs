using System.Collections.Immutable;
using Reckoner.Catalogue;

namespace Reckoner.Page.State;

/// <summary>
/// All that a visitor has put on the page, as it was typed: nothing of it needs to be right. It is what a link carries, what is
/// kept for the next visit and what undoing goes back to.
/// </summary>
/// <param name="Text">The description.</param>
/// <param name="Origin">The machine of the catalogue it began as; empty for a text of one's own.</param>
/// <param name="Widths">The widths and parameters that were set, by name.</param>
/// <param name="Operands">The operands in the order of the text; those missing are chosen by the page.</param>
/// <param name="Moment">The moment that is looked at: 0 the load, then the cycles, and after the last one the results.</param>
/// <param name="View">The name of the figure.</param>
/// <param name="Beside">A machine of the catalogue, or a slip of this one, that stands beside it; empty for none.</param>
public sealed record Sheet(
    string Text,
    string Origin,
    ImmutableSortedDictionary<string, string> Widths,
    ImmutableArray<string> Operands,
    int Moment,
    string View,
    string Beside
)
{
    public static readonly Sheet Empty = new(
        "",
        "",
        ImmutableSortedDictionary.Create<string, string>(StringComparer.Ordinal),
        [],
        0,
        Drawing.View.All[0].Name,
        ""
    );

    /// <summary>A machine of the catalogue, the rest as it comes; null where there is none of that name.</summary>
    public static Sheet? Of(string machine) =>
        MachineCatalogue.Find(machine) is { } source ? Empty with { Text = source.Text, Origin = machine } : null;

    /// <summary>Whether the text is still the catalogue's.</summary>
    public bool IsOriginal => Origin.Length > 0 && MachineCatalogue.Find(Origin)?.Text == Text;

    /// <summary>What visitors are to work out on it; null where it is only shown.</summary>
    internal Classroom.Assignment? Task { get; init; }

    public string Operand(int index) => index < Operands.Length ? Operands[index] : "";

    public Sheet WithOperand(int index, string typed)
    {
        var operands = Operands.ToList();
        while (operands.Count <= index)
        {
            operands.Add("");
        }
        operands[index] = typed;
        return this with { Operands = [.. operands] };
    }

    /// <summary>Nothing typed means the default.</summary>
    public Sheet WithWidth(string name, string typed) =>
        this with
        {
            Widths = typed.Trim().Length == 0 ? Widths.Remove(name) : Widths.SetItem(name, typed.Trim()),
        };

    public bool Equals(Sheet? other) =>
        other is not null
        && (Text, Origin, Moment, View, Beside) == (other.Text, other.Origin, other.Moment, other.View, other.Beside)
        && Task == other.Task
        && Widths.SequenceEqual(other.Widths)
        && Operands.SequenceEqual(other.Operands);

    public override int GetHashCode() => HashCode.Combine(Text, Origin, Moment, View, Beside);
}
