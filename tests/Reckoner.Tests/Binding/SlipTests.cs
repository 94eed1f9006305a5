using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Diagnostics;
using Reckoner.Reporting;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Texts with several slips: each is told, on its line, and nothing else is.</summary>
public class SlipTests
{
    private const string Folder = "slips";

    public static TheoryData<string> Cases => [.. CaseFiles.Names(Folder, ".machine")];

    [Theory]
    [MemberData(nameof(Cases))]
    public void Every_slip_is_told_and_nothing_that_only_follows_from_it(string name)
    {
        var source = new Source(name + ".machine", CaseFiles.Read(Folder, name + ".machine"));
        var found = Machine.Read(source, MachineCatalogue.Find).At().Diagnostics;
        var (marked, told) = (Marked(source.Text).ToList(), Found.Errors(found).ToList());
        Assert.True(
            marked.Order().SequenceEqual(told.Order()),
            $"not told: {Without(marked, told)}\ntold without reason: {Without(told, marked)}"
        );
        Assert.All(found, d => Assert.NotEmpty(DiagnosticText.Of(d, Vocabulary.English, 80)));
    }

    /// <summary>"id on line 7" for every id behind an exclamation mark in a comment.</summary>
    private static IEnumerable<string> Marked(string text) =>
        text.Split('\n')
            .SelectMany(
                (line, index) =>
                    from word in line.Split(' ')
                    where word.StartsWith('!')
                    select $"{word[1..]} on line {index + 1}"
            );

    private static string Without(IEnumerable<string> all, IReadOnlyList<string> those)
    {
        var left = all.ToList();
        foreach (var one in those)
        {
            left.Remove(one);
        }
        return string.Join(", ", left);
    }

    [Fact]
    public void Every_id_marked_is_one()
    {
        var known = Id.All.Select(i => i.Name).ToHashSet();
        var marked = CaseFiles
            .Names(Folder, ".machine")
            .SelectMany(n => Marked(CaseFiles.Read(Folder, n + ".machine")))
            .Select(m => m.Split(' ')[0]);
        Assert.Equal([], marked.Except(known));
    }
}
