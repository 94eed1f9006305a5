using Reckoner.Datapaths;

namespace Reckoner.Binding;

/// <summary>
/// What one passage through a step costs to unroll or to walk, in operations on words of 64 bits. A bound for what is taken at
/// all, not a measure of hardware.
/// </summary>
internal static class Effort
{
    private const int WordBits = 64;

    public static long Of(Step step, int registers) => registers + step.Moments.Sum(m => Of(m, registers));

    public static long Of(Value value) =>
        Words(value.Width) + value.Arms.Sum(a => Of(a, value.Inputs[0].Width)) + value.Inputs.Sum(Of);

    private static long Of(IReadOnlyList<Act> acts, int registers) => acts.Sum(a => Of(a, registers));

    /// <summary>At a branch every register is chosen anew.</summary>
    private static long Of(Act act, int registers) =>
        act.Match(
            let: a => 1 + Of(a.Wire.Value) + (a.Second is null ? 0 : Of(a.Second.Value)),
            transfer: a => 1 + Of(a.Value) + a.Places.Sum(p => Words(p.Register.Width)),
            branch: a => registers + Of(a.Condition) + Of(a.Then, registers) + Of(a.Otherwise, registers),
            arms: a =>
                Of(a.Subject) + a.Arms.Sum(x => registers + Of(x.Patterns, a.Subject.Width) + Of(x.Acts, registers)),
            hold: _ => 1,
            remark: _ => 1
        );

    /// <summary>A label looks at every bit.</summary>
    private static long Of(ArmPatterns arm, int width) => (long)arm.Patterns.Count * width;

    private static long Words(int width) => 1 + width / WordBits;
}
