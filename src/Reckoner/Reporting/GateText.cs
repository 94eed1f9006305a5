using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Reporting;

/// <summary>What gates did, as a formula with the bits put in: "(1 and 0) or 1".</summary>
internal static class GateText
{
    public static string Of(GateWork work) =>
        work.Inputs switch
        {
            [] => Bits.Text(work.Bits, work.Value.Width),
            [var only] => $"{Operations.Row(work.Value.Operation).Written} {Inside(only, work)}",
            _ => string.Join(
                $" {Operations.Row(work.Value.Operation).Written} ",
                work.Inputs.Select(i => Inside(i, work))
            ),
        };

    /// <summary>Brackets stand around every joint but one of the same kind.</summary>
    private static string Inside(GateWork work, GateWork around) =>
        work.Inputs.Count < 2 || work.Value.Operation == around.Value.Operation ? Of(work) : $"({Of(work)})";
}
