using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Running;

namespace Reckoner.Classroom;

/// <summary>How a row of a table made by hand stands.</summary>
internal enum RowStanding
{
    /// <summary>It is what the machine holds there.</summary>
    Right,

    /// <summary>It is another than the machine's, and follows rightly from a row before it that was wrong.</summary>
    Follows,

    /// <summary>It is here that something went wrong.</summary>
    Wrong,

    /// <summary>Cells were left empty, and nothing that was written is wrong.</summary>
    Unfinished,
}

/// <summary>A row of a table made by hand.</summary>
/// <param name="Cycle">Counted from 1; the row of the load has 0 and no judgement of a cycle.</param>
internal sealed record JudgedRow(int Cycle, RowStanding Standing, RowJudgement? Judgement);

/// <summary>
/// A whole table made by hand. Each row is judged from the one before it as it was written, so that what goes wrong once is wrong
/// once, however many rows it spoils.
/// </summary>
/// <param name="TooMany">Rows below the last cycle, by the table's own registers.</param>
/// <param name="TooFew">Cycles for which there is no row.</param>
/// <param name="Results">The bits of the results that the table comes to, by its last row.</param>
internal sealed record TableJudgement(
    IReadOnlyList<JudgedRow> Rows,
    int TooMany,
    int TooFew,
    IReadOnlyList<BigInteger> Results
)
{
    /// <param name="operands">Their bits, in the order of the text.</param>
    /// <param name="rows">The load, then a row for each cycle; in each a word for every register by its index.</param>
    public static TableJudgement Of(
        Datapath datapath,
        IReadOnlyList<BigInteger> operands,
        IReadOnlyList<IReadOnlyList<HandWord>> rows
    )
    {
        var walk = Walk.Of(datapath, operands);
        var schedule = new OwnSchedule(datapath);
        IReadOnlyList<BigInteger> own = walk.Rows[0].Registers;
        var judged = new List<JudgedRow>();
        if (rows.Count > 0)
        {
            (own, var standing) = Load(datapath, own, rows[0]);
            judged.Add(new JudgedRow(0, standing, null));
        }
        while (judged.Count < rows.Count && schedule.Next(own) is { } at)
        {
            var judgement = PutRow.Of(datapath, own, at).Judge(rows[judged.Count]);
            own = judgement.Own;
            var cycle = judged.Count;
            var isAsWalked = cycle < walk.Rows.Count && own.SequenceEqual(walk.Rows[cycle].Registers);
            judged.Add(new JudgedRow(cycle, Standing(judgement, isAsWalked), judgement));
        }
        var tooMany = rows.Count - judged.Count;
        var tooFew = 0;
        while (tooMany == 0 && schedule.Next(own) is { } at)
        {
            own = SingleStep.Of(datapath, own, at).Registers;
            tooFew++;
        }
        var read = Execution.NumberWords.Over(own);
        return new TableJudgement(judged, tooMany, tooFew, [.. datapath.Results.Select(r => read(r.Value))]);
    }

    private static RowStanding Standing(RowJudgement judgement, bool isAsWalked) =>
        judgement.HasWrong ? RowStanding.Wrong
        : !judgement.IsWhole ? RowStanding.Unfinished
        : isAsWalked ? RowStanding.Right
        : RowStanding.Follows;

    private static (IReadOnlyList<BigInteger> Own, RowStanding Standing) Load(
        Datapath datapath,
        IReadOnlyList<BigInteger> right,
        IReadOnlyList<HandWord> words
    )
    {
        var judged = datapath.Registers.Select(r => new JudgedWord(r, words[r.Index], right[r.Index])).ToList();
        return (
            [.. judged.Select(w => w.Own)],
            judged.Exists(w => !w.Wrong.IsZero) ? RowStanding.Wrong
            : judged.Exists(w => !w.Missing.IsZero) ? RowStanding.Unfinished
            : RowStanding.Right
        );
    }
}
