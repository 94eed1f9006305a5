using System.Text.Json;
using Reckoner.Catalogue;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>The fields of JSON documents with the types that occur, over many machines: "rows[].cycle: number".</summary>
internal static class JsonFields
{
    /// <summary>Objects whose fields are named by the description.</summary>
    private static readonly string[] ByName =
    [
        "width",
        "next_width",
        "operands",
        "results",
        "results_there",
        "covered[].sections[].smallest",
        "expected",
        "right",
        "registers",
        "after",
        "pieces",
        "meanings",
        "values",
    ];

    /// <summary>What has no title, phrases or unit names, and what notes and multiplies.</summary>
    private const string Bare = """
        machine bare

        width n = 4 in 2..8

        operand x : n

        register X : n loads x
        register P : 2n loads 0
        meaning Y = P

        step square
          note "a square"
          P <- X * X

        result y = P
        """;

    /// <summary>Requests to choose operands that together show every field: choices among arms, slips alike, classes too small.</summary>
    private static readonly string[][] Choices =
    [
        ["multiply-booth", "--showing", "product < 0"],
        ["multiply-early-out", "--showing", "at most 2 cycles"],
        ["divide-still-divisor", "--width", "4", "--exposing", "all"],
        ["divide-still-divisor", "--width", "4", "--telling-apart"],
        ["divide-still-divisor", "--width", "5", "--count", "2", "--allow", "power-of-two"],
        ["divide-still-divisor", "--width", "5", "--count", "40", "--neighbours"],
        ["divide-still-divisor", "--width", "4", "--count", "3", "--showing", "remainder = 0"],
        ["divide-still-divisor", "--width", "4", "--count", "30", "--showing", "quotient = 16"],
    ];

    /// <summary>One whole, one wrong, one that is proved by parts, one that is not reached.</summary>
    private static readonly string[] Proofs =
    [
        "divide-shared-register",
        "multiply-carry-dropped",
        "divide-unsigned-arm",
        "divide-srt-radix-2",
        "divide-srt-radix-4",
        "multiply-early-out",
    ];

    private const string Guessed = "divide-shared-register";

    private static readonly string[] Guesses =
    [
        "R = dividend",
        "R.high < 2^(n-i+1) * divisor",
        "D = divisor",
        "2^(n-i+1) * R.low * D + R.high = dividend and R.high < 2^(n-i+1) * D and D = divisor and 1 = 1",
    ];

    private static JsonElement Verified()
    {
        var file = Path.Combine(Path.GetTempPath(), $"fields-{Guid.NewGuid():N}.proof");
        Command.Run("prove", Guessed, "-o", file);
        try
        {
            return Run("verify", file, Guessed, "--format", "json");
        }
        finally
        {
            File.Delete(file);
        }
    }

    public static IEnumerable<JsonElement> Documents(string verb)
    {
        if (verb == "list")
        {
            return [Run("list", "--format", "json")];
        }
        if (verb == "prove")
        {
            WorkFolder.Enter();
            return [.. Proofs.Select(machine => Run("prove", machine, "--format", "json"))];
        }
        if (verb == "guess")
        {
            return [.. Guesses.Select(guess => Run("prove", Guessed, "--invariant", guess, "--format", "json"))];
        }
        if (verb == "verify")
        {
            return [Verified()];
        }
        if (verb == "answers")
        {
            return FiledDocuments.Answers();
        }
        if (verb == "checkpoint")
        {
            return FiledDocuments.Checkpoints();
        }
        if (verb == "operands")
        {
            return [.. Choices.Select(asked => Run(["operands", .. asked, "--format", "json"]))];
        }
        if (Requests.TryGetValue(verb, out var requests))
        {
            WorkFolder.Enter();
            return [.. requests.SelectMany(r => Checks(Run([verb, .. r.Split(' '), "--format", "json"])))];
        }
        var file = Path.Combine(Path.GetTempPath(), $"bare-{Guid.NewGuid():N}.machine");
        var outside = Path.ChangeExtension(file, ".outside.machine");
        File.WriteAllText(file, Bare + "\nlaw y / (x - x) = 1\n");
        File.WriteAllText(outside, Bare + "\ngiven x > 1\noutside y / (x - x) = 1\n");
        try
        {
            return
            [
                .. MachineCatalogue
                    .Names.Append(file)
                    .Append(outside)
                    .Select(machine => Run([verb, machine, "--format", "json", .. Operands(verb, machine)])),
                .. verb == "walk"
                    ? [Run("walk", Guessed, "--width", "3", "7", "2", "--invariant", "--format", "json")]
                    : Array.Empty<JsonElement>(),
            ];
        }
        finally
        {
            File.Delete(file);
            File.Delete(outside);
        }
    }

