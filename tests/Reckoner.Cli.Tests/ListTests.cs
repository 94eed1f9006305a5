using System.Text.Json;
using Reckoner.Catalogue;
using Xunit;

namespace Reckoner.Cli.Tests;

public class ListTests
{
    [Fact]
    public void Every_machine_stands_once_under_its_family_and_below_the_one_it_follows()
    {
        var (status, output, errors) = Command.Run("list");
        Assert.Equal((0, ""), (status, errors));
        var lines = output.Split('\n');
        Assert.All(lines, line => Assert.True(line.Length <= 80, line));
        var family = "";
        var seen = new List<(string Family, string Name)>();
        foreach (var line in lines)
        {
            if (line.Length > 3 && line[0] != ' ')
            {
                family = line.Replace(' ', '-');
            }
            else if (line.Length > 3 && line[3] != ' ')
            {
                seen.Add((family, line.Split(' ', StringSplitOptions.RemoveEmptyEntries)[0]));
            }
        }
        Assert.Equal(MachineCatalogue.Entries.Select(e => (e.Family, e.Name)).Order(), seen.Order());
        foreach (var entry in MachineCatalogue.Entries)
        {
            var followed = Binding.Machine.Read(entry.Source, MachineCatalogue.Find).Followed?.Name;
            var above = seen.FindIndex(s => s.Name == followed && s.Family == entry.Family);
            Assert.True(above < seen.FindIndex(s => s.Name == entry.Name), entry.Name);
        }
    }

    [Fact]
    public void As_json_every_machine_has_family_title_lineage_and_hash()
    {
        using var list = JsonDocument.Parse(Command.Run("list", "--format", "json").Output);
        Assert.Equal(1, list.RootElement.GetProperty("format").GetInt32());
        var machines = list.RootElement.GetProperty("machines").EnumerateArray().ToList();
        Assert.Equal(MachineCatalogue.Names, machines.Select(m => m.GetProperty("machine").GetString()!));
        Assert.All(
            machines,
            m =>
            {
                Assert.Equal(
                    ["machine", "family", "title", "follows", "description"],
                    m.EnumerateObject().Select(p => p.Name)
                );
                Assert.NotEmpty(m.GetProperty("title").GetString()!);
                Assert.StartsWith("sha256:", m.GetProperty("description").GetString(), StringComparison.Ordinal);
            }
        );
    }
}
