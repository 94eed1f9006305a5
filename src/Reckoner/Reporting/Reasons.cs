using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>What is said beside a row of a walk; a row of several lines has one for each moment, or for each event.</summary>
internal static class Reasons
{
    public static IReadOnlyList<Content> Of(Row row, Speech speech) => Of(row.Moments, row, speech, oneByOne: false);

    /// <param name="moments">Those of the row that are told of.</param>
    /// <param name="oneByOne">Whether the full form has a sentence for each event.</param>
    public static IReadOnlyList<Content> Of(IReadOnlyList<MomentOfWalk> moments, Row row, Speech speech, bool oneByOne)
    {
        var whole = Whole(moments, speech, oneByOne);
        return whole.Count == 0
            ? row.Cycle == 0
                ? []
                : [speech.Spell("walk.nothing")]
            : speech.Form == ReasonForm.Full
                ? whole
                : ShortReason.Of([.. moments.SelectMany(m => m.Happenings)], row, speech) is { IsEmpty: false } news
                    ? [news]
                    : [];
    }

    private static IReadOnlyList<Content> Whole(IReadOnlyList<MomentOfWalk> moments, Speech speech, bool oneByOne)
    {
        var said = moments
            .Select(m =>
                oneByOne ? Sentences.OneByOne(m.Happenings, speech)
                : Sentences.Told(m.Happenings, speech) is { IsEmpty: false } sentence ? [sentence]
                : []
            )
            .Where(s => s.Count > 0)
            .ToList();
        return
        [
            .. said.Take(1).SelectMany(s => s),
            .. said.Skip(1).SelectMany(s => s.Skip(1).Prepend(speech.Spell("walk.then", ("sentence", s[0])))),
        ];
    }
}
