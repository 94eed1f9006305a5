using Reckoner.Costing;
using Reckoner.Drawing;

namespace Reckoner.Cli.Tests;

/// <summary>The words of a request for a combination, about a drawn machine.</summary>
internal static class AskedWords
{
    /// <summary>What stands in a file that is to be replaced.</summary>
    public const string Before = "as it was";

    /// <summary>What is written, and where: null for the standard output.</summary>
    public static (IReadOnlyList<string> Words, string? File) Of(Combination asked, DrawnFiles drawn)
    {
        var verb = asked.Verb;
        List<string> words = [verb.Name, .. Subject(asked, drawn)];
        if (asked.Format is { } format)
        {
            words.AddRange(["--format", format]);
        }
        if (asked.Option is { } option)
        {
            words.AddRange(With(option, verb, drawn));
        }
        if (NeedsTask(verb, words))
        {
            words.AddRange(["--showing", drawn.Condition()]);
        }
        if (verb.Own.Contains(Option.Got))
        {
            words.AddRange(["--got", drawn.Got()]);
        }
        if (verb.Own.Contains(Option.Anyway) && asked.Option != Option.Anyway && drawn.Pick("yes", "no") == "yes")
        {
            words.Add("--anyway");
        }
        var file = FileOf(asked, drawn);
        return (file is null ? words : [.. words, "-o", file], file);
    }

    private static IEnumerable<string> Subject(Combination asked, DrawnFiles drawn)
    {
        var verb = asked.Verb;
        if (asked.Option == Option.AddUp)
        {
            return [Option.AddUp.Name, .. drawn.Parts()];
        }
        if (asked.Option == Option.Task)
        {
            return [Option.Task.Name, drawn.Task(), "4711-0000-0000"];
        }
        if (asked.Option == Option.Answers || asked.Option == Option.Withdrawn)
        {
            return [drawn.Table(), Option.Answers.Name, drawn.Answers()];
        }
        if (verb.MayLackMachine)
        {
            string[] its = asked.Option == Option.Slip ? [drawn.Machine, "--slip", drawn.Slip()] : [drawn.Machine];
            return [drawn.Table(), .. its, .. drawn.Operands()];
        }
        if (verb.TakesFile)
        {
            return verb.TakesMachine
                ? [drawn.Certificate(), drawn.Machine]
                : [drawn.Lesson(AsksSheets(verb, asked.Option))];
        }
        if (!verb.TakesMachine)
        {
            return [];
        }
        if (asked.Option == Option.Take)
        {
            // Nothing is saved in most of those that are drawn.
            return ["multiply-in-steps"];
        }
        var view = verb.TakesView ? ViewOf(asked, drawn) : null;
        var isSeveral = view is null
            ? verb.TakesMachines && !verb.Own.Contains(Option.Take)
            : view.OfSeveral is not null && drawn.Pick("one", "two") == "two";
        var machine = asked.Option == Option.Slip ? [drawn.Machine, "--slip", drawn.Slip()] : new[] { drawn.Machine };
        IEnumerable<string> machines = isSeveral ? [.. machine, drawn.Second] : machine;
        var isStill = view?.Still is not null && drawn.Pick("walk", "still") == "still";
        return
        [
            .. machines,
            .. view is null ? [] : new[] { view.Name },
            .. verb.TakesOperands && !isStill ? drawn.Operands() : [],
        ];
    }

    private static bool AsksSheets(Verb verb, Option? option) =>
        (option == Option.Again && verb.Own.Contains(Option.Copies))
        || option == Option.Class
        || option == Option.Copies
        || option == Option.Changed
        || option == Option.Quiz;

    /// <summary>The view that is meant, or one that the option changes something in.</summary>
    private static View ViewOf(Combination asked, DrawnFiles drawn)
    {
        if (asked.View is { } view)
        {
            return view;
        }
        var name = asked.Option?.Name.TrimStart('-').Replace("-", "", StringComparison.Ordinal);
        var option = Enum.GetValues<FigureOption>()
            .Where(o => string.Equals($"{o}", name, StringComparison.OrdinalIgnoreCase))
            .Select(o => (FigureOption?)o)
            .FirstOrDefault();
        var suitable = View.All.Where(v => option is null || v.Takes.Contains(option.Value)).Select(v => v.Name);
        var picked = drawn.Pick([.. suitable]);
        return View.All.First(v => v.Name == picked);
    }

    private static bool NeedsTask(Verb verb, List<string> words) =>
        verb.Own.Contains(Option.Showing)
        && !new[] { Option.Showing, Option.Exposing, Option.TellingApart, Option.Count }.Any(o =>
            words.Contains(o.Name)
        );

