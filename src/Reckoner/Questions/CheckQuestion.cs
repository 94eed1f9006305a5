using Reckoner.Checking;
using Reckoner.Claims;
using Reckoner.Datapaths;

namespace Reckoner.Questions;

/// <summary>Part K of M of all operands, counted from 1.</summary>
public readonly record struct CheckPart(int K, int Of)
{
    public static CheckPart Whole { get; } = new(1, 1);
}

/// <summary>Operands that are drawn instead of all being tried: always the same for a seed.</summary>
public readonly record struct DrawnSample(int Seed, int Count);

/// <summary>When averages over all operands are to be told; they cost as much as the check.</summary>
public enum AveragesWish
{
    Never,

    /// <summary>Where there are so few operands that it takes no time.</summary>
    WhereCheap,

    Always,
}

/// <summary>
/// Does what a machine claims hold, for every operand at a width or at each of a range, for a part of them, or for a sample?
/// </summary>
public sealed record CheckQuestion(AskedMachine Machine)
{
    /// <summary>The most parts that are counted.</summary>
    internal const int MostParts = 1_000_000;
    internal const int MostSampled = 100_000_000;

    /// <summary>Which part of all operands is tried, the whole unless said otherwise.</summary>
    public CheckPart Part
    {
        get;
        init
        {
            ArgumentOutOfRangeException.ThrowIfLessThan(value.K, 1, nameof(value));
            ArgumentOutOfRangeException.ThrowIfGreaterThan(value.K, value.Of, nameof(value));
            ArgumentOutOfRangeException.ThrowIfGreaterThan(value.Of, MostParts, nameof(value));
            field = value;
        }
    } = CheckPart.Whole;

    /// <summary>
    /// What operands satisfy that are asked about, as it would stand behind "given"; null for all. Others are not counted, and not
    /// visited where bits are the same in all that are. Not beside a sample.
    /// </summary>
    public string? Only { get; init; }

    /// <summary>Null to try all operands.</summary>
    public DrawnSample? Sample
    {
        get;
        init
        {
            if (value is var (_, count))
            {
                ArgumentOutOfRangeException.ThrowIfLessThan(count, 1, nameof(value));
                ArgumentOutOfRangeException.ThrowIfGreaterThan(count, MostSampled, nameof(value));
            }
            field = value;
        }
    }

    public AveragesWish Averages { get; init; } = AveragesWish.WhereCheap;

    /// <summary>How what is expected is formed; null for the way that takes fewer gates.</summary>
    public OracleUse? Expected { get; init; }

    /// <summary>Whether it is asked too, where the laws hold, that they fix the results.</summary>
    public bool AsksStrength { get; init; } = true;

    /// <summary>Whether it is asked too what the smallest failing operands give and should give.</summary>
    public bool AsksExpected { get; init; } = true;

    public Budget Budget { get; init; } = Budget.Usual;

    /// <summary>What an earlier run of the same check left, from which this one goes on; null to begin anew. Not beside a sample.</summary>
    internal Checkpoint? Resumed { get; init; }

    /// <summary>How many operands fail, which is the smallest, and nothing besides.</summary>
    public static CheckQuestion OfCounts(AskedMachine machine) =>
        new(machine)
        {
            Averages = AveragesWish.Never,
            AsksStrength = false,
            AsksExpected = false,
        };

    /// <summary>Refused before any operand is tried where one of the widths is more than the budget has.</summary>
    public async Task<Answer<CheckReports>> Ask(Means means)
    {
        var found = new Findings();
        try
        {
            return await Checked(means, found) is { } reports ? found.Given(reports) : found.Refused<CheckReports>();
        }
        catch (GatesBeyondRoomException e)
        {
            Bounded.Add(e, found);
            return found.Refused<CheckReports>();
        }
    }

    /// <summary>Null with the reason in the findings.</summary>
    private async Task<CheckReports?> Checked(Means means, Findings found)
    {
        if (Machine.BoundAtAll(found) is not var (isRange, datapaths))
        {
            return null;
        }
        if (OnlyAt(datapaths, found) is not { } only)
        {
            return null;
        }
        var notes = new CheckNotes(this, datapaths, only[0], means);
        var courses = datapaths.Select((d, i) => new CheckCourse(this, d, means, AskedCases.Of(d, only[i]))).ToList();
        // The widest takes longest: where it would take too long, nothing is begun.
        var wide = courses.Find(c => c.ExceedsBudget) ?? courses.Find(c => c.ExceedsBudgetOfWords) ?? courses[^1];
        if (Sample is null && !wide.IsWithinBudget(found))
        {
            return null;
        }
        if (!notes.Begin(found))
        {
            return null;
        }
        var checks = new List<CheckReport>();
        foreach (var (index, course) in courses.Index())
        {
            if (await course.Run(found, notes.At(index)) is not { } check)
            {
                return null;
            }
            checks.Add(check);
            if (!check.IsComplete)
            {
                break;
            }
        }
        return new CheckReports(checks, [.. datapaths.Skip(checks.Count)], isRange);
    }

    /// <summary>The formula at each of the widths, null where there is none; null altogether with the reason in the findings.</summary>
    private IReadOnlyList<Truth?>? OnlyAt(IReadOnlyList<Datapath> datapaths, Findings found)
    {
        if (Only is not { } text)
        {
            return [.. datapaths.Select(_ => (Truth?)null)];
        }
        var bound = datapaths.Select(d => OperandFormula.Read(d, text, found)).ToList();
        return found.HasErrors ? null : bound;
    }
}

/// <summary>What a check found at each width, from the lowest.</summary>
/// <param name="NotBegun">Widths that were asked for too and were not begun, since the run was stopped.</param>
/// <param name="IsRange">Whether a range of widths was asked for, be it of one width.</param>
public sealed record CheckReports(IReadOnlyList<CheckReport> Checks, IReadOnlyList<Datapath> NotBegun, bool IsRange)
{
    /// <summary>Whether all of what was asked was done.</summary>
    public bool IsComplete => Checks[^1].IsComplete;

    /// <summary>Whether all of what was asked was done and nothing failed. A check that was stopped does not hold, and may not fail.</summary>
    public bool Holds => IsComplete && NotBegun.Count == 0 && Checks.All(c => c.Result.NothingFailed);
}
