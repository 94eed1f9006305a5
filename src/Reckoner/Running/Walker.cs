using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Running;

/// <summary>Runs the statements one after another and notes what happens. The slow, obvious twin of every other engine.</summary>
internal sealed class Walker
{
    private readonly Datapath datapath;
    private readonly Evaluator evaluator;
    private readonly List<Row> rows = [];
    private readonly Dictionary<Datapaths.Wire, Value> saying = [];
    private List<Happening> happenings = [];

    public Walker(Datapath datapath, IReadOnlyList<BigInteger> operands)
    {
        this.datapath = datapath;
        evaluator = new Evaluator(datapath, operands);
    }

    public (IReadOnlyList<Row> Rows, IReadOnlyList<BigInteger> Results) Run()
    {
        Load();
        foreach (var segment in datapath.Schedule)
        {
            for (var round = 1; round <= segment.Count && GoesOn(segment); round++)
            {
                evaluator.IsLast = segment.While is null && round == segment.Count;
                foreach (var step in segment.Steps)
                {
                    Take(step, segment, round);
                }
            }
        }
        return (rows, [.. datapath.Results.Select(r => evaluator.Bits(r.Value))]);
    }

    private bool GoesOn(Segment segment) => segment.While is null || evaluator.IsOne(segment.While);

    private void Load()
    {
        var before = State();
        foreach (var register in datapath.Registers)
        {
            var bits = Computed(
                register.Loads,
                null,
                null,
                register.Loads.Source!.LineOf(register.Loads.Written!.Span.Start),
                register.Loads.Source
            );
            evaluator.Registers[register.Index] = bits;
        }
        var moment = new MomentOfWalk(1, true, State(), [], happenings);
        rows.Add(new Row(0, 0, 0, null, null, before, State(), [moment]));
    }

    private BigInteger[] State() => [.. evaluator.Registers];

    private void Take(Step step, Segment segment, int round)
    {
        var before = State();
        evaluator.Wires.Clear();
        saying.Clear();
        var moments = new List<MomentOfWalk>();
        for (var i = 0; i < step.Moments.Count; i++)
        {
            happenings = [];
            foreach (var act in step.Moments[i])
            {
                Execute(act);
            }
            var values = evaluator.Wires.Select(w => new WireValue(w.Key, w.Value));
            moments.Add(new MomentOfWalk(i + 1, i == step.Moments.Count - 1, State(), [.. values], happenings));
        }
        bool? last = segment.IsLoop && segment.While is null ? round == segment.Count : null;
        rows.Add(new Row(rows.Count, segment.Repeat, segment.IsLoop ? round : 0, step, last, before, State(), moments));
    }

    private void Execute(Act act)
    {
        switch (act)
        {
            case LetAct a:
                Let(a);
                break;
            case TransferAct a:
                Transfer(a);
                break;
            case BranchAct a:
                Branch(a);
                break;
            case CaseAct a:
                var word = evaluator.Bits(a.Subject);
                Look(a.Subject, word, a.Line, a.Source, isCondition: false);
                var arm = Evaluator.Arm([.. a.Arms.Select(x => x.Patterns)], word);
                Execute(a.Arms[arm].Acts);
                Stay(a, a.Arms[arm].Acts, a.Arms.SelectMany(x => x.Acts));
                break;
            case HoldAct:
                break;
            case RemarkAct a:
                happenings.Add(new Remarked(a.Source, a.Line, a.Text));
                break;
            default:
                throw new InvalidOperationException(act.GetType().Name);
        }
    }

    /// <summary>Runs the acts of a branch that is taken.</summary>
    private void Execute(IReadOnlyList<Act> acts)
    {
        branches++;
        foreach (var act in acts)
        {
            Execute(act);
        }
        branches--;
    }

    /// <summary>How many branches deep the act being run stands.</summary>
    private int branches;

    private bool Follows(Value value) => branches > 0 || Mentions(value);

    private static bool Mentions(Value value) =>
        value.Operation is Operation.Wire or Operation.Choose or Operation.Select or Operation.Lookup
        || value.Inputs.Any(Mentions);

    private void Let(LetAct act)
    {
        var bits = Computed(act.Wire.Value, act.Wire, act.Second, act.Line, act.Source);
        evaluator.Wires[act.Wire] = bits;
        Say(act, act.Wire, bits);
        if (act.Second is not null)
        {
            evaluator.Wires[act.Second] = evaluator.Bits(act.Second.Value);
            Say(act, act.Second, evaluator.Wires[act.Second]);
        }
    }

    private void Say(LetAct act, Datapaths.Wire wire, BigInteger bits)
    {
        if (wire.Says is not null)
        {
            saying[wire] = wire.Value;
            happenings.Add(new Said(act.Source, act.Line, wire, bits));
        }
    }

