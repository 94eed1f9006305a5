using System.Text.RegularExpressions;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What was reported in public about real machines and hand-made tables, each with its source in its file.</summary>
public partial class PublicCaseTests
{
    private const string Folder = "public";

    public static TheoryData<string> Cases => [.. CaseFiles.Names(Folder, ".case")];

    private static PublicCase Case(string name) => PublicCase.Read(CaseFiles.Read(Folder, name + ".case"));

    [Theory]
    [MemberData(nameof(Cases))]
    public void Machines_give_what_the_case_says(string name)
    {
        var read = Case(name);
        Assert.NotEqual("", read.Title);
        Assert.NotEqual("", read.Source);
        Assert.NotEmpty(read.Machines);
        foreach (var machine in read.Machines)
        {
            var datapath = machine.Datapath();
            Assert.Equal([], machine.Differences(datapath));
            if (machine.Failing is { } failing)
            {
                var program = CheckProgram.Of(datapath, null, OracleUse.Stepped);
                var run = new CheckRun(program, InterpretedEngine.Widest);
                run.Run(0, program.Space.Steps, TestContext.Current.CancellationToken);
                Assert.Equal(failing, (run.Counts[0].Failures, run.Counts[0].Cases));
            }
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void A_case_with_a_result_changed_is_seen_to_differ(string name)
    {
        var seen = 0;
        foreach (var machine in Case(name).Machines)
        {
            foreach (var run in machine.Runs.Where(r => r.Results.Count > 0))
            {
                run.Results[0][1] += "0";
                run.Results[0][1] = run.Results[0][1] == "00" ? "1" : run.Results[0][1];
                seen++;
            }
            var expected = machine.Runs.Count(r => r.Results.Count > 0);
            Assert.True(machine.Differences(machine.Datapath()).Count() == expected);
        }
        Assert.NotEqual(0, seen);
    }

    [Fact]
    public void Every_machine_that_is_wrong_on_purpose_is_measured_in_a_case()
    {
        var measured = Cases.SelectMany(c => Case(c.Data).Machines).Where(m => m.Failing is not null);
        Assert.Empty(Meanings.WrongOnPurpose.Except(measured.Select(m => m.Name)));
    }

    /// <summary>What the fault is, and where it comes from, is told by the machine itself.</summary>
    [Fact]
    public void Its_first_note_names_the_fault() =>
        Assert.All(
            MachineCatalogue.Entries.Where(e => Meanings.WrongOnPurpose.Contains(e.Name)),
            entry =>
            {
                var notes = entry.Source.Text.Split('\n').Where(l => l.StartsWith("note ", StringComparison.Ordinal));
                Assert.StartsWith("note \"The fault: ", notes.First());
            }
        );

    /// <summary>The list of all cases gathered: each has its file or the reason why it has none.</summary>
    [Fact]
    public void No_case_is_forgotten()
    {
        var rows = ListRow().Matches(CaseFiles.Read(Folder, "README.md"));
        var ids = rows.Select(r => r.Groups[1].Value).ToList();
        Assert.Equal(ids.Distinct(), ids);
        Assert.All(rows, row => Assert.NotEqual("", row.Groups[2].Value.Trim()));
        var withFile = rows.Where(r => r.Groups[2].Value.Trim() == "case").Select(r => r.Groups[1].Value);
        Assert.Equal(Cases.Select(c => c.Data).Where(IsNumbered).Order(), withFile.Order());
    }

    private static bool IsNumbered(string name) => Number().IsMatch(name);

    [GeneratedRegex(@"^\| (C\d+) \| ([^|]*) \|", RegexOptions.Multiline)]
    private static partial Regex ListRow();

    [GeneratedRegex(@"^C\d+$")]
    private static partial Regex Number();
}
