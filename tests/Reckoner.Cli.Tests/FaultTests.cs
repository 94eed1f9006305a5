using System.Text;
using Reckoner.Reporting;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>
/// Whichever operation on a disk fails, once or for good, and wherever the program is killed: what is written is old or new, never
/// between, by everything that writes files.
/// </summary>
public sealed class FaultTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-fault-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    /// <summary>Something that writes files.</summary>
    /// <param name="Asked">The request; # is the folder.</param>
    /// <param name="Before">What is there already, by names in the folder.</param>
    private sealed record Writer(string Asked, params (string Name, string Text)[] Before)
    {
        /// <summary>Whether killing it may leave some files old and some new, each of them whole.</summary>
        public bool IsPiecewise { get; init; }

        /// <summary>For a pack, its files instead of those of the lesson, which take long to make.</summary>
        public IReadOnlyList<(string Path, byte[] Bytes)>? Pack { get; init; }

        public int Run(Disk disk, string folder)
        {
            var words = Asked.Split(' ').Select(w => w.Replace("#", folder, StringComparison.Ordinal)).ToList();
            if (Pack is null)
            {
                return Command.Run(disk, words).Status;
            }
            var request = Request.Read(words);
            using var session = new Session(TextWriter.Null, TextWriter.Null) { Disk = disk };
            return LessonFolder.Write(session, request, request[Option.Output]!, Pack, replaces: false)
                ? Exit.Done
                : Exit.Wrong;
        }
    }

    private const string Lesson = """
        ---
        machine: divide-still-divisor
        width: 3
        operands: 5 2
        ---

        It is [0](quotient).

        """;

    private static readonly (string, byte[])[] Pack =
    [
        .. new[] { "index.html", "figures/01.svg", "key.pdf" }.Select(f => (f, Encoding.UTF8.GetBytes("new " + f))),
    ];

    private static readonly Dictionary<string, Writer> Writers = new()
    {
        ["a new file"] = new("walk halve.machine 5 3 -o #/walk.txt"),
        ["a file in the place of another"] = new(
            "walk halve.machine 5 3 --format json -o #/walk.json --overwrite",
            ("walk.json", "old")
        ),
        ["figures, some of them there"] = new(
            "draw halve.machine weave 5 3 --one-by-one -o #/w.svg --overwrite",
            ("w-0.svg", "old"),
            ("w-2.svg", "old"),
            ("other.svg", "stays")
        )
        {
            IsPiecewise = true,
        },
        ["a new pack"] = new("lesson x.md -o #/below/pack") { Pack = Pack },
        ["a pack over another"] = new(
            "lesson x.md -o #/pack --overwrite",
            ("pack/index.html", "old"),
            ("pack/key.pdf", "old"),
            ("pack/figures/mine.txt", "stays"),
            ("pack/own/mine", "stays")
        )
        {
            Pack = Pack,
        },
        ["a lesson's numbers"] = new("lesson #/lesson.md --refresh", ("lesson.md", Lesson)),
        ["a checkpoint"] = new("check divide-still-divisor --width 3..4 --resume #/check.json"),
    };

    public static TheoryData<string> Names => [.. Writers.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void Whatever_fails_it_is_old_or_new(string name)
    {
        var writer = Writers[name];
        var old = Begin(writer);
        Assert.Equal(Exit.Done, writer.Run(Disk.Real, folder));
        var fresh = There();
        Assert.NotEqual(old, fresh);
        Assert.All(old, f => Assert.Contains(f.Key, fresh.Keys));
        foreach (var how in Enum.GetValues<Failing>())
        {
            var k = 0;
            for (var isOver = false; !isOver; k++)
            {
                Begin(writer);
                var disk = new FailingDisk(k, how);
                var status = Status(writer, disk);
                isOver = !disk.HasFailed;
                var wrong = isOver ? Differs(fresh, Exit.Done, status) : Wrong(writer, how, status, old, fresh);
                Assert.True(wrong is null, $"{name}, operation {k} of the disk, {how}: {wrong}");
            }
            Assert.InRange(k, 3, 100);
        }
    }

    /// <summary>Null where it was killed.</summary>
    private int? Status(Writer writer, FailingDisk disk)
    {
        try
        {
            return writer.Run(disk, folder) is var status and not Exit.OurFault ? status : null;
        }
        catch (FailingDisk.Killed)
        {
            return null;
        }
    }

    private string? Wrong(
        Writer writer,
        Failing how,
        int? status,
        Dictionary<string, string> old,
        Dictionary<string, string> fresh
    )
    {
        var there = There();
        if (how != Failing.Killed)
        {
            // What failed may have been the removal of something that is of no use any more.
            return status == Exit.Done
                ? Differs(fresh, Exit.Done, status, mayHaveMore: true)
                : Differs(old, Exit.Wrong, status);
        }
        var known = there.Where(f => fresh.ContainsKey(f.Key)).ToDictionary();
        bool IsOldOrNew(string file) =>
            known.GetValueOrDefault(file) is var text && (text == old.GetValueOrDefault(file) || text == fresh[file]);
        return status is not null ? "it ended by itself"
            : writer.IsPiecewise ? fresh.Keys.FirstOrDefault(f => !IsOldOrNew(f))
            : Same(known, old) || Same(known, fresh) ? null
            : Shown(known);
    }

    private string? Differs(Dictionary<string, string> expected, int status, int? found, bool mayHaveMore = false)
    {
        var there = There();
        var same = mayHaveMore ? expected.All(there.Contains) : Same(expected, there);
        return found == status && same ? null : $"status {found}, {Shown(there)}";
    }

    private static bool Same(Dictionary<string, string> one, Dictionary<string, string> other) =>
        one.Count == other.Count && one.All(other.Contains);

    private static string Shown(Dictionary<string, string> files) =>
        string.Join(", ", files.Select(f => $"{f.Key}: {f.Value[..Math.Min(20, f.Value.Length)]}"));

    private Dictionary<string, string> Begin(Writer writer)
    {
        Directory.Delete(folder, recursive: true);
        Directory.CreateDirectory(folder);
        foreach (var (file, text) in writer.Before)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(Path.Combine(folder, file))!);
            File.WriteAllText(Path.Combine(folder, file), text);
        }
        return There();
    }

    /// <summary>Every file by its name with what is in it. Of a checkpoint, which tells of times, that it is whole.</summary>
    private Dictionary<string, string> There() =>
        Directory
            .EnumerateFiles(folder, "*", SearchOption.AllDirectories)
            .ToDictionary(f => Path.GetRelativePath(folder, f), Text);

    private static string Text(string file) =>
        File.ReadAllText(file) is var text && CheckpointJson.Read(text).Checkpoint is null
            ? text
            : "a whole checkpoint";
}