    /// <summary>A value, noting what its choices look at and the work of its adders and multipliers, the outermost last.</summary>
    private BigInteger Computed(
        Value value,
        Datapaths.Wire? name,
        Datapaths.Wire? carry,
        int line,
        Source source
    )
    {
        foreach (var input in value.Inputs)
        {
            Computed(input, null, null, line, source);
        }
        var bits = evaluator.Bits(value);
        switch (value.Operation)
        {
            case Operation.Add or Operation.Subtract:
                Sum(evaluator.Bits(value.Inputs[0]), evaluator.Bits(value.Inputs[1]));
                break;
            case Operation.Negate:
                Sum(BigInteger.Zero, evaluator.Bits(value.Inputs[0]));
                break;
            case Operation.Magnitude when Evaluator.Number(value.Inputs[0], evaluator.Bits(value.Inputs[0])).Sign < 0:
                Sum(BigInteger.Zero, evaluator.Bits(value.Inputs[0]));
                break;
            case Operation.CarrySaveSum:
                var three = value.Inputs.Select(evaluator.Bits).ToList();
                var carries = (three[0] & three[1]) | (three[0] & three[2]) | (three[1] & three[2]);
                happenings.Add(new CarrySaved(source, line, value, three, bits, carries));
                break;
            case Operation.Lookup when name?.Says is null:
                var indices = value.Inputs.Zip(
                    value.Table!.Indices,
                    (i, index) =>
                        index.IsSigned ? Bits.AsSigned(evaluator.Bits(i), index.Size.Count) : evaluator.Bits(i)
                );
                happenings.Add(new LookedUp(source, line, value, [.. indices], bits));
                break;
            case Operation.Choose or Operation.Select:
                var decides = value.Inputs[0];
                Look(decides, evaluator.Bits(decides), line, source, value.Operation == Operation.Choose);
                break;
            case Operation.Multiply:
                happenings.Add(
                    new Multiplied(
                        source,
                        line,
                        value,
                        evaluator.Bits(value.Inputs[0]),
                        evaluator.Bits(value.Inputs[1]),
                        bits,
                        name
                    )
                );
                break;
        }
        return bits;

        void Sum(BigInteger left, BigInteger right) =>
            happenings.Add(new Summed(source, line, value, left, right, bits, name, carry));
    }

    private void Branch(BranchAct act)
    {
        var bits = evaluator.Bits(act.Condition);
        Look(act.Condition, bits, act.Line, act.Source, isCondition: true);
        var taken = bits.IsOne ? act.Then : act.Otherwise;
        Execute(taken);
        if (!act.HasElse || taken.All(a => a is HoldAct or RemarkAct))
        {
            Stay(act, taken, act.Then.Concat(act.Otherwise));
        }
    }

    /// <summary>
    /// Notes what was looked at, unless it is a wire that has said it already, or a carry or borrow whose sum has been told.
    /// </summary>
    private void Look(Value value, BigInteger bits, int line, Source source, bool isCondition)
    {
        var inner = value;
        while (inner.Operation == Operation.Not)
        {
            inner = inner.Inputs[0];
        }
        var told =
            inner.Operation == Operation.Wire
            && (saying.ContainsKey(inner.Wire!) || inner.Wire!.Value.Operation is Operation.Carry or Operation.Borrow);
        if (!told)
        {
            var sides =
                inner.Operation is >= Operation.Equal and <= Operation.GreaterOrEqual && !inner.IsSignTest
                    ? inner.Inputs.Select(evaluator.Bits).ToList()
                    : [];
            happenings.Add(new Tested(source, line, value, bits, isCondition, sides));
        }
    }

    /// <summary>Notes what keeps its bits because the acts that would write it are not taken.</summary>
    private void Stay(Act act, IReadOnlyList<Act> taken, IEnumerable<Act> all)
    {
        var written = Places(taken).ToList();
        foreach (var place in Places(all).DistinctBy(p => (p.Register, p.High, p.Low)))
        {
            if (!written.Exists(w => w.Register == place.Register && w.High >= place.Low && w.Low <= place.High))
            {
                happenings.Add(new Stayed(act.Source, act.Line, place) { Follows = true });
            }
        }
    }

    private static IEnumerable<Place> Places(IEnumerable<Act> acts) =>
        acts.SelectMany(act =>
            act switch
            {
                TransferAct a => a.Places,
                BranchAct a => Places(a.Then).Concat(Places(a.Otherwise)),
                CaseAct a => a.Arms.SelectMany(x => Places(x.Acts)),
                _ => [],
            }
        );

    private void Transfer(TransferAct act)
    {
        var shift = ShiftOf(act);
        var told = Computed(shift ?? act.Value, null, null, act.Line, act.Source);
        var bits = shift is null ? told : evaluator.Bits(act.Value);
        var follows = Follows(act.Value);
        happenings.Add(
            shift is { } entering
                ? new Shifted(
                    act.Source,
                    act.Line,
                    act.Places,
                    act.Value.Operation == Operation.ShiftLeft,
                    evaluator.Bits(entering),
                    entering.Width
                )
                {
                    Follows = follows,
                }
                : new Became(act.Source, act.Line, act.Places, act.Value, bits) { Follows = follows }
        );
        var low = act.Value.Width;
        foreach (var place in act.Places)
        {
            low -= place.Width;
            var field = Bits.Wrap(bits >> low, place.Width);
            ref var register = ref evaluator.Registers[place.Register.Index];
            register = (register & (Bits.Mask(place.Register.Width) ^ place.Mask)) | (field << place.Low);
        }
    }

    /// <summary>What enters, when a transfer shifts the very places it writes.</summary>
    internal static Value? ShiftOf(TransferAct act)
    {
        if (act.Value.Operation is not (Operation.ShiftLeft or Operation.ShiftRight))
        {
            return null;
        }
        var shifted = act.Value.Inputs[0];
        var parts = shifted.Operation == Operation.Join ? shifted.Inputs : [shifted];
        var same = parts.Count == act.Places.Count && parts.Zip(act.Places, IsPlace).All(x => x);
        return same ? act.Value.Inputs[1] : null;
    }

    private static bool IsPlace(Value value, Place place) =>
        value.Operation == Operation.Register
            ? place.Register == value.Register && place.IsWhole
            : value.Operation == Operation.Slice
                && value.Inputs[0].Register == place.Register
                && value.Low == place.Low
                && value.Width == place.Width;
}
