using System.Text.RegularExpressions;
using Reckoner.Diagnostics;
using Reckoner.Reporting;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Slips of a single word, in every mended example of the handbook: each gets its message, and nothing throws.</summary>
public partial class DiagnosticSlipTests
{
    private const int Columns = 80;

    public static TheoryData<string> Ids => [.. DiagnosticEntry.All.Select(e => e.Id)];

    /// <summary>
    /// Two messages at most: a sign left out at a declaration, for one, is missed at the load and again where the sign is
    /// needed. More would be complaints about a complaint.
    /// </summary>
    [Theory]
    [MemberData(nameof(Ids))]
    public void A_word_left_out_or_said_twice_is_not_complained_about_at_length(string id)
    {
        var mended = DiagnosticEntry.Of(id).Mended;
        Assert.All(
            Slips(mended.Text),
            text =>
            {
                var found = (mended with { Text = text }).Found();
                Assert.InRange(found.Count(d => d.Severity == Severity.Error), 0, 2);
                AssertIsReadable(found);
            }
        );
    }

    /// <summary>Words exchanged at random; what comes out may be anything, but it can be said.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Whatever_is_written_the_messages_can_be_said(int seed)
    {
        var random = new Random(seed);
        foreach (var entry in DiagnosticEntry.All)
        {
            var words = Word().Matches(entry.Mended.Text);
            for (var i = 0; i < 20; i++)
            {
                var text = entry.Mended.Text;
                foreach (var word in Enumerable.Range(0, 3).Select(_ => words[random.Next(words.Count)]).Reverse())
                {
                    var start = Math.Min(word.Index, text.Length);
                    var length = Math.Min(word.Length, text.Length - start);
                    text = text.Remove(start, length).Insert(start, words[random.Next(words.Count)].Value + " ");
                }
                AssertIsReadable((entry.Mended with { Text = text }).Found());
            }
        }
    }

    [Fact]
    public void A_value_that_fills_a_page_is_cut_in_the_message()
    {
        var mended = DiagnosticEntry.Of("condition-width").Mended;
        var sum = string.Join(" + ", Enumerable.Repeat("A", 100));
        var found = (mended with { Text = mended.Text.Replace("if A <> 0", "if " + sum) }).Found();
        Assert.Equal("condition-width", Assert.Single(found).Id.Name);
        AssertIsReadable(found);
    }

    private static void AssertIsReadable(IReadOnlyList<Diagnostic> found)
    {
        var text = DiagnosticText.Of(found, Vocabulary.English, Columns);
        Assert.All(text.Split('\n'), line => Assert.InRange(Wrapping.Columns(line), 0, Columns));
    }

    private static IEnumerable<string> Slips(string text)
    {
        foreach (Match word in Word().Matches(text))
        {
            yield return text.Remove(word.Index, word.Length);
            yield return text.Insert(word.Index, word.Value + " ");
        }
    }

    [GeneratedRegex("\"[^\"]*\"|<-|<>|<=|>=|\\.\\.|[\\w-]*\\w|\\S")]
    private static partial Regex Word();
}
