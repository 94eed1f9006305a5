using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Classroom;

/// <summary>What may be said to somebody who does not know how to go on, one after the other.</summary>
internal enum Hint
{
    /// <summary>Which statements act in this cycle.</summary>
    Acting,

    /// <summary>What adders, tables and other units are given and give.</summary>
    Units,

    /// <summary>The row itself.</summary>
    Row,
}

/// <summary>A row that somebody has finished.</summary>
/// <param name="Missed">The decisions that were taken wrongly.</param>
/// <param name="First">What was handed in first; null where no bits were asked for.</param>
/// <param name="Last">What they went on with.</param>
/// <param name="Hints">How many were taken.</param>
/// <param name="IsTold">Whether the last of them filled it in.</param>
internal sealed record SatRow(
    PutRow Put,
    IReadOnlyList<Fork> Missed,
    RowJudgement? First,
    RowJudgement? Last,
    int Hints,
    bool IsTold
)
{
    /// <summary>Whether everything in it was right when it was first handed in, and worked out by whoever did so.</summary>
    public bool IsRightAtOnce => !IsTold && Missed.Count == 0 && First?.IsRight != false;
}

/// <summary>
/// Somebody works a walk out by hand. Each cycle is put to them from their own row before it: first its decisions, then its bits.
/// What they do is judged at once, may be mended, and what they go on with is theirs.
/// </summary>
internal sealed class Sitting
{
    private readonly OwnSchedule schedule;
    private readonly List<SatRow> rows = [];
    private readonly List<Fork> missed = [];
    private HandWord[] words = [];
    private RowJudgement? first;

    /// <param name="walk">The right walk of the operands.</param>
    /// <param name="from">The cycle up to which it is given; 0 gives the load alone.</param>
    public Sitting(Walk walk, SittingRules rules, int from = 0)
    {
        (Walk, Rules, From) = (walk, rules, Math.Clamp(from, 0, walk.Cycles));
        schedule = new OwnSchedule(walk.Datapath);
        Own = walk.Rows[0].Registers;
        for (var cycle = 1; cycle <= From; cycle++)
        {
            schedule.Next(Own);
            Own = walk.Rows[cycle].Registers;
        }
        PutNext();
    }

    public Walk Walk { get; }

    public SittingRules Rules { get; }

    /// <summary>The last cycle that was given.</summary>
    public int From { get; }

    /// <summary>What the registers hold by what was written last, by their index.</summary>
    public IReadOnlyList<BigInteger> Own { get; private set; }

    public IReadOnlyList<SatRow> Rows => rows;

    /// <summary>The cycle that is put; null when all are done.</summary>
    public PutRow? Put { get; private set; }

    /// <summary>Its number.</summary>
    public int Cycle => From + rows.Count + (Put is null ? 0 : 1);

    // ---- decisions

    private int taken;

    /// <summary>The decision that is to be taken now; null where bits are.</summary>
    public Fork? Fork =>
        Put is { } put && Rules.Fill != Filling.Bits && taken < put.Forks.Count ? put.Forks[taken] : null;

    /// <summary>The decisions of this cycle that have been taken, with the way that was said.</summary>
    public IReadOnlyList<(Fork Fork, int Said)> Taken => said;

    private readonly List<(Fork Fork, int Said)> said = [];

    /// <summary>Takes the decision that is asked for one way; tells whether it falls so.</summary>
    public bool Take(int way)
    {
        if (Fork is not { } fork || way < 0 || way >= fork.Ways.Count)
        {
            return false;
        }
        said.Add((fork, way));
        taken++;
        if (way != fork.Falls)
        {
            missed.Add(fork);
        }
        if (Fork is null && !AsksBits)
        {
            Fill();
        }
        return way == fork.Falls;
    }

    // ---- bits

    private bool AsksBits => Rules.Fill != Filling.Decisions && Put?.Asked.Count > 0;

