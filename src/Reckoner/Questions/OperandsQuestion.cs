using System.Numerics;
using Reckoner.Binding;
using Reckoner.Checking;
using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;

namespace Reckoner.Questions;

/// <summary>What operands are chosen for.</summary>
public enum ChosenFor
{
    /// <summary>The best few to show something.</summary>
    Showing,

    /// <summary>Some of equal difficulty.</summary>
    EqualDifficulty,

    /// <summary>The fewest that expose every slip.</summary>
    ExposingAll,

    /// <summary>The fewest whose results tell which slip was made.</summary>
    TellingApart,
}

/// <summary>Which operands show what is wanted?</summary>
public sealed record OperandsQuestion(AskedMachine Machine, ChosenFor For)
{
    /// <summary>More are not drawn: everything that is compared of them is kept.</summary>
    internal const int MostSampled = 1_000_000;

    /// <summary>A condition on walks, such as "quotient = 0"; null for operands in general.</summary>
    public string? Showing { get; init; }

    /// <summary>The name of a slip that they expose; null for none. Not beside a condition.</summary>
    public string? Exposing { get; init; }

    /// <summary>How many are shown at most, or, of equal difficulty, are drawn.</summary>
    public int Count
    {
        get;
        init
        {
            ArgumentOutOfRangeException.ThrowIfLessThan(value, 1);
            field = value;
        }
    } = 5;

    /// <summary>What may be done where operands of equal difficulty are short.</summary>
    public EqualAllowed Allowed { get; init; } = EqualAllowed.Nothing;

    /// <summary>Whether others of equal difficulty are drawn than without it: a second draw, as hard as the first.</summary>
    public bool Again { get; init; }

    internal EqualAsked Asked => new(Count, Again, Allowed);

    /// <summary>So many are tried at random; null for all where they are not too many, else for the usual sample.</summary>
    public int? Sample
    {
        get;
        init
        {
            ArgumentOutOfRangeException.ThrowIfLessThan(value ?? 1, 1, nameof(value));
            ArgumentOutOfRangeException.ThrowIfGreaterThan(value ?? 1, MostSampled, nameof(value));
            field = value;
        }
    }

    /// <summary>So many are tried at random where not all are tried and nothing is asked.</summary>
    public int UsualSample { get; init; } = 20_000;

    /// <summary>Of the sample, and of the draw among operands of equal difficulty.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>Operands of so many bits together are all tried.</summary>
    public int CaseBits
    {
        get;
        init
        {
            ArgumentOutOfRangeException.ThrowIfNegative(value);
            ArgumentOutOfRangeException.ThrowIfGreaterThan(value, Candidates.MostBits);
            field = value;
        }
    } = Candidates.MostBits;

    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public Answer<OperandsFound> Ask(Means means) =>
        Bounded.Ask(found =>
            All(means, found) is { } all && !(AsksSlips && SlipsWork.IsTooMuch(all.Datapath, means, found))
                ? Chosen(all, found)
                : null
        );

    /// <summary>All that may be chosen from, nothing being asked of them; null with the reason in the findings.</summary>
    private Candidates? All(Means means, Findings found) =>
        Machine.Bound(0, found) is { } datapath && !GatesOfGiven.Lack(datapath, found)
            ? Candidates.Of(datapath, means.Engine, Drawn(datapath), new Pace(null, means.Stop))
            : null;

    /// <summary>Those that show what is asked for, with that; null likewise.</summary>
    internal (string? Condition, Candidates Candidates)? Among(Means means, Findings found) =>
        All(means, found) is { } all ? Wanted(all, null, found) : null;

    private bool AsksSlips => For is ChosenFor.ExposingAll or ChosenFor.TellingApart || Exposing is not null;

    private OperandsFound? Chosen(Candidates all, Findings found) =>
        For switch
        {
            ChosenFor.ExposingAll => new OperandsFound(all, null, Seed) { Slips = new SlipSets(all).ExposingAll() },
            ChosenFor.TellingApart => new OperandsFound(all, null, Seed) { Slips = new SlipSets(all).TellingApart() },
            ChosenFor.Showing => Shown(all, found),
            ChosenFor.EqualDifficulty => Equal(all, found),
        };

