using System.Collections.ObjectModel;
using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Running;

/// <summary>Hears an execution and notes what happens, row by row. What is executed and not taken is not noted.</summary>
/// <param name="number">The number that a word is.</param>
internal class Recorder<TWord>(Func<TWord, BigInteger> number) : Observer<TWord>
{
    private readonly List<Row> rows = [];
    private readonly List<MomentOfWalk> moments = [];
    private readonly List<WireValue> values = [];
    private readonly HashSet<Wire> saying = [];

    /// <summary>What gates were given in this cycle.</summary>
    private readonly Dictionary<Value, IReadOnlyList<BigInteger>> gates = new(ReferenceEqualityComparer.Instance);
    private readonly Stack<int> taken = new();
    private List<Happening> happenings = [];

    /// <summary>Effects of this moment that no branch brought about: where they stand, and their values.</summary>
    private readonly List<(int At, Value Value)> straight = [];
    private ReadOnlyCollection<BigInteger> before = ReadOnlyCollection<BigInteger>.Empty;

    private (Source Source, int Line) at;
    private LetAct? let;

    /// <summary>How many ways deep, and how many more inside one that is not taken.</summary>
    private int taking;
    private int passing;
    private bool isAsking;

    public IReadOnlyList<Row> Rows => rows.AsReadOnly();

    protected bool IsTaken => passing == 0;

    /// <summary>Whoever gets a row has no way to write into it.</summary>
    private ReadOnlyCollection<BigInteger> Held() => Array.AsReadOnly([.. Heard.Registers.Select(number)]);

    private static ReadOnlyCollection<T> ReadOnly<T>(IEnumerable<T> items) => Array.AsReadOnly([.. items]);

    private void Add(Happening happening) => happenings.Add(happening);

    // ---- rows

    public override void Loads(Register register)
    {
        var source = register.Loads.Source!;
        at = (source, source.LineOf(register.Loads.Written!.Span.Start));
    }

    /// <summary>Ends the row of the load.</summary>
    public virtual void EndsLoad()
    {
        var held = Held();
        var nothing = Array.AsReadOnly(new BigInteger[held.Count]);
        rows.Add(new Row(0, 0, 0, null, null, nothing, held, ReadOnly([Moment(1, stored: true)])));
    }

    private MomentOfWalk Moment(int number, bool stored)
    {
        if (straight.Count > 0)
        {
            var consequences = new Consequences(happenings, [.. moments.SelectMany(m => m.Happenings)], saying);
            foreach (var (effect, value) in straight)
            {
                happenings[effect] = happenings[effect] with { Follows = consequences.Have(value) };
            }
            straight.Clear();
        }
        var moment = new MomentOfWalk(number, stored, Held(), ReadOnly(values), happenings.AsReadOnly());
        happenings = [];
        return moment;
    }

    public override void Begins(Cycle cycle, TWord active)
    {
        before = Held();
        values.Clear();
        saying.Clear();
        gates.Clear();
        moments.Clear();
    }

    public override void EndsMoment(Cycle cycle, int moment) =>
        moments.Add(Moment(moment, stored: moment == cycle.Step.Moments.Count));

    public override void Ends(Cycle cycle)
    {
        var at = cycle.Address;
        var count = rows.Count > 0 ? rows.Count : cycle.Number;
        rows.Add(new Row(count, at.Repeat, at.Round, cycle.Step, cycle.Last, before, Held(), ReadOnly(moments)));
    }

    // ---- acts

    public override void Begins(Act act)
    {
        if (IsTaken)
        {
            at = (act.Source, act.Line);
            let = null;
            act.Switch(
                let: a => let = a,
                transfer: _ => { },
                branch: _ => { },
                arms: _ => { },
                hold: _ => { },
                remark: a => Add(new Remarked(a.Source, a.Line, a.Text) { Follows = taking > 0 })
            );
        }
    }

    public override void Names(Wire wire, TWord word)
    {
        if (IsTaken)
        {
            var bits = number(word);
            values.Add(new WireValue(wire, bits));
            if (wire is { Says: not null, SaysHowItFalls: false })
            {
                saying.Add(wire);
                Add(new Said(at.Source, at.Line, wire, bits) { Gates = GateWork.Of(wire.Value, bits, gates) });
            }
        }
    }

