using System.Globalization;
using Reckoner.Classroom;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Words;

namespace Reckoner.Page.State;

/// <summary>A visitor works the walk out: what stands in the cells, where the next bit goes, what was said last.</summary>
internal sealed class Practice
{
    private readonly Lapses lapses;
    private SittingReport? report;

    /// <param name="from">The cycle up to which the rows are given.</param>
    public Practice(Walk walk, SittingRules rules, int from = 0)
    {
        Sitting = new Sitting(walk, rules, from);
        lapses = new Lapses(walk.Datapath);
        Begin();
    }

    public Sitting Sitting { get; private set; }

    public Datapath Datapath => Sitting.Walk.Datapath;

    /// <summary>The cell that the next bit goes into; null where none is to be filled in.</summary>
    public (Register Register, int Place)? Cell { get; private set; }

    /// <summary>What was said last of what was done.</summary>
    public Term? Said { get; private set; }

    /// <summary>How it went, once all is done. What slips give is tried then, which takes a moment.</summary>
    public SittingReport? Report => Sitting.Put is null ? report ??= SittingReport.Of(Sitting, lapses) : null;

    private void Begin()
    {
        Cell = Sitting.Put is { Asked: [var first, ..] } ? (first, first.Width - 1) : null;
    }

    // ---- decisions

    public void Take(int way, Vocabulary words)
    {
        if (Sitting.Fork is not { } fork || way < 0 || way >= fork.Ways.Count)
        {
            return;
        }
        var right = SittingText.Way(fork, fork.Falls, words);
        // What a unit gives is the reason only where its carry or borrow was asked for; else it is what comes next.
        var why = AsksUnit(fork.Question) ? SittingText.Units(Sitting.Put!.Right, Datapath, words) : [];
        Said =
            Sitting.Take(way) ? new Term("page.work-falls-so")
            : why.Count == 0 ? new Term("page.work-falls-not", ("way", right))
            : new Term("page.work-falls-not-since", ("way", right), ("why", why[0]));
    }

    private static bool AsksUnit(Value question) =>
        question.Operation switch
        {
            Operation.Not => AsksUnit(question.Inputs[0]),
            Operation.Wire => AsksUnit(question.Wire!.Value),
            _ => question.IsSecondOutput,
        };

    // ---- cells

    public void LookAt(Register register, int place) => Cell = (register, place);

    /// <summary>Writes into the cell that is looked at and goes on to the next; a full row is judged at once.</summary>
    public void Write(bool bit)
    {
        if (!Sitting.IsWriting || Cell is not { } cell)
        {
            return;
        }
        Sitting.Write(cell.Register, cell.Place, bit);
        Move(1);
        Judge();
    }

    /// <summary>Empties the cell before.</summary>
    public void Back()
    {
        if (!Sitting.IsWriting || Cell is not { } cell)
        {
            return;
        }
        if (Sitting.Word(cell.Register)[cell.Place] is null)
        {
            Move(-1);
        }
        Sitting.Write(Cell.Value.Register, Cell.Value.Place, null);
        Said = null;
    }

    /// <summary>To a cell so many places further on, through all registers that are asked.</summary>
    public void Move(int by)
    {
        if (Sitting.Put is not { } put || Cell is not { } cell)
        {
            return;
        }
        var all = put
            .Asked.SelectMany(r => Enumerable.Range(1, r.Width).Select(i => (Register: r, Place: r.Width - i)))
            .ToList();
        var at = all.FindIndex(c => c.Register == cell.Register && c.Place == cell.Place);
        Cell = all[Math.Clamp(at + by, 0, all.Count - 1)];
    }

    private void Judge()
    {
        if (!Sitting.IsFull || Sitting.HandIn() is not { } judged)
        {
            Said = null;
            return;
        }
        var wrong = judged.Words.Sum(w => (int)System.Numerics.BigInteger.PopCount(w.Wrong));
        Said = judged.IsRight ? new Term("page.work-right") : new Term("page.work-wrong", ("count", wrong));
    }

    /// <summary>Whether a cell was written wrongly, as it stands.</summary>
    public bool IsWrong(Register register, int place) =>
        Sitting.Judged?.Words.FirstOrDefault(w => w.Register == register) is { } word && !(word.Wrong >> place).IsEven;

    // ---- hints, and on

    public void TakeHint()
    {
        Sitting.TakeHint();
        Said =
            Sitting.Given.LastOrDefault() == Hint.Row && Sitting.Judged is not null
                ? new Term("page.work-right-shown")
                : null;
    }

    public void GoOn()
    {
        if (Sitting.MayGoOn)
        {
            Sitting.GoOn();
            Said = null;
            Begin();
        }
    }

    /// <summary>A key of the browser; tells whether it meant something here.</summary>
    public bool Key(string key, Vocabulary words)
    {
        Action? action = key switch
        {
            "0" or "1" when Sitting.Fork is { IsCondition: true } => () => Take(key == "1" ? 0 : 1, words),
            { Length: 1 } when char.IsAsciiDigit(key[0]) && Sitting.Fork is not null => () =>
                Take(int.Parse(key, CultureInfo.InvariantCulture) - 1, words),
            "0" or "1" when Sitting.IsWriting => () => Write(key == "1"),
            "Backspace" => Back,
            "ArrowLeft" => () => Move(-1),
            "ArrowRight" => () => Move(1),
            "h" => TakeHint,
            "Enter" or "ArrowDown" or "PageDown" when Sitting.MayGoOn => GoOn,
            _ => null,
        };
        action?.Invoke();
        return action is not null;
    }

    // ---- what the results come to

    /// <summary>What somebody's own table comes to, and whether that is right.</summary>
    public Term Outcome(string language)
    {
        var own = Spoken(Sitting.Results, language);
        var right = Spoken(Sitting.Walk.Results, language);
        return own == right
            ? new Term("page.work-results-right", ("results", own))
            : new Term("page.work-results-wrong", ("results", own), ("right", right));
    }

    private string Spoken(IReadOnlyList<System.Numerics.BigInteger> results, string language) =>
        string.Join(
            ", ",
            Datapath.Results.Zip(results, (r, bits) => $"{r.In(language)} = {Bits.Text(r.Number(bits))}")
        );
}
