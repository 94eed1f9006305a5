using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Mistaken machines of other people give the wrong results that were published; tests/cases/mistakes tells the form.</summary>
public class MistakeTests
{
    private const string Folder = "mistakes";
    private const string Ending = ".case";

    public static TheoryData<string> Cases => [.. CaseFiles.Names(Folder, Ending)];

    [Theory]
    [MemberData(nameof(Cases))]
    public void A_mistaken_machine_gives_the_wrong_results_that_were_published(string name)
    {
        var checks = 0;
        foreach (var (word, told) in Lines(CaseFiles.Read(Folder, name + Ending)))
        {
            switch (word)
            {
                case "wrong":
                case "right":
                    var (walk, results) = Walked(name, told);
                    Assert.Equal(results, walk.Datapath.Results.ToDictionary(r => r.Name, r => walk.Result(r.Name)));
                    Assert.Equal(word == "right", walk.Holds);
                    checks++;
                    break;
                case "exposed":
                    var parts = told.Split(' ');
                    var width = parts[0] == "at" ? int.Parse(parts[1]) : Width(name);
                    Assert.Equal((BigInteger.Parse(parts[^3]), BigInteger.Parse(parts[^1])), Failures(name, width));
                    checks++;
                    break;
            }
        }
        Assert.NotEqual(0, checks);
    }

    private static IEnumerable<(string Word, string Told)> Lines(string text) =>
        text.Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .Select(line => line.Split(' ', 2))
            .Select(parts => (parts[0], parts[1]));

    private static string? Head(string name, string word) =>
        Lines(CaseFiles.Read(Folder, name + Ending)).FirstOrDefault(l => l.Word == word).Told;

    private static int Width(string name) => int.Parse(Head(name, "width")!);

    private static Datapath Mistaken(string name, int width) =>
        Walks.At(Head(name, "machine")!, Head(name, "slip"), width);

    private static (Walk Walk, Dictionary<string, BigInteger> Results) Walked(string name, string told)
    {
        var sides = told.Split(" -> ");
        var results = sides[1].Split(' ').Select(r => r.Split('='));
        return (
            Walks.Of(Mistaken(name, Width(name)), [.. sides[0].Split(' ').Select(BigInteger.Parse)]),
            results.ToDictionary(r => r[0], r => BigInteger.Parse(r[1]))
        );
    }

    /// <summary>Of how many operands inside "given" the laws do not hold, and how many there are, by trying every one.</summary>
    private static (BigInteger Failures, BigInteger Cases) Failures(string name, int width)
    {
        var program = CheckProgram.Of(Mistaken(name, width), null, OracleUse.Written);
        var run = new CheckRun(program, InterpretedEngine.Widest);
        run.Run(0, program.Space.Steps);
        return (run.Counts[0].Failures, run.Counts[0].Cases);
    }

    [Fact]
    public void Every_case_names_its_source_and_every_count_where_it_is_from() =>
        Assert.All(
            CaseFiles.Names(Folder, Ending),
            name =>
            {
                Assert.StartsWith("https://", Head(name, "source"), StringComparison.Ordinal);
                Assert.True(Head(name, "exposed") is null || Head(name, "counts") is not null, name);
            }
        );

    [Fact]
    public void Every_description_here_is_used_and_clean()
    {
        var used = CaseFiles.Names(Folder, Ending).Select(name => Head(name, "machine")).ToHashSet();
        foreach (var machine in CaseFiles.Names(Folder, ".machine"))
        {
            Assert.Contains($"{Folder}/{machine}", used);
            Assert.DoesNotContain(Walks.At($"{Folder}/{machine}").Remarks, d => d.Severity == Severity.Remark);
        }
    }
}
