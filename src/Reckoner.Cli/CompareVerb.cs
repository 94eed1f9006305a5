using Reckoner.Documents.Lessons;
using Reckoner.Measuring;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Cli;

internal static class CompareVerb
{
    public static int Run(Session session, Request request)
    {
        if (StyleFile.Of(session, request) is not { } style || Ask(session, request) is not { } compared)
        {
            return Exit.Wrong;
        }
        var done = compared.Holds ? Exit.Done : Exit.DoesNotHold;
        return request.IsJson
            ? session.Write(request, CompareJson.Of(Comparison.Of(compared.Datapaths), compared.Walks), done)
            : session.Write(request, Document(compared, style, session.Words), done);
    }

    public static RequestAnswer? Answer(LessonAsking asked) =>
        Ask(asked.Session, asked.Request) is { } compared
            ? new ReportAnswer([Document(compared, asked.Style, asked.Session.Words)]) { IsToFill = true }
            : null;

    private static Compared? Ask(Session session, Request request) =>
        session.Asked(request, Asking.Compare(request)?.Ask());

    private static Document Document(Compared compared, HouseStyle style, Vocabulary words) =>
        CompareDocument.Of(Comparison.Of(compared.Datapaths), compared.Walks, style, words);
}