    public override void Asks(Act act, Value question) => isAsking = true;

    public override void Asked(Act act, Value question, TWord word)
    {
        isAsking = false;
        if (IsTaken)
        {
            act.Switch(
                let: _ => { },
                transfer: _ => { },
                branch: a => Look(question, number(word), a.Says),
                arms: a => Look(question, number(word), [.. a.Arms.Select(arm => arm.Patterns)]),
                hold: _ => { },
                remark: _ => { }
            );
        }
    }

    public override void Enters(Act act, int way, TWord bit)
    {
        if (!IsTaken || !number(bit).IsOne)
        {
            passing++;
            return;
        }
        taking++;
        taken.Push(way);
    }

    public override void Leaves(Act act, int way)
    {
        if (IsTaken)
        {
            taking--;
        }
        else
        {
            passing--;
        }
    }

    public override void Joins(Act act)
    {
        if (IsTaken)
        {
            var way = taken.Pop();
            act.Switch(
                let: _ => { },
                transfer: _ => { },
                branch: a => Stay(a, way == 0 ? a.Then : a.Otherwise),
                arms: a => Stay(a, a.Arms[way].Acts),
                hold: _ => { },
                remark: _ => { }
            );
        }
    }

    private void Stay(BranchAct act, IReadOnlyList<Act> acts)
    {
        if (!act.HasElse || acts.All(a => a.IsIdle))
        {
            Stay((Act)act, acts);
        }
    }

    /// <summary>Notes what keeps its bits because the acts that would write it are not taken.</summary>
    private void Stay(Act act, IReadOnlyList<Act> acts)
    {
        var written = acts.SelectMany(a => a.All).SelectMany(a => a.Writes).ToList();
        var places = act.All.SelectMany(a => a.Writes).DistinctBy(p => (p.Register, p.High, p.Low));
        foreach (var place in places)
        {
            if (!written.Exists(w => w.Register == place.Register && w.High >= place.Low && w.Low <= place.High))
            {
                Add(new Stayed(act.Source, act.Line, place) { Follows = true });
            }
        }
    }

    public override void Wrote(TransferAct act, TWord word)
    {
        if (!IsTaken)
        {
            return;
        }
        var bits = number(word);
        var follows = taking > 0;
        if (!follows)
        {
            straight.Add((happenings.Count, act.Value));
        }
        Add(
            act.Entering is { } entering
                ? new Shifted(
                    act.Source,
                    act.Line,
                    act.Places,
                    act.Value.Operation == Operation.ShiftLeft,
                    act.Value.Operation == Operation.ShiftLeft
                        ? Bits.Wrap(bits, entering.Width)
                        : bits >> (act.Value.Width - entering.Width),
                    entering
                )
                {
                    Follows = follows,
                }
                : new Became(act.Source, act.Line, act.Places, act.Value, bits)
                {
                    Follows = follows,
                    Gates = GateWork.Makes(act.Value) ? GateWork.Of(act.Value, bits, gates) : null,
                }
        );
    }

    // ---- values

    /// <summary>Notes what choices look at and the work of units and tables.</summary>
    public override void Computed(Value value, ReadOnlySpan<TWord> inputs, TWord word)
    {
        if (IsTaken && GateWork.Makes(value))
        {
            var given = new BigInteger[inputs.Length];
            for (var i = 0; i < given.Length; i++)
            {
                given[i] = number(inputs[i]);
            }
            gates[value] = given;
        }
        if (!IsTaken || isAsking)
        {
            return;
        }
        if (value.Operation == Operation.Choose)
        {
            Look(value.Inputs[0], number(inputs[0]), SaidOf(value));
        }
        else if (value.Operation == Operation.Select)
        {
            Look(value.Inputs[0], number(inputs[0]), value.Arms);
        }
        else if (Told(value, inputs, word) is { } happening)
        {
            Add(happening);
        }
    }

