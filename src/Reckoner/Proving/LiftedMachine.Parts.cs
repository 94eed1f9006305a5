namespace Reckoner.Proving;

internal sealed partial class LiftedMachine
{
    /// <summary>The places of a part of a register; null where they do not grow evenly.</summary>
    public (Extent High, Extent Low)? Range(Reckoner.Datapaths.Part part)
    {
        var (register, at) = (part.Register.Index, part.Register.Parts.ToList().IndexOf(part));
        var parts = this
            .Datapaths.Select(d => d.Registers[register].Parts.ElementAtOrDefault(at))
            .OfType<Reckoner.Datapaths.Part>()
            .ToList();
        return
            parts.Count == this.Datapaths.Count
            && Fit([.. parts.Select(p => p.High)]) is { } high
            && Fit([.. parts.Select(p => p.Low)]) is { } low
            ? (high, low)
            : null;
    }
}
