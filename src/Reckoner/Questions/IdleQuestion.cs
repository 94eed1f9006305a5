using Reckoner.Checking;

namespace Reckoner.Questions;

/// <summary>Which register bits carry nothing in which cycle?</summary>
public sealed record IdleQuestion(AskedMachine Machine)
{
    /// <summary>
    /// Beyond so many operand bits idle bits are judged by structure: every cycle asks as much as a check for each register bit.
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

    public Answer<IdleStudy> Ask(Means means)
    {
        var found = new Findings();
        return Machine.Bound(0, found) is not { } datapath
            ? found.Refused<IdleStudy>()
            : found.Given(
                (datapath.Operands.Sum(o => o.Width) <= CaseBits ? Idle.OverAll(datapath, means.Engine) : null)
                    ?? IdleByStructure.Of(datapath)
            );
    }
}
