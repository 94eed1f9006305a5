using System.IO.Compression;
using System.Runtime.Versioning;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>-o writes a file whole or not at all, and leaves nothing else behind.</summary>
public sealed class OutputFileTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-output-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string Name(string file) => Path.Combine(folder, file);

    private IEnumerable<string?> Files => Directory.EnumerateFileSystemEntries(folder).Select(Path.GetFileName);

    private static string Unwrapped(string text) =>
        string.Join(' ', text.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries));

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

    public static IEnumerable<TheoryDataRow<string, string, string>> FormOfEnding =>
        from verb in Verb.All
        from form in verb.Formats
        where verb.Name is "list" or "show" or "walk" or "states" or "idle"
        from ending in form switch
        {
            "text" => new[] { "txt", "TXT", "log" },
            "markdown" => ["md"],
            "html" => ["html", "htm"],
            "latex" => ["tex"],
            "prose" => [],
            _ => [form],
        }
        select new TheoryDataRow<string, string, string>(verb.Name, form, ending);

    [Theory]
    [MemberData(nameof(FormOfEnding))]
    public void The_ending_of_the_file_chooses_its_form(string verb, string form, string ending)
    {
        string[] asked = verb switch
        {
            "list" => ["list"],
            "walk" => Walk,
            _ => [verb, "halve.machine"],
        };
        Assert.Equal(0, Command.Run([.. asked, "-o", Name($"by-ending.{ending}")]).Status);
        Assert.Equal(0, Command.Run([.. asked, "--format", form, "-o", Name("by-option")]).Status);
        Assert.Equal(Content("by-option"), Content($"by-ending.{ending}"));

        // A workbook is a zip, in which each part has its minute.
        string Content(string file)
        {
            if (form != "xlsx")
            {
                return File.ReadAllText(Name(file));
            }
            using var zip = ZipFile.OpenRead(Name(file));
            using var sheet = new StreamReader(zip.GetEntry("xl/worksheets/sheet1.xml")!.Open());
            return sheet.ReadToEnd();
        }
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
    public void Links_and_pipes_stay_what_they_are()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: mkfifo");
        File.WriteAllText(Name("target"), "as it was");
        File.CreateSymbolicLink(Name("link"), "target");
        File.CreateSymbolicLink(Name("lost"), "nowhere");
        Assert.Equal(0, Child.Run("mkfifo", Name("pipe")).Status);
        foreach (var odd in new[] { "link", "lost", "pipe" })
        {
            var (status, output, errors) = Command.Run([.. Walk, "-o", Name(odd), "--overwrite"]);
            Assert.Equal((2, ""), (status, output));
            Assert.Contains("what is there is no plain file.", Unwrapped(errors), StringComparison.Ordinal);
            Assert.False(PlainFile.IsReplaceable(Name(odd)));
        }
        Assert.Equal("as it was", File.ReadAllText(Name("target")));
        Assert.Equal(["link", "lost", "pipe", "target"], Files.Order(StringComparer.Ordinal));
    }

    /// <summary>Also of one that has nothing in it, which looks like a device until it is looked at closely.</summary>
    [Theory]
    [InlineData("")]
    [InlineData("as it was")]
    [UnsupportedOSPlatform("windows")]
    public void A_file_that_is_replaced_keeps_its_mode(string before)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: modes");
        const UnixFileMode Mode = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.OtherWrite;
        File.WriteAllText(Name("walk.txt"), before);
        File.SetUnixFileMode(Name("walk.txt"), Mode);
        Assert.Equal(new Command(0, "", ""), Command.Run([.. Walk, "-o", Name("walk.txt"), "--overwrite"]));
        Assert.Equal(Mode, File.GetUnixFileMode(Name("walk.txt")));
        Assert.Equal(Command.Run(Walk).Output, File.ReadAllText(Name("walk.txt")));
    }

    [Fact]
    public void A_name_of_no_letters_is_no_file()
    {
        var (status, output, errors) = Command.Run([.. Walk, "-o", ""]);
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("option-value-missing", errors, StringComparison.Ordinal);
    }
}