    /// <summary>Null to try all operands.</summary>
    private IReadOnlyList<BigInteger[]>? Drawn(Datapath datapath)
    {
        var most = For == ChosenFor.TellingApart ? Math.Min(CaseBits, SlipSets.MostBitsToTellApart) : CaseBits;
        if (Sample is null && datapath.Operands.Sum(o => o.Width) <= most)
        {
            return null;
        }
        // Of corners few make an example for the board.
        var few = OperandCorners.Crossed(datapath);
        return [.. new OperandSample(datapath, Sample ?? UsualSample, Seed, few).Operands()];
    }

    private OperandsFound? Shown(Candidates all, Findings found)
    {
        var slips = Exposing is null ? null : new SlipSets(all);
        if (Wanted(all, slips, found) is not var (condition, candidates))
        {
            return null;
        }
        var best = BestFew.Of(candidates, Count);
        return new OperandsFound(candidates, condition, Seed) { Best = best, Slips = slips?.Beside(Exposing!, best) };
    }

    private OperandsFound? Equal(Candidates all, Findings found)
    {
        if (Wanted(all, null, found) is not var (condition, candidates))
        {
            return null;
        }
        var classes = new EqualDifficulty(candidates, Allowed);
        var draw = classes.Draw(Count, (ulong)Seed, Again ? 1 : 0);
        return new OperandsFound(candidates, condition, Seed)
        {
            Draw = draw,
            Ways = () => classes.Ways(draw?.Class, Again ? 2 * Count : Count),
        };
    }

    /// <summary>Those that show what is asked for; all where nothing is. Null with the reason in the findings.</summary>
    private (string? Condition, Candidates Candidates)? Wanted(Candidates all, SlipSets? slips, Findings found)
    {
        if (slips is not null && !slips.Names.Contains(Exposing))
        {
            AskedMachine.AddUnknown(
                found,
                AskedPart.Exposing,
                0,
                slips.MachineName,
                Exposing!,
                slips.Names.Append(EverySlip)
            );
            return null;
        }
        var condition = slips is null ? Showing : $"slip {Exposing} is exposed";
        if (condition is null)
        {
            return (null, all);
        }
        var report = new Report(null);
        var candidates = all.Showing(condition.ReplaceLineEndings(" "), report);
        var part = slips is null ? AskedPart.Showing : AskedPart.Exposing;
        found.AddRange(report.InOrder().Select(d => new Finding(d, part)));
        return candidates is null ? null : (condition, candidates);
    }

    /// <summary>What stands for every slip where one is named.</summary>
    public const string EverySlip = "all";
}

/// <summary>Operands that were chosen.</summary>
/// <param name="Candidates">Those that they were chosen from.</param>
/// <param name="Condition">What they show, as it was asked; null for nothing particular.</param>
public sealed record OperandsFound(Candidates Candidates, string? Condition, int Seed)
{
    /// <summary>The best first; those of equal difficulty as they were drawn.</summary>
    public IReadOnlyList<ChosenOperands> Chosen => Best ?? Slips?.Chosen ?? Draw?.Drawn ?? [];

    internal IReadOnlyList<ChosenOperands>? Best { get; init; }

    /// <summary>What slips give for the operands; null where none was asked about.</summary>
    public SlipsShown? Slips { get; init; }

    /// <summary>All operands of the class that those of equal difficulty were drawn from, smallest first.</summary>
    internal IReadOnlyList<IReadOnlyList<BigInteger>> Pool =>
        Draw?.Class is not { } one ? [] : [.. one.Members.Select(i => Candidates.Table.Cases[i])];

    /// <summary>Those of equal difficulty; null where there are no operands at all, or they were not asked for.</summary>
    public EqualDraw? Draw { get; init; }

    /// <summary>Ways on where there are too few of equal difficulty; found when it is asked.</summary>
    public Func<EqualWays> Ways { get; init; } = () => new EqualWays(null, null, null);
}
