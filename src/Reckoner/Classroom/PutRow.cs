using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Classroom;

/// <summary>
/// A cycle put to somebody to be worked out by hand, from the registers that they have, be these right or wrong.
/// </summary>
/// <param name="At">Which cycle it is.</param>
/// <param name="Right">What rightly follows from their registers.</param>
/// <param name="Forks">The decisions of the cycle, in their order.</param>
/// <param name="Asked">The registers that the cycle can change, in the order of the text; the others stay as they are.</param>
internal sealed record PutRow(CycleAddress At, Row Right, IReadOnlyList<Fork> Forks, IReadOnlyList<Register> Asked)
{
    /// <param name="before">Bits of every register by its index, from 0 to 2^width - 1.</param>
    /// <exception cref="ArgumentException">The registers do not fit, or there is no such cycle.</exception>
    public static PutRow Of(Datapath datapath, IReadOnlyList<BigInteger> before, CycleAddress at)
    {
        var row = SingleStep.Of(datapath, before, at);
        var written = row.Step!.Moments.SelectMany(m => m)
            .SelectMany(a => a.All)
            .SelectMany(a => a.Writes)
            .Select(p => p.Register)
            .ToHashSet();
        return new PutRow(at, row, Fork.Of(row), [.. datapath.Registers.Where(written.Contains)]);
    }

    /// <summary>What somebody wrote, against what follows from their own registers.</summary>
    /// <param name="words">For every register by its index; those that are not asked may be blank.</param>
    public RowJudgement Judge(IReadOnlyList<HandWord> words) =>
        new(this, [.. Asked.Select(r => new JudgedWord(r, words[r.Index], Right.Registers[r.Index]))]);
}

/// <summary>A register as somebody wrote it, beside what it rightly holds.</summary>
internal sealed record JudgedWord(Register Register, HandWord Given, BigInteger Right)
{
    /// <summary>A 1 for every cell that was written wrongly.</summary>
    public BigInteger Wrong => (Given.Bits ^ Right) & Given.Written;

    /// <summary>A 1 for every cell that was left empty.</summary>
    public BigInteger Missing => Bits.Mask(Register.Width) & ~Given.Written;

    /// <summary>What stands there, empty cells filled in rightly: whoever left one out was not wrong about it.</summary>
    public BigInteger Own => (Given.Bits & Given.Written) | (Right & Missing);
}

/// <summary>A row as somebody wrote it, judged from the row before it that they wrote themselves.</summary>
internal sealed record RowJudgement(PutRow Put, IReadOnlyList<JudgedWord> Words)
{
    public bool HasWrong => Words.Any(w => !w.Wrong.IsZero);

    public bool IsWhole => Words.All(w => w.Missing.IsZero);

    /// <summary>Whether nothing at all was written.</summary>
    public bool IsBlank => Words.All(w => w.Given.Written.IsZero);

    public bool IsRight => IsWhole && !HasWrong;

    /// <summary>What every register holds by what was written.</summary>
    public IReadOnlyList<BigInteger> Own
    {
        get
        {
            var own = Put.Right.Registers.ToArray();
            foreach (var word in Words)
            {
                own[word.Register.Index] = word.Own;
            }
            return own;
        }
    }
}
