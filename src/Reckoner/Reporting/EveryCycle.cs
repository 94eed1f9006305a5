using Reckoner.Datapaths;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// What every round of a loop does, whatever is decided, told once for all its rows where their reasons are short. A step with a
/// phrase needs none.
/// </summary>
internal static class EveryCycle
{
    /// <summary>Steps, or cycles where they have no names, and what they do; in their order with those that have a phrase.</summary>
    public static IEnumerable<(Content Name, Content Said)> WithPhrases(Walk walk, Speech speech) =>
        Phrases(walk.Datapath, speech)
            .Concat(Of(walk, speech))
            .OrderBy(s => s.Step.Number)
            .Select(s => (s.Name, s.Said));

    /// <summary>The steps that have a phrase, by their names.</summary>
    public static IEnumerable<(Step Step, Content Name, Content Said)> Phrases(Datapath datapath, Speech speech) =>
        datapath
            .Steps.Where(s => s is { Name: not null, Phrase: not null })
            .Select(s =>
                (s, Content.Phrase(s.In(speech.Words.Language)!), Content.Phrase(s.Phrase!.In(speech.Words.Language)))
            );

    /// <summary>The steps without a phrase, and what they do.</summary>
    public static IEnumerable<(Step Step, Content Name, Content Said)> Of(Walk walk, Speech speech)
    {
        if (speech.Form == ReasonForm.Full)
        {
            yield break;
        }
        foreach (var rows in walk.Rows.Where(r => r.Repeat > 0 && r.Step!.Phrase is null).GroupBy(r => r.Step!))
        {
            var same = rows.First()
                .Moments.SelectMany(m => m.Happenings)
                .Where(h => !h.Follows)
                .Select(h => Told(h, speech))
                .Where(t => !t.IsEmpty)
                .ToList();
            if (same.Count > 0)
            {
                yield return (
                    rows.Key,
                    Content.Text(Name([.. rows], walk, speech)),
                    Content.Join(speech.Say("walk.between-effects"), same)
                );
            }
        }
    }

    private static string Name(IReadOnlyList<Row> rows, Walk walk, Speech speech) =>
        rows[0].Step!.In(speech.Words.Language) is { } name ? name
        : rows.Count == walk.Cycles ? speech.Say("walk.every-cycle")
        : rows.Count == 1 ? speech.Say("walk.in-cycle", ("cycle", rows[0].Cycle))
        : speech.Say("walk.in-cycles", ("first", rows[0].Cycle), ("last", rows[^1].Cycle));

    /// <summary>An effect by the formula that gives it; nothing of what is told in the rows.</summary>
    private static Content Told(Happening happening, Speech speech) =>
        happening.Match(
            summed: _ => Content.Empty,
            multiplied: _ => Content.Empty,
            carrySaved: _ => Content.Empty,
            lookedUp: _ => Content.Empty,
            said: _ => Content.Empty,
            tested: _ => Content.Empty,
            shifted: h =>
                speech.Spell(
                    h.Left ? "walk.moved-left" : "walk.moved-right",
                    ("name", Names.Of(h.Places, speech.Words)),
                    ("bits", Entering(h, speech))
                ),
            became: h =>
                speech.Spell(
                    "walk.becomes",
                    ("name", Names.Of(h.Places, speech.Words)),
                    ("bits", Run.Formula(WrittenText.Of(h.Value, speech.Words)))
                ),
            stayed: _ => Content.Empty,
            remarked: h => Sentences.Told(h, speech)
        );

    private static Content Entering(Shifted h, Speech speech) =>
        h.Enters.Operation == Operation.Constant
            ? speech.Bits(h.Entering, h.EnteringWidth)
            : Run.Formula(WrittenText.Of(h.Enters, speech.Words));
}
