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
            ? CatalogueText.Json(machines, session.Words)
            : CatalogueText.Of(machines, session.Words, session.Columns);
        return session.Write(request, text);
    }
}