    /// <summary>
    /// Requests whose documents together have every field: what holds and what does not, over everything, a part and a sample,
    /// in gates and word by word, loops that stop early and steps with names.
    /// </summary>
    private static readonly Dictionary<string, string[]> Requests = new()
    {
        ["check"] =
        [
            "divide-still-divisor --width 5",
            "divide-still-divisor --width 4..5",
            "divide-still-divisor --width 8 --part 1/2",
            "divide-still-divisor --width 8 --most-parts",
            "divide-still-divisor --width 8 --only divisor=3",
            "divide-still-divisor --width 64 --sample 100",
            "divide-still-divisor --width 5 --slip loop-longer-repeat",
            "multiply-early-out --width 5",
            "multiply-booth-narrow --width 4",
            "divide-srt-radix-4-1994 --width 8",
            "divide-goldschmidt --width 4",
            "powers.machine",
            "loose.machine",
            "loose.machine --slip shift-other-way-A",
        ],
        ["cost"] =
        [
            "divide-still-divisor divide-goldschmidt",
            "divide-srt-radix-4-1994 --width 8",
            "multiply-booth --width 4..8",
            "multiply-early-out --width 4 --activity",
            "divide-still-divisor --activity --sample 3",
            "divide-still-divisor --model cells.model",
            "divide-still-divisor --clock 40",
        ],
        ["refine"] =
        [
            "multiply-moving-multiplicand --prove",
            "multiply-moving-multiplicand multiply-shared-register",
            "multiply-moving-multiplicand multiply-carry-dropped",
        ],
        ["idle"] =
        [
            "divide-still-divisor --width 4",
            "divide-still-divisor --width 64",
            "multiply-early-out --width 4",
            "multiply-in-steps --width 4",
        ],
        ["slips"] =
        [
            "divide-still-divisor --width 4",
            "multiply-early-out --width 4",
            "multiply-booth --width 4 --sample 200",
            "multiply-still-multiplicand --width 2 --prove",
        ],
        ["why"] =
        [
            "multiply-booth --width 4 -4 3 --got product=-16",
            "divide-still-divisor --width 5 29 6 --table hand.csv",
        ],
        ["compare"] =
        [
            "divide-still-divisor divide-shared-register --width 3",
            "divide-still-divisor divide-shared-register --width 65",
            "divide-still-divisor divide-still-divisor --slip loop-longer-repeat --width 3 6 2",
            "divide-still-divisor divide-shared-register divide-non-restoring --width 3 6 2",
            "multiply-early-out multiply-in-steps --width 4 3 2",
        ],
    };

    /// <summary>A range of widths is one document; what it says of each width are the fields of a check at one.</summary>
    private static IEnumerable<JsonElement> Checks(JsonElement document) =>
        document.TryGetProperty("checks", out var checks) ? checks.EnumerateArray().Prepend(document) : [document];

    /// <summary>For a walk 1, and 0 for every further operand: inside "given" for some machines, outside for others.</summary>
    private static IEnumerable<string> Operands(string verb, string machine) =>
        verb == "walk"
            ? Run("show", machine, "--format", "json")
                .GetProperty("operands")
                .EnumerateArray()
                .Select((_, index) => index == 0 ? "1" : "0")
                .Prepend("--anyway")
            : [];

    private static JsonElement Run(params string[] arguments)
    {
        using var output = new StringWriter();
        using var errors = new StringWriter();
        using var session = new Session(output, errors);
        var status = session.Run(arguments);
        Assert.True(status is Exit.Done or Exit.DoesNotHold, $"{string.Join(' ', arguments)}: {errors}");
        return JsonDocument.Parse(output.ToString()).RootElement;
    }

    public static IEnumerable<string> Of(IEnumerable<JsonElement> documents)
    {
        var types = new Dictionary<string, SortedSet<string>>();
        foreach (var document in documents)
        {
            Fields(document, "", types);
        }
        return types.Select(t => $"{t.Key}: {Or(t.Value)}");
    }

    public static IEnumerable<string> FactsOf(IEnumerable<JsonElement> walks)
    {
        var types = new Dictionary<string, SortedSet<string>>();
        var events = walks
            .SelectMany(w => w.GetProperty("rows").EnumerateArray())
            .SelectMany(r => r.GetProperty("moments").EnumerateArray())
            .SelectMany(m => m.GetProperty("events").EnumerateArray());
        foreach (var one in events)
        {
            Fields(one.GetProperty("facts"), one.GetProperty("kind").GetString() + " ", types);
        }
        return types.Select(t => $"{t.Key}: {Or(t.Value)}");
    }

    /// <summary>Null comes last: "text or null".</summary>
    private static string Or(SortedSet<string> types) => string.Join(" or ", types.OrderBy(t => t == "null"));

    private static void Fields(JsonElement parent, string before, Dictionary<string, SortedSet<string>> types)
    {
        foreach (var field in parent.EnumerateObject())
        {
            var isNamed = ByName.Any(n => $".{before}".EndsWith($".{n}.", StringComparison.Ordinal));
            var path = before + (isNamed ? "NAME" : field.Name);
            if (path != "checks")
            {
                Value(field.Value, path, types);
            }
            else
            {
                types[path] = ["list"];
            }
        }
    }

    private static void Value(JsonElement value, string path, Dictionary<string, SortedSet<string>> types)
    {
        if (!types.TryGetValue(path, out var found))
        {
            types[path] = found = [];
        }
        found.Add(
            value.ValueKind switch
            {
                JsonValueKind.String => "text",
                JsonValueKind.Number => "number",
                JsonValueKind.True or JsonValueKind.False => "truth",
                JsonValueKind.Array => "list",
                JsonValueKind.Object => "object",
                _ => "null",
            }
        );
        if (value.ValueKind == JsonValueKind.Object && !path.EndsWith(".facts", StringComparison.Ordinal))
        {
            Fields(value, path + ".", types);
        }
        else if (value.ValueKind == JsonValueKind.Array)
        {
            foreach (var item in value.EnumerateArray())
            {
                Item(item, path + "[]", types);
            }
        }
    }

    private static void Item(JsonElement item, string path, Dictionary<string, SortedSet<string>> types)
    {
        if (item.ValueKind == JsonValueKind.Object)
        {
            Fields(item, path + ".", types);
        }
        else
        {
            Value(item, path, types);
        }
    }
}
