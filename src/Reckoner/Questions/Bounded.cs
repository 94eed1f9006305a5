using Reckoner.Checking;
using Reckoner.Diagnostics;

namespace Reckoner.Questions;

/// <summary>Asks a question whose machine may take more gates than are made, which then is a finding.</summary>
internal static class Bounded
{
    /// <param name="ask">Gives null with the reason in the findings.</param>
    public static Answer<T> Ask<T>(Func<Findings, T?> ask)
        where T : class
    {
        var found = new Findings();
        try
        {
            return ask(found) is { } data ? found.Given(data) : found.Refused<T>();
        }
        catch (GatesBeyondRoomException e)
        {
            Add(e, found);
            return found.Refused<T>();
        }
    }

    public static void Add(GatesBeyondRoomException beyond, Findings found) =>
        found.Add(
            Id.GatesTooMany,
            AskedPart.Widths,
            0,
            ("most", beyond.Most),
            ("advice", (IReadOnlyList<Advice>)[new Advice(AdviceKind.Narrower)])
        );
}
