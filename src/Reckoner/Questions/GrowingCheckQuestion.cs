using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;

namespace Reckoner.Questions;

/// <summary>
/// Does what a machine claims hold for every operand, at larger and larger widths as long as the next is expected to take no
/// longer than one waits?
/// </summary>
/// <param name="Widths">Widths besides the main one, which grows.</param>
internal sealed record GrowingCheckQuestion(IMachine Machine, IReadOnlyDictionary<string, BigInteger> Widths)
{
    /// <summary>Operand bits that are tried one after another.</summary>
    private static readonly int[] Rungs = [8, 16, 20, 24, 28];

    /// <summary>How long one waits for a width.</summary>
    public TimeSpan Patience { get; init; } = TimeSpan.FromSeconds(0.5);

    /// <summary>Word by word, so many operand bits are no more than a moment.</summary>
    public int WordCaseBits { get; init; } = 8;

    /// <summary>A report for each width when it is there; one that is not complete, since it was stopped, is the last.</summary>
    public async IAsyncEnumerable<CheckReport> Ask(Means means)
    {
        var first = TimeSpan.Zero;
        var last = (Bits: 0, Time: TimeSpan.Zero);
        OracleUse? use = null;
        foreach (var datapath in Ladder())
        {
            var bits = datapath.Operands.Sum(o => o.Width);
            // Fitting out a worker takes its time whatever the cases are, more on some machines than on others: the first
            // width, with hardly any cases, measures that, and only what grew since then is the cases'.
            var cases = last.Time > first ? last.Time - first : TimeSpan.Zero;
            if (last.Time >= 2 * Patience || cases * Math.Pow(2, bits - last.Bits) > Patience)
            {
                break;
            }
            var asked = means.Clock();
            var question = CheckQuestion.OfCounts(datapath) with { Expected = use };
            var course = new CheckCourse(question, datapath, means, AskedCases.Of(datapath));
            if (!MayBegin(course, bits))
            {
                break;
            }
            var began = means.Clock();
            if (await course.Run(new Findings()) is not { } report)
            {
                break;
            }
            var done = means.Clock();
            yield return report with
            {
                Seconds = (done - asked).TotalSeconds,
            };
            if (!report.IsComplete)
            {
                break;
            }
            var time = course.HasGates ? done - began : Patience;
            first = last.Bits == 0 ? time : first;
            // To try both ways again at each width would cost more than the better one saves.
            use ??= report.Result.Gates is { Stepped.Count: > 0 } ? OracleUse.Stepped : OracleUse.Written;
            last = (bits, time);
        }
    }

    private bool MayBegin(CheckCourse course, int bits)
    {
        try
        {
            return course.HasGates || bits <= WordCaseBits;
        }
        catch (GatesBeyondRoomException)
        {
            return false;
        }
    }

    /// <summary>The machine at the largest width for each rung, at the widths that were set besides the main one.</summary>
    private IEnumerable<Datapath> Ladder()
    {
        if (Machine.Widths.FirstOrDefault() is not { } main)
        {
            yield break;
        }
        var widths = Widths.ToDictionary();
        var seen = BigInteger.Zero;
        foreach (var rung in Rungs)
        {
            widths.Remove(main.Name.Text);
            if (OperandWidths.Largest(Machine, widths, rung) is { } width && width > seen)
            {
                seen = width;
                widths[main.Name.Text] = width;
                if (Machine.At(widths).Datapath is { } datapath)
                {
                    yield return datapath;
                }
            }
        }
    }
}
