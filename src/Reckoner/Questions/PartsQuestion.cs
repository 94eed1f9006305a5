using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;

namespace Reckoner.Questions;

/// <summary>Into how many parts can the check of a machine be cut so that each has operands to try?</summary>
internal sealed record PartsQuestion(AskedMachine Machine)
{
    /// <summary>For each width that is asked about: of more parts some would be empty, or they are more than are counted.</summary>
    public Answer<IReadOnlyList<(Datapath Datapath, int Most)>> Ask()
    {
        var found = new Findings();
        return Machine.BoundAtAll(found) is var (_, datapaths)
            ? found.Given<IReadOnlyList<(Datapath, int)>>([.. datapaths.Select(d => (d, Most(d)))])
            : found.Refused<IReadOnlyList<(Datapath, int)>>();
    }

    private static int Most(Datapath datapath) =>
        (int)BigInteger.Min(new CaseSpace(datapath.Operands).AllSteps, CheckQuestion.MostParts);
}
