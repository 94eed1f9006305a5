using Reckoner.Timelines;

namespace Reckoner.Structure;

/// <summary>
/// A choice between two words that the text asks for: by "when", by an arm of a case, by a branch that writes a register or not.
/// </summary>
/// <param name="Width">Of the bits in which the words differ as they are written.</param>
/// <param name="Gives">
/// The wires of what is chosen. No multiplexer stands there where both words are given by one unit, which is told by the condition
/// what to do.
/// </param>
public sealed record Choice(Origin Origin, int Width, Bundle Condition, Bundle One, Bundle Zero, Bundle Gives)
{
    /// <summary>
    /// Its line and the text this is in. At the load, a value handed to a machine inside this one stands where it is handed over.
    /// </summary>
    public (Source? Source, int Line) Place =>
        Origin is { Step: 0, Value: { Written: { } written, Source: { } source } }
            ? (source, source.LineOf(written.Span.Start))
            : (Origin.Source, Origin.Line);
}
