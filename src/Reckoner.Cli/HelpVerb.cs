using Reckoner.Diagnostics;

namespace Reckoner.Cli;

/// <summary>Explains reckoner, or one word of it.</summary>
internal static class HelpVerb
{
    /// <summary>The form for man: all that help says, on one page.</summary>
    public const string Manual = "man";

    public static int Run(Session session, Request request)
    {
        if (AskedForm.Of(request) == Manual)
        {
            return WriteManual(session, request);
        }
        if (request.Topic is not { } topic)
        {
            return session.Write(request, HelpText.General(session.Words, session.Columns));
        }
        if (HelpText.Of(topic.Text.TrimStart('-'), session.Words, session.Columns) is { } text)
        {
            return session.Write(request, text);
        }
        request.Report.Add(
            Id.UnknownVerb,
            topic.Span,
            ("word", topic.Text),
            ("verbs", Verb.All.Select(v => v.Name).Concat(HelpTopic.All.Select(t => t.Name)).Distinct().ToList()),
            ("near", NearNames.Of(topic.Text, HelpTopic.Words))
        );
        return session.Refuse(request);
    }

    private static int WriteManual(Session session, Request request)
    {
        if (request.Topic is not { } topic)
        {
            return session.Write(request, ManualPage.Of(session.Words));
        }
        request.Report.Add(Id.WordTooMany, topic.Span, ("word", topic.Text), ("usage", "reckoner help --format man"));
        return session.Refuse(request);
    }
}
