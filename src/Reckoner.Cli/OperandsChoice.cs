using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>The options of "operands" as they were read.</summary>
internal sealed record OperandsChoice(int? Best, int? Sample, int Seed)
{
    private const int MostShown = 1000;
    private const int MostSampled = 1_000_000;

    /// <summary>Null when an option cannot be what it is; the report says so.</summary>
    public static OperandsChoice? Read(Request request)
    {
        if (!request.Has(Option.Showing))
        {
            request.Report.Add(Id.NothingChosen, request.Whole);
        }
        if (request[Option.Seed] is { } alone && !request.Has(Option.Sample))
        {
            request.Report.Add(Id.OptionAlone, alone.Span, ("option", "--seed"), ("other", "--sample 100000"));
        }
        var best = Number(request, Option.Best, 1, MostShown);
        var sample = Number(request, Option.Sample, 1, MostSampled);
        var seed = Number(request, Option.Seed, 0, int.MaxValue) ?? 1;
        return request.Report.HasErrors ? null : new OperandsChoice(best, sample, seed);
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
        request.Report.Add(
            Id.NumberOption,
            word.Span,
            ("option", option.Name),
            ("value", word.Text),
            ("example", $"{option.Name} {option.Example}")
        );
        return null;
    }
}
