using Reckoner.Checking;
using Reckoner.Datapaths;

namespace Reckoner.Questions;

/// <summary>Which register bits carry nothing in which cycle?</summary>
public sealed record IdleQuestion(AskedMachine Machine)
{
    /// <summary>
    /// Beyond so many operand bits idle bits are judged by structure: every cycle asks as much as a check for each register bit.
    /// Below it too, where the cycles are so many that it would take many minutes.
    /// </summary>
    public const int MostCaseBits = 22;

    /// <summary>Up to so many operand bits all are asked, beyond it is judged by structure, which may miss some; 0 for always so.</summary>
    public int CaseBits
    {
        get;
        init
        {
            ArgumentOutOfRangeException.ThrowIfNegative(value);
            ArgumentOutOfRangeException.ThrowIfGreaterThan(value, MostCaseBits);
            field = value;
        }
    } = MostCaseBits;

    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public Answer<IdleStudy> Ask(Means means) =>
        Bounded.Ask(found => Machine.Bound(0, found) is { } datapath ? Study(datapath, means) : null);

    private IdleStudy Study(Datapath datapath, Means means) =>
        (datapath.Operands.Sum(o => o.Width) <= CaseBits ? OverAll(datapath, means) : null)
        ?? IdleByStructure.Of(datapath);

    private static IdleStudy? OverAll(Datapath datapath, Means means) =>
        means.Watched(
            1,
            0,
            Idle.Rows(datapath),
            tell => Idle.OverAll(datapath, means.Engine, new Pace(tell, means.Stop))
        );
}
