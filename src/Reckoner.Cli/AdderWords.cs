using Reckoner.Costing;
using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>Reads which adders stand where: a kind for all, or with commas between them, kinds for units by their names.</summary>
internal static class AdderWords
{
    /// <summary>What is wrong with it is in the request's report.</summary>
    public static AdderChoice Read(Request request)
    {
        var everywhere = default(AdderKind);
        var named = new Dictionary<string, AdderKind>();
        var said = new Dictionary<string, string>();
        if (request[Option.Adder] is { } word)
        {
            foreach (var part in word.Text.Split(','))
            {
                var equals = part.IndexOf('=', StringComparison.Ordinal);
                if (Kind(request, word, part[(equals + 1)..]) is not { } kind)
                {
                    continue;
                }
                if (!said.TryAdd(part[..Math.Max(0, equals)], part))
                {
                    request.Report.Add(
                        Id.AdderTwice,
                        word.Span,
                        ("first", said[part[..Math.Max(0, equals)]]),
                        ("second", part)
                    );
                }
                else if (equals < 0)
                {
                    everywhere = kind;
                }
                else
                {
                    named[part[..equals]] = kind;
                }
            }
        }
        return new AdderChoice(everywhere) { Named = named };
    }

    private static AdderKind? Kind(Request request, RequestWord word, string name)
    {
        foreach (var kind in Adders.All)
        {
            if (Adders.Name(kind) == name)
            {
                return kind;
            }
        }
        if (!request.Report.HasErrors)
        {
            Asking.RefuseValue(
                request,
                Option.Adder,
                new RequestWord(name, word.Span),
                [.. Adders.All.Select(Adders.Name)]
            );
        }
        return null;
    }
}
