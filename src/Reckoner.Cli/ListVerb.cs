using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Documents.Lessons;
using Reckoner.Reporting;

namespace Reckoner.Cli;

internal static class ListVerb
{
    public static int Run(Session session, Request request)
    {
        var machines = Machines();
        var text = request.IsJson
            ? CatalogueJson.Of(machines, session.Words)
            : DocumentText.Body(CatalogueDocument.Of(machines, session.Words), session.Columns) + "\n";
        return session.Write(request, text);
    }

    public static RequestAnswer? Answer(LessonAsking asked) =>
        new ReportAnswer([CatalogueDocument.Of(Machines(), asked.Session.Words)]);

    private static List<(CatalogueEntry, Machine)> Machines() =>
        [
            .. MachineCatalogue.Entries.Zip(
                Machine.ReadAll(MachineCatalogue.Entries.Select(e => (e.Name, e.Source)), MachineCatalogue.Find)
            ),
        ];
}
