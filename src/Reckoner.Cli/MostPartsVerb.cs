using System.Globalization;
using Reckoner.Questions;
using Reckoner.Reporting;

namespace Reckoner.Cli;

/// <summary>check --most-parts: into how many parts the work can be cut, a number that a script can take.</summary>
internal static class MostPartsVerb
{
    private static readonly IReadOnlyList<Option> OfChecks =
    [
        Option.On,
        Option.Sample,
        Option.Seed,
        Option.Part,
        Option.Resume,
        Option.Averages,
        Option.Written,
    ];

    public static int Run(Session session, Request request)
    {
        Plan.Clash(request, Option.MostParts, OfChecks);
        if (request.Report.HasErrors)
        {
            return session.Refuse(request);
        }
        var question = Asking.Machine(request) is { } machine
            ? new PartsQuestion(machine) { Only = request[Option.Only]?.Text }
            : null;
        if (session.Asked(request, question?.Ask(), remarks: false) is not { } parts)
        {
            return Exit.Wrong;
        }
        var text = request.IsJson
            ? PartsJson.Of(parts)
            : string.Concat(parts.Select(p => p.Most.ToString(CultureInfo.InvariantCulture) + "\n"));
        return session.Write(request, text);
    }
}
