using System.Text.Json;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>Documents that are written into files for Reckoner itself to read again.</summary>
internal static class FiledDocuments
{
    private const string OwnMachine = """
        ---
        machine: halve.machine
        width: 4
        ---

        # Half

        ```question
        fill walk 9 1
        ```

        ```question
        choose operands divide-still-divisor --width 4 --exposing loop-longer-repeat
        ```

        """;

    /// <summary>What marking begins with: of every kind of question, of a machine in a file, and of a class that one has left.</summary>
    public static IReadOnlyList<JsonElement> Answers() =>
        In<IReadOnlyList<JsonElement>>(folder =>
        {
            string At(string file) => Path.Combine(folder, file);
            var halve = Path.Combine(WorkFolder.Repository, "tests/cases/command/lessons/halve.machine");
            File.Copy(halve, At("halve.machine"));
            File.WriteAllText(At("every.md"), MarkTests.SheetsMade.Lesson);
            File.WriteAllText(At("own.md"), OwnMachine);
            return
            [
                Made("every", "id;Name\ns001;Ada\ns002;Bo\n"),
                Made("every", "id;Name\ns001;Ada\n", "--overwrite"),
                Made("own", "id;Name\ns001;Ada\n"),
            ];

            JsonElement Made(string lesson, string list, params string[] more)
            {
                File.WriteAllText(At("class.csv"), list);
                Run(["lesson", At(lesson + ".md"), "--class", At("class.csv"), "-o", At(lesson), .. more]);
                return Read(At($"{lesson}/keep/answers.json"));
            }
        });

    /// <summary>Checks that can be gone on with: of one width and of several, of a part, with a slip, with operands left out.</summary>
    public static IReadOnlyList<JsonElement> Checkpoints() =>
        In<IReadOnlyList<JsonElement>>(folder =>
        {
            string[] asked =
            [
                "--width 4",
                "--width 4..5 --only divisor=3",
                "--width 8 --part 1/2",
                "--width 4 --slip loop-longer-repeat",
            ];
            return
            [
                .. asked.Select(
                    (words, i) =>
                    {
                        var file = Path.Combine(folder, $"{i}.json");
                        Run(["check", "divide-still-divisor", .. words.Split(' '), "--resume", file]);
                        return Read(file);
                    }
                ),
            ];
        });

    /// <summary>Parts of a check added up, of one width and of a range.</summary>
    public static IReadOnlyList<JsonElement> Sums() =>
        In<IReadOnlyList<JsonElement>>(folder => [Sum(folder, "8", "one"), Sum(folder, "7..8", "range")]);

    private static JsonElement Sum(string folder, string width, string name)
    {
        string[] parts = [.. new[] { "1/2", "2/2" }.Select((p, i) => Part(p, i))];
        var sum = Path.Combine(folder, $"{name}.json");
        Run(["check", "--add-up", .. parts, "--format", "json", "-o", sum]);
        return Read(sum);

        string Part(string part, int number)
        {
            var file = Path.Combine(folder, $"{name}-{number}.json");
            string[] asked = ["divide-still-divisor", "--width", width, "--part", part];
            Run(["check", .. asked, "--format", "json", "-o", file]);
            return file;
        }
    }

    private static T In<T>(Func<string, T> make)
    {
        var folder = Directory.CreateTempSubdirectory("reckoner-filed-").FullName;
        try
        {
            return make(folder);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static void Run(string[] words)
    {
        var run = Command.Run(words);
        Assert.True(run.Status is Exit.Done or Exit.DoesNotHold, string.Join(' ', words) + ": " + run.Errors);
    }

    private static JsonElement Read(string file) => JsonDocument.Parse(File.ReadAllText(file)).RootElement;
}
