using Reckoner.Datapaths;
using Reckoner.Running;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// The news of a row in one clause: the description's words for what was decided; where it has none, what was looked at and what
/// was worked out for it. What every such row does is not repeated: it is told once, by <see cref="EveryCycle"/> or by the phrase
/// of the step.
/// </summary>
internal static class ShortReason
{
    public static Content Of(IReadOnlyList<Happening> happenings, Row row, Speech speech)
    {
        var phrases = happenings.Select(h => Phrase(h, speech)).Where(p => !p.IsEmpty).Distinct().ToList();
        if (phrases.Count == 0)
        {
            return Sentences.News(News(happenings, row, speech), speech);
        }
        if (happenings.Any(h => h is Tested { IsLast: true, IsSpoken: false }))
        {
            phrases.Add(speech.Spell("walk.last"));
        }
        return Content.Join(speech.Say("walk.between-effects"), phrases);
    }

    /// <summary>The description's words for an outcome; nothing where it has none.</summary>
    private static Content Phrase(Happening happening, Speech speech) =>
        Sentences.Phrase(
            happening.Match(
                summed: _ => null,
                multiplied: _ => null,
                carrySaved: _ => null,
                lookedUp: _ => null,
                said: h => h,
                tested: h => h,
                shifted: _ => null,
                became: _ => null,
                stayed: _ => null,
                remarked: h => h.Follows ? (Happening)h : null
            ),
            speech
        );

    /// <summary>What a row has to tell that others like it do not.</summary>
    private static List<Happening> News(IReadOnlyList<Happening> happenings, Row row, Speech speech)
    {
        // A step with a phrase of its own says by it what it does.
        var isKnown = row.Step?.Phrase is not null;
        var isOnce = row.Repeat == 0 && !isKnown;
        var isWorkAsked = happenings.Any(h => h is Tested { IsTold: true });
        var isDecided = happenings.Any(h => h is Tested t && IsNews(t, speech));
        var news = new List<Happening>();
        for (var i = 0; i < happenings.Count; i++)
        {
            var giver = i > 0 && happenings[i - 1].Gives is { } gives ? gives : null;
            var kept = i + 1 < happenings.Count ? happenings[i + 1] as Became : null;
            // What comes about in any case is told where nothing else is, and without the name of where it goes.
            var isAside =
                happenings[i].Gives is { } sum && kept is { Follows: false } && kept.Value == sum && isDecided;
            var isNews = happenings[i]
                .Match(
                    summed: h =>
                        (!isKnown || isWorkAsked)
                        && !isAside
                        && !(row.Repeat > 0 && kept is { Follows: false } && IsCounting(h)),
                    multiplied: _ => !isKnown && !isAside,
                    carrySaved: _ => !isKnown,
                    lookedUp: _ => !isKnown,
                    said: _ => !speech.UsesPhrases,
                    tested: h => IsNews(h, speech),
                    shifted: _ => isOnce,
                    became: h =>
                        isOnce
                        || h.Gates is not null
                        || (h.Follows && giver is not null && giver == h.Value && !isKnown),
                    stayed: _ => false,
                    remarked: _ => false
                );
            if (isNews)
            {
                news.Add(happenings[i]);
            }
        }
        return news;
    }

    /// <summary>A sum with a number that stands in the text: every row counts on.</summary>
    private static bool IsCounting(Summed sum) => sum.Value.Inputs.Any(i => i.Operation == Operation.Constant);

    /// <summary>All rounds but one are not the last; and where the description speaks of other outcomes alone, it means to say nothing.</summary>
    private static bool IsNews(Tested looked, Speech speech) =>
        !looked.IsTold && !(looked.IsSpoken && speech.UsesPhrases) && (looked.IsLast is not { } last || last);
}
