using Reckoner.Datapaths;

namespace Reckoner.Structure;

/// <summary>What the control unit looks at: a condition, or a word that chooses among arms.</summary>
/// <param name="State">The step in which, or before which, it is looked at.</param>
/// <param name="Word">The wires that it stands on.</param>
public sealed record Decision(Value Value, Bundle Word, int State, Source Source, int Line)
{
    public int Width => Value.Width;
}
