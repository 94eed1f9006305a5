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
        if (
            StyleFile.Of(session, request) is not { } style
            || session.Asked(request, Asking.Compare(request)?.Ask()) is not { } compared
        )
        {
            return Exit.Wrong;
        }
        var done = compared.Holds ? Exit.Done : Exit.DoesNotHold;
        return request.IsJson
            ? session.Write(request, CompareJson.Of(Comparison.Of(compared.Datapaths), compared.Walks), done)
            : session.Write(request, Document(compared, style, session.Words), done);
    }

    public static Document Document(Compared compared, HouseStyle style, Vocabulary words) =>
        CompareDocument.Of(Comparison.Of(compared.Datapaths), compared.Walks, style, words);
}
