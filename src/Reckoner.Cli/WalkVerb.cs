using Reckoner.Documents.Lessons;
using Reckoner.Hdl;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Words;

namespace Reckoner.Cli;

internal static class WalkVerb
{
    /// <summary>Waveforms, for viewers of such.</summary>
    public const string Dump = "vcd";

    public static IReadOnlyList<string> Formats { get; } = [.. TableFormat.Names, Dump];

    public static int Run(Session session, Request request)
    {
        if (StyleFile.Of(session, request) is not { } house)
        {
            return Exit.Wrong;
        }
        if (Asking.Styled(request, house) is not { } style)
        {
            return session.Refuse(request);
        }
        if (Ask(session, request) is not { } walk)
        {
            return Exit.Wrong;
        }
        var done = walk.Holds ? Exit.Done : Exit.DoesNotHold;
        if (request.IsJson)
        {
            return session.Write(request, stream => WalkJson.Write(stream, walk, session.Words), done);
        }
        if (AskedForm.Of(request) == Dump)
        {
            return session.Write(request, stream => Waves(stream, walk, session.Words), done);
        }
        var format = TableFormat.Of(request);
        if (style.Source is null && format.Name == "text")
        {
            void Write(TextWriter text) => WalkText.Write(text, walk, session.Words, session.Columns, style.Reasons);
            return session.Write(request, stream => TableFormat.OnText(stream, Write), done);
        }
        var (document, found) = WalkDocument.Of(walk, style, session.Words, oneByOne: format.Name == "prose");
        return document is null ? session.Refuse(found) : session.Write(request, document, done);
    }

    private static void Waves(Stream stream, Walk walk, Vocabulary words)
    {
        using var text = new StreamWriter(stream, leaveOpen: true) { NewLine = "\n" };
        Waveform.Write(text, walk, HdlHead.Of(walk.Datapath, words));
    }

    /// <summary>Null when something is wrong; it has been said.</summary>
    public static Walk? Ask(Session session, Request request)
    {
        var question = Asking.Walk(request);
        return session.Asked(
            request,
            request.Has(Option.Invariant) ? question?.AskWithInvariant(session.Means) : question?.Ask()
        );
    }

    public static RequestAnswer? Answer(LessonAsking asked)
    {
        if (Ask(asked.Session, asked.Request) is not { } walk)
        {
            return null;
        }
        if (Asking.Styled(asked.Request, asked.Style) is not { } style)
        {
            asked.Session.Refuse(asked.Request);
            return null;
        }
        var (document, found) = WalkDocument.Of(walk, style, asked.Session.Words, oneByOne: false);
        if (document is null)
        {
            asked.Session.Refuse(found);
            return null;
        }
        return new WalkAnswer(walk, document);
    }
}