    /// <summary>Whether cells are to be filled in now.</summary>
    public bool IsWriting => Put is not null && Fork is null && AsksBits && Judged?.IsRight != true;

    public HandWord Word(Register register) => words[register.Index];

    /// <summary>What stands in the row, once it was handed in; null while it is written.</summary>
    public RowJudgement? Judged { get; private set; }

    /// <summary>Writes into a cell, or empties it; what was judged is written anew then.</summary>
    public void Write(Register register, int place, bool? bit)
    {
        if (IsWriting && Put!.Asked.Contains(register) && place >= 0 && place < register.Width)
        {
            words[register.Index] = words[register.Index].With(place, bit);
            Judged = null;
        }
    }

    /// <summary>Whether every cell that is asked for holds something.</summary>
    public bool IsFull => Put is { } put && put.Asked.All(r => words[r.Index].Written == Bits.Mask(r.Width));

    /// <summary>Hands the row in; the first time counts.</summary>
    public RowJudgement? HandIn()
    {
        if (!IsWriting)
        {
            return null;
        }
        Judged = Put!.Judge(words);
        first ??= Judged;
        return Judged;
    }

    private void Fill()
    {
        foreach (var register in Put!.Asked)
        {
            words[register.Index] = HandWord.Whole(Put.Right.Registers[register.Index], register.Width);
        }
        Judged = Put.Judge(words);
    }

    // ---- hints

    public int Hints { get; private set; }

    /// <summary>The hints that there are of this cycle, in the order in which they are given.</summary>
    public IReadOnlyList<Hint> Ladder =>
        Put is not { } put || !Rules.HasHints ? []
        : HasUnits(put.Right) ? [Hint.Acting, Hint.Units, Hint.Row]
        : [Hint.Acting, Hint.Row];

    public IEnumerable<Hint> Given => Ladder.Take(Hints);

    /// <summary>Whether there is a hint left, and the row is not right already.</summary>
    public bool MayHint => Put is not null && Hints < Ladder.Count && !(Fork is null && Judged?.IsRight == true);

    /// <summary>Gives the next hint. The last one is the row, which then is filled in; it was not worked out.</summary>
    public void TakeHint()
    {
        if (!MayHint)
        {
            return;
        }
        Hints++;
        if (Given.Last() == Hint.Row)
        {
            while (Fork is { } fork)
            {
                said.Add((fork, fork.Falls));
                taken++;
            }
            Fill();
        }
    }

    private static bool HasUnits(Row row) =>
        row.Moments.SelectMany(m => m.Happenings).Any(h => h is Summed or Multiplied or CarrySaved or LookedUp);

    // ---- on

    /// <summary>Whether the row may be left: it has been judged, be it right or wrong, or nothing is asked in it.</summary>
    public bool MayGoOn => Put is not null && Fork is null && (Judged is not null || !AsksBits);

    /// <summary>Goes on to the next cycle with what stands in the row.</summary>
    public void GoOn()
    {
        if (!MayGoOn)
        {
            return;
        }
        var put = Put!;
        rows.Add(
            new SatRow(
                put,
                [.. missed],
                AsksBits ? first : null,
                AsksBits ? Judged : null,
                Hints,
                Given.Contains(Hint.Row)
            )
        );
        Own = Judged?.Own ?? put.Right.Registers;
        PutNext();
    }

    private void PutNext()
    {
        (taken, first, Judged, Hints) = (0, null, null, 0);
        missed.Clear();
        said.Clear();
        Put = schedule.Next(Own) is { } at ? PutRow.Of(Walk.Datapath, Own, at) : null;
        words = new HandWord[Walk.Datapath.Registers.Count];
        if (Put is not null && Fork is null && !AsksBits)
        {
            Fill();
        }
    }

    /// <summary>The bits of the results that somebody's own last row comes to.</summary>
    public IReadOnlyList<BigInteger> Results
    {
        get
        {
            var read = NumberWords.Over(Own);
            return [.. Walk.Datapath.Results.Select(r => read(r.Value))];
        }
    }
}
