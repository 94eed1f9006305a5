using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Reporting;

namespace Reckoner.Cli;

internal static class ListVerb
{
    public static int Run(Session session, Request request)
    {
        var machines = MachineCatalogue
            .Entries.Select(e => (e, Machine.Read(e.Source, MachineCatalogue.Find)))
            .ToList();
        var text = request.IsJson
            ? CatalogueJson.Of(machines, session.Words)
            : DocumentText.Body(CatalogueDocument.Of(machines, session.Words), session.Columns) + "\n";
        return session.Write(request, text);
    }
}
