using Reckoner.Datapaths;

namespace Reckoner.Page.State;

/// <summary>Bits high..low of a register that a line gave new values.</summary>
public sealed record WrittenBits(Register Register, int High, int Low)
{
    public static WrittenBits All(Register register) => new(register, register.Width - 1, 0);

    public static WrittenBits Of(Place place) => new(place.Register, place.High, place.Low);

    public bool Has(string register, int bit) => Register.Name == register && bit <= High && bit >= Low;

    /// <summary>As a description writes it.</summary>
    public override string ToString() =>
        High - Low + 1 == Register.Width ? Register.Name
        : High == Low ? $"{Register.Name}[{High}]"
        : $"{Register.Name}[{High}..{Low}]";
}
