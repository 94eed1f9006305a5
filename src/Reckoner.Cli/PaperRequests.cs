using System.Globalization;
using Reckoner.Diagnostics;
using Reckoner.Documents.Lessons;

namespace Reckoner.Cli;

/// <summary>What a lesson may ask of its papers alone; the command has no such verbs.</summary>
internal static class PaperRequests
{
    private const string Lines = "lines";

    public static IReadOnlyList<Verb> All { get; } =
    [
        new("page", "", [], [], false, false, NotRun) { Answer = _ => new PageEndAnswer() },
        new("room", $"5 {Lines}", [], [], false, true, NotRun) { Answer = Room },
    ];

    private static int NotRun(Session session, Request request) =>
        throw new InvalidOperationException($"{request.Verb!.Name} outside of a lesson");

    private static RequestAnswer? Room(LessonAsking asked)
    {
        var request = asked.Request;
        var said = request.Operands;
        if (
            said is [var count, var unit]
            && unit.Text == Lines
            && int.TryParse(count.Text, NumberStyles.None, CultureInfo.InvariantCulture, out var lines)
            && lines is > 0 and <= RoomAnswer.Most
        )
        {
            return new RoomAnswer(lines);
        }
        request.Report.Add(Id.LessonRoom, request.Whole, ("most", RoomAnswer.Most));
        asked.Session.Refuse(request);
        return null;
    }
}
