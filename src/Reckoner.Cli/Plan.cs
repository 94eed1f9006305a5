using Reckoner.Diagnostics;
using Reckoner.Questions;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>What a check is to cover: everything, part K of M, or a sample.</summary>
internal sealed record Plan(CheckPart Part, DrawnSample? Sample)
{
    /// <summary>Null when an option cannot be what it is; the report says so.</summary>
    /// <param name="mostSampled">More operands are not drawn.</param>
    public static Plan? Read(Request request, int mostSampled)
    {
        var sampled = request[Option.Sample];
        if (sampled is not null)
        {
            Clash(request, Option.Sample, [Option.Only, Option.Part, Option.Averages, Option.Resume]);
        }
        if (request.Has(Option.Part))
        {
            Clash(request, Option.Part, [Option.Averages]);
        }
        if (request.Has(Option.Only))
        {
            Clash(request, Option.Only, [Option.Averages]);
        }
        if (request[Option.Seed] is { } alone && sampled is null)
        {
            request.Report.Add(Id.OptionAlone, alone.Span, ("option", "--seed"), ("other", "--sample 100000"));
        }
        var count = Number(request, Option.Sample, 1, mostSampled) ?? 0;
        var seed = Number(request, Option.Seed, 0, int.MaxValue) ?? 1;
        var part = Parts(request);
        return request.Report.HasErrors ? null : new Plan(part, sampled is null ? null : new DrawnSample(seed, count));
    }

    /// <summary>The number that an option takes; null where it is not given, or where it is none, which is said.</summary>
    public static int? Number(Request request, Option option, int least, int most)
    {
        if (request[option] is not { } word)
        {
            return null;
        }
        if (OperandReader.Number(word.Text) is { } number && number >= least && number <= most)
        {
            return (int)number;
        }
        Refuse(request, option, word);
        return null;
    }

    /// <summary>Says that a word is not the number that an option takes.</summary>
    public static void Refuse(Request request, Option option, RequestWord word) =>
        request.Report.Add(
            Id.NumberOption,
            word.Span,
            ("option", option.Name),
            ("value", word.Text),
            ("example", $"{option.Name} {option.Example}")
        );

    /// <summary>Says that an option would do nothing without another one.</summary>
    public static void Needs(Request request, RequestWord word, Option option, Option other) =>
        request.Report.Add(Id.OptionAlone, word.Span, ("option", option.Name), ("other", other.Name));

    /// <summary>Refuses options that would do nothing beside another one.</summary>
    public static void Clash(Request request, Option first, IReadOnlyList<Option> others)
    {
        foreach (var other in others)
        {
            if (request[other] is { } word)
            {
                request.Report.Add(Id.OptionsClash, word.Span, ("first", first.Name), ("second", other.Name));
            }
        }
    }

    private static CheckPart Parts(Request request)
    {
        if (request[Option.Part] is not { } word)
        {
            return CheckPart.Whole;
        }
        var numbers = word.Text.Split('/').Select(OperandReader.Number).ToList();
        if (numbers is [{ } k, { } of] && of >= 1)
        {
            if (of > CheckQuestion.MostParts)
            {
                request.Report.Add(Id.PartsTooMany, word.Span, ("of", of), ("most", CheckQuestion.MostParts));
                return CheckPart.Whole;
            }
            if (k >= 1 && k <= of)
            {
                return new CheckPart((int)k, (int)of);
            }
            request.Report.Add(Id.PartOutside, word.Span, ("part", k), ("of", of));
            return CheckPart.Whole;
        }
        Refuse(request, Option.Part, word);
        return CheckPart.Whole;
    }
}
