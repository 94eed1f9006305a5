using Reckoner.Catalogue;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Xunit;

namespace Reckoner.Tests;

public class CatalogueTests
{
    public static TheoryData<string> Catalogue => [.. Machines.Catalogue];

    [Fact]
    public void It_has_a_machine_for_every_name_once()
    {
        Assert.True(Machines.Catalogue.Count >= 31, $"{Machines.Catalogue.Count} machines");
        Assert.Equal(Machines.Catalogue.Count, Machines.Catalogue.Distinct().Count());
    }

    [Theory]
    [MemberData(nameof(Catalogue))]
    public void The_file_is_in_the_canonical_layout_under_its_own_name(string name)
    {
        var (description, found) = Parser.Read(MachineCatalogue.Find(name)!);
        Assert.Empty(found);
        Assert.Equal(name, description.Name);
        Assert.Equal(description.Source.Text, Printer.Text(description));
    }

    [Theory]
    [MemberData(nameof(Catalogue))]
    public void It_has_a_title_and_laws(string name)
    {
        var machine = Machines.Named(name);
        Assert.False(string.IsNullOrWhiteSpace(machine.Title?.Text));
        Assert.Contains(machine.Description.Declarations, d => d is ClaimLine { IsOutside: false });
    }

    /// <summary>Errors would refuse it, remarks would say that something in it is probably not meant.</summary>
    [Theory]
    [MemberData(nameof(Catalogue))]
    public void It_binds_at_both_ends_of_its_range_and_around_powers_of_two_without_a_remark(string name)
    {
        var (low, high) = Machines.Range(Machines.Named(name));
        Assert.InRange(low, 1, high);
        Bind(name, [low, .. new[] { 7, 8, 9, 32, 33 }.Where(w => w > low && w < high), high]);
    }

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Catalogue))]
    public void It_does_at_every_width_of_it(string name)
    {
        var (low, high) = Machines.Range(Machines.Named(name));
        Bind(name, Enumerable.Range(low, high - low + 1));
    }

    private static void Bind(string name, IEnumerable<int> widths)
    {
        var machine = Machines.Named(name);
        foreach (var width in widths)
        {
            var (datapath, found) = machine.At(width);
            Assert.Equal([], found.Where(d => d.Severity != Severity.Hint).Select(Found.Whole));
            Assert.NotNull(datapath);
        }
    }

    [Theory]
    [MemberData(nameof(Catalogue))]
    public void Outside_its_range_it_says_so(string name)
    {
        var machine = Machines.Named(name);
        var (low, high) = Machines.Range(machine);
        foreach (var width in new[] { low - 1, high + 1 })
        {
            Assert.Equal(["width-out-of-range"], machine.At(width).Diagnostics.Select(d => d.Id.Name));
        }
    }

    [Theory]
    [MemberData(nameof(Catalogue))]
    public void What_it_follows_is_there_and_leads_to_a_first_machine(string name)
    {
        var seen = new HashSet<string>();
        for (var machine = Machines.Named(name); machine is not null; machine = machine.Followed)
        {
            Assert.True(seen.Add(machine.Name), $"{machine.Name} twice");
            var says = machine.Description.Declarations.OfType<FollowsLine>().SingleOrDefault();
            Assert.Equal(says?.Machine.Text, machine.Followed?.Name);
        }
    }
}
