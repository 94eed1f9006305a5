using System.Numerics;
using Reckoner.Checking;
using Reckoner.Claims;
using Reckoner.Datapaths;

namespace Reckoner.Questions;

/// <summary>Into how many parts can the check of a machine be cut so that each has operands to try?</summary>
internal sealed record PartsQuestion(AskedMachine Machine)
{
    /// <summary>As in <see cref="CheckQuestion.Only"/>.</summary>
    public string? Only { get; init; }

    /// <summary>For each width that is asked about: of more parts some would be empty, or they are more than are counted.</summary>
    public Answer<IReadOnlyList<(Datapath Datapath, int Most)>> Ask()
    {
        var found = new Findings();
        if (Machine.BoundAtAll(found) is not var (_, datapaths))
        {
            return found.Refused<IReadOnlyList<(Datapath, int)>>();
        }
        var only = datapaths.Select(d => Only is null ? null : OperandFormula.Read(d, Only, found)).ToList();
        return found.HasErrors
            ? found.Refused<IReadOnlyList<(Datapath, int)>>()
            : found.Given<IReadOnlyList<(Datapath, int)>>([.. datapaths.Zip(only, (d, o) => (d, Most(d, o)))]);
    }

    private static int Most(Datapath datapath, Truth? only) =>
        (int)BigInteger.Min(AskedCases.Of(datapath, only).Space.AllSteps, CheckQuestion.MostParts);
}
