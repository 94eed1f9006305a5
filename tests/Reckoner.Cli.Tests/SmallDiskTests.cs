using Microsoft.Win32.SafeHandles;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>
/// The real process on a real disk that is full, and on one that may only be read: one sentence, and what was there is as it was.
/// </summary>
[Trait("Length", "long")]
public sealed class SmallDiskTests : IDisposable
{
    /// <summary>With a number that is right, and with one that is to be written anew.</summary>
    private const string Lesson =
        "---\nmachine: divide-still-divisor\nwidth: 3\noperands: 5 2\n---\n\nIt is [2](quotient).\n";

    private readonly string disk = Directory.CreateTempSubdirectory("reckoner-disk-").FullName;
    private bool isMounted;

    public SmallDiskTests()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "not applicable: a small disk is made with mount");
        WorkFolder.Enter();
        isMounted = Child.Run("mount", "-t", "tmpfs", "-o", "size=64k", "none", disk).Status == 0;
        Assert.SkipUnless(isMounted, "not applicable: a small disk is made by root");
    }

    public void Dispose()
    {
        if (isMounted)
        {
            Assert.Equal(0, Child.Run("umount", disk).Status);
            isMounted = false;
        }
        Directory.Delete(disk, recursive: true);
    }

    /// <summary>What is asked of it; # is the disk.</summary>
    public static TheoryData<string> Writers =>
        [
            "walk halve.machine 5 3 --format html -o #/old.html --overwrite",
            "walk divide-still-divisor --width 32 99 7 --format xlsx -o #/new.xlsx",
            "draw halve.machine weave 5 3 -o #/old.png --overwrite",
            "draw halve.machine weave 5 3 --one-by-one -o #/w.svg --overwrite",
            "lesson #/lesson.md -o #/pack --overwrite",
            "lesson #/stale.md --refresh",
            "check divide-still-divisor --width 4 --resume #/check.json",
            "open -o #/page.html",
        ];

    [Theory]
    [MemberData(nameof(Writers))]
    public void A_disk_that_is_full_is_told_and_keeps_what_it_had(string asked)
    {
        Begin();
        using (var rest = File.OpenHandle(Path.Combine(disk, "rest"), FileMode.CreateNew, FileAccess.Write))
        {
            Fill(rest);
        }
        Refused(asked);
    }

    [Theory]
    [MemberData(nameof(Writers))]
    public void A_disk_that_may_only_be_read_is_told_and_keeps_what_it_had(string asked)
    {
        Begin();
        Assert.Equal(0, Child.Run("mount", "-o", "remount,ro", disk).Status);
        Refused(asked);
    }

    /// <summary>As another program holds it that lets nobody else look.</summary>
    [Fact]
    public void A_description_that_another_program_holds_is_told()
    {
        Begin();
        var file = Path.Combine(disk, "held.machine");
        using (new FileStream(file, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None))
        {
            var (status, output, errors) = Run($"show {file}");
            Assert.Equal((2, ""), (status, output));
            Assert.Contains("file-unreadable", errors, StringComparison.Ordinal);
        }
    }

    private void Begin()
    {
        foreach (var name in new[] { "old.html", "old.png", "w-0.svg" })
        {
            File.WriteAllText(Path.Combine(disk, name), "old");
        }
        Directory.CreateDirectory(Path.Combine(disk, "pack"));
        File.WriteAllText(Path.Combine(disk, "pack", "index.html"), "old");
        File.WriteAllText(Path.Combine(disk, "lesson.md"), Lesson);
        File.WriteAllText(Path.Combine(disk, "stale.md"), Lesson.Replace("[2]", "[0]", StringComparison.Ordinal));
    }

    private static void Fill(SafeFileHandle rest)
    {
        try
        {
            for (var at = 0L; ; at += 512)
            {
                RandomAccess.Write(rest, new byte[512], at);
            }
        }
        catch (IOException)
        {
            // That is what it is for.
        }
    }

    private void Refused(string asked)
    {
        var before = There();
        var (status, output, errors) = Run(asked.Replace("#", disk, StringComparison.Ordinal));
        Assert.Equal((2, ""), (status, output));
        Assert.Matches("file-unwritable|page-missing", errors);
        Assert.DoesNotContain("Exception", errors, StringComparison.Ordinal);
        Assert.Equal(before, There());
    }

    private static Ended Run(string asked) => Child.Run(Command.Process(asked.Split(' ')));

    private IEnumerable<string> There() =>
        [
            .. Directory
                .EnumerateFileSystemEntries(disk, "*", SearchOption.AllDirectories)
                .Order(StringComparer.Ordinal)
                .Select(f => File.Exists(f) ? $"{f}: {new FileInfo(f).Length} {Head(f)}" : f),
        ];

    private static string Head(string file) =>
        file.EndsWith("rest", StringComparison.Ordinal) ? "" : File.ReadAllText(file);
}
