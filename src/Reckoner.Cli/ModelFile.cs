using Reckoner.Costing;

namespace Reckoner.Cli;

/// <summary>The model of costs that a request names, or the unit-gate model.</summary>
internal static class ModelFile
{
    /// <summary>Null with what is wrong said.</summary>
    public static CostModel? Of(Session session, Request request)
    {
        if (request[Option.Model] is not { } asked)
        {
            return CostModel.UnitGates;
        }
        if (MachineFiles.ReadNamed(asked.Text, asked, request.Report) is not { } text)
        {
            session.Refuse(request);
            return null;
        }
        var (model, found) = ModelReader.Read(new Source(Path.GetFileName(asked.Text), text));
        if (model is null)
        {
            session.Refuse(found);
        }
        return model;
    }
}