    /// <summary>What is told of an operation; null where nothing is.</summary>
    private Happening? Told(Value value, ReadOnlySpan<TWord> inputs, TWord word)
    {
        var name = let?.Wire.Value == value ? let.Wire : null;
        return value.Operation switch
        {
            Operation.Add or Operation.Subtract => Sum(value, number(inputs[0]), number(inputs[1]), number(word), name),
            Operation.Negate => Sum(value, BigInteger.Zero, number(inputs[0]), number(word), name),
            Operation.Magnitude => value.Inputs[0].Number(number(inputs[0])).Sign < 0
                ? Sum(value, BigInteger.Zero, number(inputs[0]), number(word), name)
                : null,
            Operation.CarrySaveSum => Saved(value, [number(inputs[0]), number(inputs[1]), number(inputs[2])], word),
            Operation.Lookup => name?.Says is null ? LookedUp(value, inputs, word) : null,
            Operation.Multiply => new Multiplied(
                at.Source,
                at.Line,
                value,
                number(inputs[0]),
                number(inputs[1]),
                number(word),
                name
            ),
            Operation.Unknown
            or Operation.Constant
            or Operation.Operand
            or Operation.Register
            or Operation.Wire
            or Operation.Last
            or Operation.Slice
            or Operation.Join
            or Operation.Copies
            or Operation.Reread
            or Operation.Extend
            or Operation.ShiftLeft
            or Operation.ShiftRight
            or Operation.CarrySaveCarry
            or Operation.Carry
            or Operation.Borrow
            or Operation.And
            or Operation.Or
            or Operation.Xor
            or Operation.Not
            or Operation.Choose
            or Operation.Select
            or Operation.Equal
            or Operation.Unequal
            or Operation.Less
            or Operation.LessOrEqual
            or Operation.Greater
            or Operation.GreaterOrEqual => null,
        };
    }

    private CarrySaved Saved(Value value, BigInteger[] three, TWord word)
    {
        var carries = (three[0] & three[1]) | (three[0] & three[2]) | (three[1] & three[2]);
        return new CarrySaved(at.Source, at.Line, value, three, number(word), carries);
    }

    private LookedUp LookedUp(Value value, ReadOnlySpan<TWord> inputs, TWord word)
    {
        var indices = new BigInteger[inputs.Length];
        for (var i = 0; i < indices.Length; i++)
        {
            indices[i] = value.Table!.Indices[i].Number(number(inputs[i]));
        }
        return new LookedUp(at.Source, at.Line, value, indices, number(word));
    }

    private Summed Sum(Value value, BigInteger left, BigInteger right, BigInteger bits, Wire? name) =>
        new(at.Source, at.Line, value, left, right, bits, name, name is null ? null : let!.Second);

    /// <summary>What a name says of the choice that it stands for.</summary>
    private Says? SaidOf(Value choice) =>
        let?.Wire is { SaysHowItFalls: true } wire && wire.Value == choice ? wire.Says : null;

    private void Look(Value value, BigInteger bits, Says? says)
    {
        var looked = new Tested(at.Source, at.Line, value, bits, IsCondition: true, Sides(value))
        {
            Phrase = says?.When(bits.IsOne),
            IsSpoken = says is not null,
            Way = bits.IsOne ? 0 : 1,
        };
        Look(looked);
    }

    private void Look(Value value, BigInteger bits, IReadOnlyList<ArmPatterns> arms)
    {
        var way = ArmPatterns.Acting(arms, bits);
        var looked = new Tested(at.Source, at.Line, value, bits, IsCondition: false, Sides(value))
        {
            Phrase = arms[way].Says,
            IsSpoken = arms.Any(a => a.Says is not null),
            Way = way,
        };
        Look(looked);
    }

    /// <summary>Notes what was looked at; a wire that has said it already, or a carry or borrow, has been told with its sum.</summary>
    private void Look(Tested looked)
    {
        var inner = Consequences.Turned(looked.Value);
        var isTold =
            inner.Operation == Operation.Wire
            && (saying.Contains(inner.Wire!) || inner.Wire!.Value.Operation is Operation.Carry or Operation.Borrow);
        var work = isTold || inner.Width > 1 ? null : GateWork.Of(looked.Value, looked.Bits, gates);
        Add(looked with { IsTold = isTold, Gates = work });
    }

    private List<BigInteger> Sides(Value value)
    {
        var inner = Consequences.Turned(value);
        return inner.Operation is >= Operation.Equal and <= Operation.GreaterOrEqual && !inner.IsSignTest
            ? [.. inner.Inputs.Select(i => number(Heard.Word(i)))]
            : [];
    }
}
