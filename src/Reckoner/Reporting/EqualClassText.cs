using Reckoner.Choosing;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>A class of equal difficulty in words.</summary>
internal static class EqualClassText
{
    /// <summary>Its cycles, how often each outcome comes about, and the work.</summary>
    public static string Of(EqualClass one, Vocabulary words) =>
        string.Join(
            ", ",
            one.Outcomes.Select(o =>
                    words.Say(
                        o.Times == 0 ? "operands.class-never" : "operands.class-outcome",
                        ("text", o.Text),
                        ("times", o.Times)
                    )
                )
                .Prepend(words.Say("operands.class-cycles", ("cycles", one.Cycles)))
                .Concat(Work(one.Work, words))
        );

    private static IEnumerable<string> Work(EqualWork work, Vocabulary words)
    {
        if (work.LongestCarry is { } longest)
        {
            yield return work.Carries.Most == 0
                ? words.Say("operands.class-no-carries")
                : words.Say(
                    "operands.class-carries",
                    ("carries", Extent(work.Carries, words)),
                    ("longest", Extent(longest, words))
                );
        }
        yield return words.Say("operands.class-digits", ("digits", Extent(work.Digits, words)));
        if (work.Exposed is { } exposed)
        {
            yield return words.Say("operands.class-exposed", ("slips", Extent(exposed, words)));
        }
    }

    /// <summary>"24 to 29", or one number.</summary>
    public static string Extent(Extent extent, Vocabulary words) =>
        extent.Least == extent.Most
            ? $"{extent.Least}"
            : words.Say("operands.extent", ("least", extent.Least), ("most", extent.Most));
}
