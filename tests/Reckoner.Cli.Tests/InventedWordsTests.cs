using System.Text.RegularExpressions;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>
/// Nothing about a machine is known but what its description says: the same machine in invented words, each as long and as wide
/// as the word it stands for, gives the same answers in those words, whatever is asked.
/// </summary>
public sealed partial class InventedWordsTests : IDisposable
{
    private static readonly Dictionary<string, string> Machine = new()
    {
        ["M"] = "divide-still-divisor",
        ["N"] = "divide-moving-divisor",
    };

    /// <summary>What is refused, in the description's own words too; everything else is answered.</summary>
    private static readonly string[] Refused = ["walk M 29 0 --width 5"];

    /// <summary>Letters of one word in another order take the room that the word takes.</summary>
    private static readonly Dictionary<string, string> Invented = new()
    {
        ["dividend"] = "vindedid",
        ["divisor"] = "rodivis",
        ["quotient"] = "tuqentio",
        ["remainder"] = "madreiner",
        ["difference"] = "freffindee",
    };

    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-invented-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    /// <summary>Every verb that answers about a machine; what is asked of each. The description's hash differs, as it must.</summary>
    private static readonly Dictionary<string, string[]> Asked = new()
    {
        ["show"] = ["M", "M --hardware", "M --width 5"],
        ["walk"] =
        [
            "M 29 6 --width 5",
            "M 29 6 --width 5 --format json",
            "M 29 6 --width 5 --format markdown",
            "M 29 6 --width 5 --format html",
            "M 29 6 --width 5 --format latex",
            "M 29 6 --width 5 --format csv",
            "M 29 6 --width 5 --format prose",
            "M 29 0 --width 5",
            "M 29 0 --width 5 --anyway",
        ],
        ["compare"] = ["M N 29 6 --width 5", "N M --width 5"],
        ["states"] = ["M", "M --format json"],
        ["cost"] = ["M", "M N --width 5", "M --format json"],
        ["refine"] = ["M --width 5", "M --take 1"],
        ["check"] = ["M --width 2..5", "N --width 4", "M --width 4 --averages"],
        ["slips"] = ["M --width 3"],
        ["operands"] = ["M --width 4 --count 4"],
        ["idle"] = ["M --width 3"],
        ["prove"] = ["M", "N"],
        ["hdl"] = ["M --width 3", "M --width 3 --format vhdl"],
        ["why"] = ["M 29 6 --width 5 --got quotient=9", "M 29 6 --width 5 --got quotient=9 --format json"],
        ["draw"] =
        [
            "M weave 29 6 --width 5",
            "M table 29 6 --width 5",
            "M paper 29 6 --width 5",
            "M blocks --width 5",
            "M datapath --width 5 --size a4",
            "M datapath 29 6 --width 5 --cycle 3 --size a4",
            "N M comparison --width 5",
        ],
    };

    public static TheoryData<string> Question =>
        [.. Asked.SelectMany(verb => verb.Value.Select(words => $"{verb.Key} {words}"))];

    /// <summary>These ask of no machine, or only of their names, of a whole folder or page, of the codes of a task, or replay what was proved.</summary>
    [Fact]
    public void No_verb_is_left_out() =>
        Assert.Equal(
            ["completions", "help", "language-server", "lesson", "list", "mark", "open", "verify"],
            Verb.All.Select(v => v.Name).Except(Asked.Keys).Order()
        );

    [Theory]
    [MemberData(nameof(Question))]
    public void The_same_is_said_in_the_description_s_own_words(string question)
    {
        var (known, invented) = (Answer(question, w => w), Answer(question, Renamed));
        Assert.Equal(Refused.Contains(question), known.Status == 2);
        Assert.NotEmpty(known.Output + known.Errors);
        Assert.Equal(known.Status, invented.Status);
        Assert.Equal(Renamed(Said(known.Output)), Said(invented.Output));
        Assert.Equal(Renamed(known.Errors), invented.Errors);
    }

    private Command Answer(string question, Func<string, string> words)
    {
        var line = question.Split(' ').Select(w => Machine.TryGetValue(w, out var name) ? File(words, name) : words(w));
        return Command.Run([.. line]);
    }

    /// <summary>Each is called what it calls itself, so that one finds the other that it follows.</summary>
    private string File(Func<string, string> words, string name)
    {
        foreach (var machine in Machine.Values)
        {
            System.IO.File.WriteAllText(Path.Combine(folder, $"{words(machine)}.machine"), words(Text(machine)));
        }
        return Path.Combine(folder, $"{words(name)}.machine");
    }

    private static string Text(string name) =>
        System.IO.File.ReadAllText(
            Directory.GetFiles(
                Path.Combine(WorkFolder.Repository, "src"),
                $"{name}.machine",
                SearchOption.AllDirectories
            )[0]
        );

    private static string Renamed(string text) => Known().Replace(text, word => Invented[word.Value]);

    /// <summary>
    /// The description's hash differs, as it must. Of a figure the texts: letters in another order are not as wide to a hair, and
    /// places move by that.
    /// </summary>
    private static string Said(string text) =>
        text.StartsWith("<svg", StringComparison.Ordinal)
            ? string.Join('\n', Texts().Matches(text).Select(m => m.Value))
            : Hash().Replace(text, "sha256:");

    [GeneratedRegex(">[^<>]*</text>")]
    private static partial Regex Texts();

    [GeneratedRegex("dividend|divisor|quotient|remainder|difference")]
    private static partial Regex Known();

    [GeneratedRegex("sha256:[0-9a-f]+")]
    private static partial Regex Hash();
}