    /// <summary>An option with a value that fits, and whatever it has no meaning without.</summary>
    private static IReadOnlyList<string> With(Option option, Verb verb, DrawnFiles drawn) =>
        option.Name switch
        {
            "--width" => ["--width", drawn.Widths(isRange: verb.Own.Contains(Option.Part))],
            "--style" => ["--style", drawn.Pick("none", WorkFolder.At("steps.style"), WorkFolder.At("other.style"))],
            "--language" => ["--language", "de"],
            "--line" => ["bash", "--line", $"reckoner walk {drawn.Machine} --"],
            "--dump" => ["--dump", drawn.Pick("datapath", "timeline")],
            "--sample" =>
            [
                "--sample",
                drawn.Pick("1", "30", "500"),
                .. verb.Own.Contains(Option.Activity) ? ["--activity"] : (string[])[],
            ],
            "--seed" =>
            [
                "--seed",
                "3",
                .. verb.Own.Contains(Option.Count) ? ["--count", "2"] : (string[])["--sample", "20"],
                .. verb.Own.Contains(Option.Activity) ? ["--activity"] : (string[])[],
            ],
            "--part" => ["--part", drawn.Pick("1/1", "1/2", "2/2")],
            "--only" => ["--only", drawn.Pick("1 = 1", "1 > 2")],
            "--on" => ["--on", "cpu"],
            "--adder" =>
            [
                .. verb.Own.Contains(Option.AsBuilt) ? ["--as-built"] : Array.Empty<string>(),
                "--adder",
                drawn.Pick([.. Adders.All.Select(Adders.Name)]),
            ],
            "--clock" => ["--clock", "1000000"],
            "--model" => ["--model", drawn.Model()],
            "--resume" => ["--resume", drawn.At("checkpoint.json")],
            "--showing" => ["--showing", drawn.Condition()],
            "--exposing" => ["--exposing", drawn.Pick("all", drawn.Slip())],
            "--count" => ["--count", "2"],
            "--take" => ["--take", "1"],
            "--again" when verb.Own.Contains(Option.Copies) => ["--again", "--copies", drawn.First("pack")],
            "--repeats" or "--neighbours" or "--again" => [option.Name, "--count", "4"],
            "--allow" => ["--allow", drawn.Pick("all", "power-of-two", "small-result,slip-unseen"), "--count", "2"],
            "--best" => ["--best", "2", "--showing", drawn.Condition()],
            "--ground" => ["--ground", drawn.Pick([.. Palette.All.Select(p => p.Name)])],
            "--text" => ["--text", drawn.Pick("letters", "outlines")],
            "--cycle" => ["--cycle", drawn.Pick("0", "1")],
            "--from" => ["--from", drawn.Pick("0", "1")],
            "--to" => ["--to", drawn.Pick("0", "1")],
            "--base" => ["--base", drawn.Pick("2", "8", "10", "16")],
            "--size" => ["--size", drawn.Pick("16:9", "4:3", "a4", "700x900")],
            "--layout" => ["--layout", drawn.Pick("bar", "colon")],
            // No port at all: whatever listens would go on for ever.
            "--port" => ["--port", "0"],
            "--no-browser" when verb.Own.Contains(Option.Watch) => ["--no-browser", "--watch", "--port", "0"],
            "--no-browser" => ["--no-browser", "--port", "0"],
            "--watch" => ["--watch", "--port", "0"],
            // Of sheets alone, and there is a machine.
            "--class" when verb.Own.Contains(Option.Key) => [],
            "--class" => ["--class", drawn.Class()],
            "--quiz" => ["--quiz", drawn.Pick([.. QuizBuild.FormNames])],
            "--copies" => ["--copies", "2"],
            "--changed" => ["--changed", "--copies", "2"],
            "--leave-out" => ["--leave-out", "control"],
            "--reasons" => ["--reasons", drawn.Pick("short", "full")],
            "--invariant" when option.TakesValue => ["--invariant", drawn.Invariant()],
            "--table" => ["--table", drawn.Table()],
            "--scheme" => ["--scheme", drawn.Pick("each-time", "per-row", "per-register", "first-error")],
            "--withdrawn" => ["--withdrawn", "1"],
            // Behind the machine already.
            "--slip" or "--add-up" or "--task" or "--answers" or "--key" or "--got" or "-o" => [],
            _ when option.TakesValue => throw new InvalidOperationException($"{option.Name} needs a value here."),
            _ => [option.Name],
        };

    /// <summary>Some results are for files alone, and so is what exchanges one.</summary>
    private static string? FileOf(Combination asked, DrawnFiles drawn)
    {
        var (verb, option) = (asked.Verb, asked.Option);
        if (asked.Ending is { } ending)
        {
            return drawn.At("figure" + ending);
        }
        if (asked.Format is { } format && TableFormat.All.Any(f => f.Name == format && !f.IsText))
        {
            return drawn.At("table." + format);
        }
        if (verb.TakesFile && !verb.TakesMachine)
        {
            return drawn.At(option == Option.Quiz ? "bank.questions" : "pack");
        }
        if (option != Option.Output && option != Option.Overwrite && option != Option.OneByOne)
        {
            return verb.Name == "open" && option is null ? drawn.At("page.html") : null;
        }
        if (verb.WritesFolder)
        {
            return drawn.At("folder");
        }
        var file = drawn.At(
            verb.TakesView ? "figure.svg"
            : verb.Formats.Count > 0 ? "result.json"
            : "page.html"
        );
        if (option == Option.Overwrite)
        {
            File.WriteAllText(file, Before);
        }
        return file;
    }
}
