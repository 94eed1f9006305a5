using Reckoner.Explaining;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Documents.Quizzes;

/// <summary>A wrong answer before its texts are told from those of others.</summary>
/// <param name="Answers">For each place of its item.</param>
internal sealed record ForeseenAnswer(IReadOnlyList<Spelled> Answers, QuizFeedback Feedback);

/// <summary>Makes places and known wrong answers of what is right and what is foreseen.</summary>
internal static class QuizDraft
{
    /// <summary>Of causes that give the same, so many are told.</summary>
    private const int MostTold = 3;

    /// <summary>What belongs into places, each with its label.</summary>
    public static IReadOnlyList<QuizGap> Gaps(IReadOnlyList<(string Label, Spelled Right)> places) =>
        [
            .. places.Select(
                (p, i) =>
                    new QuizGap(FormattableString.Invariant($"RESPONSE{i + 1}"), p.Label, p.Right.Texts)
                    {
                        Room = Math.Max(8, p.Right.Texts.Max(t => t.Length)),
                    }
            ),
        ];

    /// <summary>
    /// Wrong answers as texts, of which each stands for one answer alone: what may be read as the right one is right, and what may be
    /// read as several is the plainest writing of one of them.
    /// </summary>
    public static IReadOnlyList<KnownWrong> Known(IReadOnlyList<QuizGap> gaps, IReadOnlyList<ForeseenAnswer> foreseen)
    {
        var owned = gaps.Select((g, i) => Owned(g, [.. foreseen.Select(f => f.Answers[i])])).ToList();
        var known = new List<KnownWrong>();
        foreach (var wrong in foreseen)
        {
            List<IReadOnlyList<string>> written =
            [
                .. wrong.Answers.Select(
                    (a, i) => (IReadOnlyList<string>)[.. a.Texts.Where(t => owned[i][t.ToLowerInvariant()] == a.Key)]
                ),
            ];
            if (written.TrueForAll(w => w.Count > 0))
            {
                known.Add(new KnownWrong(written, wrong.Feedback));
            }
        }
        return known;
    }

    /// <summary>For each text the key of the answer that it stands for.</summary>
    private static Dictionary<string, string> Owned(QuizGap gap, IReadOnlyList<Spelled> wrong)
    {
        var owned = new Dictionary<string, string>();
        var right = wrong.FirstOrDefault(w => w.Texts.SequenceEqual(gap.Right))?.Key ?? "";
        foreach (var text in gap.Right)
        {
            owned.TryAdd(text.ToLowerInvariant(), right);
        }
        foreach (var one in wrong)
        {
            owned.TryAdd(one.Texts[0].ToLowerInvariant(), one.Key);
        }
        foreach (var (one, text) in wrong.SelectMany(w => w.Texts.Select(t => (w, t))))
        {
            owned.TryAdd(text.ToLowerInvariant(), one.Key);
        }
        return owned;
    }

    /// <summary>Wrong answers with what gives them, the likeliest first; those that are right after all are left out.</summary>
    public static IReadOnlyList<ForeseenAnswer> Foreseen(
        Ways ways,
        IEnumerable<(Explanation Why, IReadOnlyList<Spelled> Answers)> given,
        IReadOnlyList<Spelled> right,
        Vocabulary words
    )
    {
        var key = Key(right);
        return
        [
            .. given
                .GroupBy(g => Key(g.Answers))
                .Where(g => g.Key != key)
                .Select(g => new ForeseenAnswer(g.First().Answers, Told(ways, [.. g.Select(e => e.Why)], words))),
        ];
    }

    private static string Key(IEnumerable<Spelled> answers) => string.Join('\n', answers.Select(a => a.Key));

    private static QuizFeedback Told(Ways ways, IReadOnlyList<Explanation> found, Vocabulary words)
    {
        var merged = Merging.Of(ways, found);
        var told = merged.Take(MostTold).Select(e => WhyDocument.Told(e, ways, words)).ToList();
        if (merged.Count > MostTold)
        {
            told.Add(words.Say("why.more", ("count", merged.Count - MostTold)));
        }
        return new QuizFeedback(words.Say(merged.Count == 1 ? "quiz.gives" : "quiz.each-gives"), told);
    }
}
