using Reckoner.Claims;
using Reckoner.Datapaths;

namespace Reckoner.Checking;

/// <summary>The cases that a check is about, laid out once for all that run it.</summary>
/// <param name="Only">What their operands satisfy; null where all are asked about.</param>
internal sealed record AskedCases(CaseSpace Space, Truth? Only)
{
    /// <summary>
    /// All cases, or those that a formula is about: bits that are the same in all of them stand still. Where nothing is stated
    /// outside "given" no section is about operands there, so that these need no visit either. Where a formula cannot become
    /// gates, no bit stands still.
    /// </summary>
    public static AskedCases Of(Datapath datapath, Truth? only = null)
    {
        if (only is null)
        {
            return new(new CaseSpace(datapath.Operands), null);
        }
        var given = datapath.Outside.Count > 0 ? [] : datapath.Given;
        try
        {
            var known = FixedBits.Of(
                datapath.Operands,
                (formulas, graph) => given.Select(formulas.Holds).Aggregate(formulas.Holds(only), graph.And)
            );
            return new(new CaseSpace(datapath.Operands, known), only);
        }
        catch (LawBeyondPlanesException)
        {
            return new(new CaseSpace(datapath.Operands), only);
        }
    }
}
