using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>-o writes a file whole or not at all, and leaves nothing else behind.</summary>
public sealed class OutputFileTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-output-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string Name(string file) => Path.Combine(folder, file);

    private IEnumerable<string?> Files => Directory.EnumerateFileSystemEntries(folder).Select(Path.GetFileName);

    private static readonly string[] Walk = ["walk", "halve.machine", "5", "3"];

    [Fact]
    public void A_result_goes_to_the_file_and_not_to_the_output()
    {
        var printed = Command.Run(Walk);
        var written = Command.Run([.. Walk, "-o", Name("walk.txt")]);
        Assert.Equal(new Command(0, "", ""), written);
        Assert.Equal(printed.Output, File.ReadAllText(Name("walk.txt")));
        Assert.NotEqual(0xEF, File.ReadAllBytes(Name("walk.txt"))[0]);
        Assert.Equal(["walk.txt"], Files);
    }

    [Fact]
    public void A_law_that_does_not_hold_is_told_by_the_status_of_a_written_walk_too()
    {
        Assert.Equal(1, Command.Run("walk", "doubled.machine", "3", "-o", Name("walk.txt")).Status);
        Assert.Contains("does NOT hold", File.ReadAllText(Name("walk.txt")), StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_there_stays_as_it_was()
    {
        File.WriteAllText(Name("walk.txt"), "as it was");
        var (status, output, errors) = Command.Run([.. Walk, "-o", Name("walk.txt")]);
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("file-exists", errors, StringComparison.Ordinal);
        Assert.Contains("--overwrite", errors, StringComparison.Ordinal);
        Assert.Equal("as it was", File.ReadAllText(Name("walk.txt")));
        Assert.Equal(["walk.txt"], Files);
    }

    [Fact]
    public void Overwrite_replaces_it_whole()
    {
        File.WriteAllText(Name("walk.txt"), new string('x', 100_000));
        Assert.Equal(0, Command.Run([.. Walk, "-o", Name("walk.txt"), "--overwrite"]).Status);
        Assert.Equal(Command.Run(Walk).Output, File.ReadAllText(Name("walk.txt")));
        Assert.Equal(["walk.txt"], Files);
    }

    [Fact]
    public void A_wrong_request_leaves_the_file_even_with_overwrite()
    {
        File.WriteAllText(Name("walk.txt"), "as it was");
        Assert.Equal(2, Command.Run("walk", "halve.machine", "99", "3", "-o", Name("walk.txt"), "--overwrite").Status);
        Assert.Equal("as it was", File.ReadAllText(Name("walk.txt")));
    }

    /// <summary>The half-written file has a name of its own: one beside it that looks like it is somebody's.</summary>
    [Theory]
    [InlineData("")]
    [InlineData("--overwrite")]
    public void A_folder_is_no_file_to_write_and_nothing_is_left_behind(string overwrite)
    {
        Directory.CreateDirectory(Name("walk.txt"));
        File.WriteAllText(Name("walk.txt.part"), "somebody's");
        var (status, output, errors) = Command.Run([
            .. Walk,
            "-o",
            Name("walk.txt"),
            .. overwrite.Split(' ', StringSplitOptions.RemoveEmptyEntries),
        ]);
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("file-unwritable", errors, StringComparison.Ordinal);
        Assert.Equal("somebody's", File.ReadAllText(Name("walk.txt.part")));
        Assert.Equal(["walk.txt", "walk.txt.part"], Files.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_folder_that_is_not_there_is_not_made()
    {
        var (status, output, errors) = Command.Run([.. Walk, "-o", Name("nowhere/walk.txt")]);
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("file-unwritable", errors, StringComparison.Ordinal);
        // The file that is written first, beside it, is nobody's business.
        Assert.DoesNotContain("walk.txt.", errors, StringComparison.Ordinal);
        Assert.Empty(Files);
    }

    [Fact]
    public void A_name_of_no_letters_is_no_file()
    {
        var (status, output, errors) = Command.Run([.. Walk, "-o", ""]);
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("option-value-missing", errors, StringComparison.Ordinal);
    }
}
