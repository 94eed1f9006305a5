using System.Text;
using Reckoner.Diagnostics;
using Reckoner.Drawing;

namespace Reckoner.Documents.Lessons;

/// <summary>What the bundled letters cannot write: the papers would show boxes, and their reader would not know why.</summary>
internal static class PaperLetters
{
    /// <summary>One remark, at the first of them; nothing where all can be written.</summary>
    public static IReadOnlyList<Diagnostic> Missing(Source source)
    {
        var report = new Report(source);
        var missing = new List<string>();
        var first = 0;
        var at = 0;
        foreach (var rune in source.Text.EnumerateRunes())
        {
            if (!Rune.IsControl(rune) && !IsKnown(rune))
            {
                first = missing.Count == 0 ? at : first;
                missing.Add(rune.ToString());
            }
            at += rune.Utf16SequenceLength;
        }
        if (missing.Count > 0)
        {
            var letters = string.Join(", ", missing.Distinct());
            report.Add(Id.LessonLetters, new Span(first, first + missing[0].Length), ("letters", letters));
        }
        return report.InOrder();
    }

    private static bool IsKnown(Rune rune) => Typeface.Of(Face.Plain).Knows(rune.ToString());
}
