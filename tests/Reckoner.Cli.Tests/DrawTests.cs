using System.Xml.Linq;
using Xunit;

namespace Reckoner.Cli.Tests;

public sealed class DrawTests : IDisposable
{
    private static readonly string[] Weave = ["draw", "divide-shared-register", "weave", "--width", "4", "13", "3"];

    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-figures-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string Name(string file) => Path.Combine(folder, file);

    private IEnumerable<string?> Files =>
        Directory.EnumerateFileSystemEntries(folder).Select(Path.GetFileName).Order(StringComparer.Ordinal);

    private static List<string> Texts(string svg) =>
        [.. XDocument.Parse(svg).Descendants().Where(e => e.Name.LocalName == "text").Select(e => e.Value)];

    [Fact]
    public void Without_a_file_the_figure_is_printed()
    {
        var drawn = Command.Run(Weave);
        Assert.Equal((0, ""), (drawn.Status, drawn.Errors));
        Assert.Equal("svg", XDocument.Parse(drawn.Output).Root!.Name.LocalName);
        Assert.Equal(new Command(0, "", ""), Command.Run([.. Weave, "-o", Name("weave.svg")]));
        Assert.Equal(drawn.Output, File.ReadAllText(Name("weave.svg")));
    }

    [Fact]
    public void Files_one_by_one_add_up_to_the_whole()
    {
        Assert.Equal(0, Command.Run([.. Weave, "--one-by-one", "-o", Name("weave.svg")]).Status);
        Assert.Equal(Enumerable.Range(0, 6).Select(i => $"weave-{i}.svg"), Files);
        var counts = Files.Select(f => Texts(File.ReadAllText(Name(f!))).Count).ToList();
        Assert.Equal(counts.Order(), counts);
        Assert.Equal(6, counts.Distinct().Count());
        Assert.Equal(Command.Run(Weave).Output, File.ReadAllText(Name("weave-5.svg")));
    }

    [Fact]
    public void Where_one_of_several_files_is_there_none_is_written()
    {
        File.WriteAllText(Name("weave-3.svg"), "as it was");
        var drawn = Command.Run([.. Weave, "--one-by-one", "-o", Name("weave.svg")]);
        Assert.Equal(2, drawn.Status);
        Assert.Contains("file-exists", drawn.Errors, StringComparison.Ordinal);
        Assert.Equal(["weave-3.svg"], Files);
        Assert.Equal("as it was", File.ReadAllText(Name("weave-3.svg")));
        Assert.Equal(0, Command.Run([.. Weave, "--one-by-one", "--overwrite", "-o", Name("weave.svg")]).Status);
        Assert.NotEqual("as it was", File.ReadAllText(Name("weave-3.svg")));
    }

    /// <summary>Of several files all are written or none.</summary>
    [Theory]
    [InlineData("")]
    [InlineData("--overwrite")]
    public void Where_a_folder_has_the_name_of_one_of_several_files_none_is_written(string overwrite)
    {
        Directory.CreateDirectory(Name("weave-3.svg"));
        string[] saying = overwrite.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var drawn = Command.Run([.. Weave, "--one-by-one", "-o", Name("weave.svg"), .. saying]);
        Assert.Equal(2, drawn.Status);
        Assert.Contains("it is a folder", drawn.Errors, StringComparison.Ordinal);
        Assert.Equal(["weave-3.svg"], Files);
    }

    /// <summary>Rows and lines come one after the other and stay; the last file is the whole figure.</summary>
    [Theory]
    [InlineData("table")]
    [InlineData("paper")]
    public void Tables_and_sums_grow_one_by_one(string view)
    {
        string[] draw = ["draw", "divide-shared-register", view, "--width", "4", "13", "3"];
        Assert.Equal(0, Command.Run([.. draw, "--one-by-one", "-o", Name("f.svg")]).Status);
        Assert.Equal(Enumerable.Range(0, 6).Select(i => $"f-{i}.svg"), Files);
        var texts = Files.Select(f => Texts(File.ReadAllText(Name(f!)))).ToList();
        Assert.All(texts.Zip(texts.Skip(1)), pair => Assert.True(pair.First.Count <= pair.Second.Count));
        Assert.True(texts[0].Count < texts[3].Count);
        Assert.Equal(Command.Run(draw).Output, File.ReadAllText(Name("f-5.svg")));
    }

    /// <summary>A sum up to a cycle has the lines above too, and says which cycles it shows.</summary>
    [Fact]
    public void A_sum_by_hand_begins_at_its_first_line()
    {
        string[] draw = ["draw", "divide-shared-register", "paper", "--width", "4", "13", "3"];
        var until = Command.Run([.. draw, "--cycle", "3"]).Output;
        Assert.Contains("cycles 0 to 3 of 5", until, StringComparison.Ordinal);
        Assert.Equal(until, Command.Run([.. draw, "--to", "3"]).Output);
        var from = Command.Run([.. draw, "--from", "3"]);
        Assert.Equal((2, ""), (from.Status, from.Output));
        Assert.Contains("--from changes nothing in a paper", from.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Blank_cells_have_no_digits()
    {
        string[] digits = ["0", "1"];
        Assert.Contains(Texts(Command.Run(Weave).Output), t => t == "0");
        // The cycle with the number 1 keeps it.
        Assert.Single(Texts(Command.Run([.. Weave, "--blank"]).Output), t => digits.Contains(t));
    }

    [Fact]
    public void A_cycle_alone_is_shown_with_the_one_before()
    {
        var texts = Texts(Command.Run([.. Weave, "--cycle", "3", "--blank"]).Output);
        Assert.Equal(["2", "3"], texts.Where(t => t.Length == 1 && char.IsAsciiDigit(t[0])));
    }

    [Fact]
    public void The_figure_of_a_wrong_machine_is_drawn_and_the_status_says_so() =>
        Assert.Equal(1, Command.Run("draw", "doubled.machine", "weave", "3").Status);
}
