using Reckoner.Choosing;
using Reckoner.Diagnostics;
using Reckoner.Questions;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>The options of "operands" as they were read.</summary>
/// <param name="Count">So many of equal difficulty; null where that is not asked.</param>
internal sealed record OperandsChoice(int? Best, int? Count, int? Sample, int Seed, EqualAllowed Allowed)
{
    private const int MostShown = 1000;

    private const string AllShortcuts = "all";

    /// <summary>Null when an option cannot be what it is; the report says so.</summary>
    public static OperandsChoice? Read(Request request, AskedMachine machine)
    {
        ReadTask(request, machine);
        foreach (var option in new[] { Option.Repeats, Option.Neighbours, Option.Allow, Option.Again })
        {
            Alone(request, option, request.Has(Option.Count), "--count 4");
        }
        var allowed = ReadAllowed(request);
        Alone(
            request,
            Option.Seed,
            request.Has(Option.Count) || request.Has(Option.Sample),
            "--count 4 or --sample 100000"
        );
        var best = Number(request, Option.Best, 1, MostShown);
        var count = Number(request, Option.Count, 1, MostShown);
        var sample = Number(request, Option.Sample, 1, OperandsQuestion.MostSampled);
        var seed = Number(request, Option.Seed, 0, int.MaxValue) ?? 1;
        return request.Report.HasErrors ? null : new OperandsChoice(best, count, sample, seed, allowed);
    }

    /// <summary>Operands of equal difficulty may be drawn from those that show something; all else is asked for alone.</summary>
    private static void ReadTask(Request request, AskedMachine machine)
    {
        Option[] tasks =
        [
            .. new[] { Option.Showing, Option.Exposing, Option.TellingApart, Option.Count }.Where(request.Has),
        ];
        if (tasks.Length == 0)
        {
            var result = machine.Bind().Data is { Results: [{ Name: var name }, ..] } ? name : "RESULT";
            request.Report.Add(Id.NothingChosen, request.Whole, ("condition", $"{result} = 0"));
        }
        else if (tasks.Length > 1 && !tasks.SequenceEqual([Option.Showing, Option.Count]))
        {
            Clash(request, tasks[0].Name, tasks[1]);
        }
        else if (request[Option.Exposing] is { Text: OperandsQuestion.EverySlip })
        {
            Clash(request, $"{Option.Exposing.Name} {OperandsQuestion.EverySlip}", Option.Best);
        }
        else if (tasks[^1] == Option.TellingApart || tasks[^1] == Option.Count)
        {
            Clash(request, tasks[^1].Name, Option.Best);
        }
    }

    private static EqualAllowed ReadAllowed(Request request) =>
        new(request.Has(Option.Repeats), request.Has(Option.Neighbours), [.. Named(request).Distinct()]);

    /// <summary>Names of shortcuts between commas, or "all".</summary>
    private static IEnumerable<Shortcut> Named(Request request)
    {
        if (request[Option.Allow] is not { } word)
        {
            return [];
        }
        if (word.Text == AllShortcuts)
        {
            return Shortcuts.All;
        }
        var names = word.Text.Split(',', StringSplitOptions.TrimEntries);
        var known = names.Select(n => Shortcuts.All.Where(s => Shortcuts.Name(s) == n).ToList()).ToList();
        if (known.FindIndex(k => k.Count == 0) is >= 0 and var wrong)
        {
            request.Report.Add(
                Id.OptionValue,
                word.Span,
                ("option", Option.Allow.Name),
                ("value", names[wrong]),
                ("known", Shortcuts.All.Select(Shortcuts.Name).Append(AllShortcuts).ToList())
            );
            return [];
        }
        return known.SelectMany(k => k);
    }

    private static void Clash(Request request, string first, Option second)
    {
        if (request[second] is { } word)
        {
            request.Report.Add(Id.OptionsClash, word.Span, ("first", first), ("second", second.Name));
        }
    }

    private static void Alone(Request request, Option option, bool hasOther, string other)
    {
        if (request[option] is { } alone && !hasOther)
        {
            request.Report.Add(Id.OptionAlone, alone.Span, ("option", option.Name), ("other", other));
        }
    }

    private static int? Number(Request request, Option option, int least, int most)
    {
        if (request[option] is not { } word)
        {
            return null;
        }
        if (OperandReader.Number(word.Text) is { } number && number >= least && number <= most)
        {
            return (int)number;
        }
        Plan.Refuse(request, option, word);
        return null;
    }
}
