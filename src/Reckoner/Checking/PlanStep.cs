namespace Reckoner.Checking;

/// <summary>
/// One operation of straight-line code. A place is a local (0, 1, ...) or, turned over (~), a slot of memory. The result goes
/// to a local, to a slot, or to both.
/// </summary>
internal readonly record struct PlanStep(byte Function, int A, int B, int C, int Local, int Slot)
{
    /// <summary>Stands where there is no input, no local or no slot.</summary>
    public const int Nowhere = int.MinValue;

    public static PlanStep Load(int slot, int local) => new(Lookup.Copy, ~slot, Nowhere, Nowhere, local, Nowhere);

    public static PlanStep Store(int local, int slot) => new(Lookup.Copy, local, Nowhere, Nowhere, Nowhere, slot);
}
