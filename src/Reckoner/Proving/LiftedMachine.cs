using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Proving;

/// <summary>
/// A machine at every width at once: its hardware at a few widths, laid side by side, with each width, place, count and constant as
/// the formula that gives them all. It is found, not shown: the verifier reads the formulas from the description.
/// </summary>
internal sealed partial class LiftedMachine
{
    private readonly Dictionary<Value, (Extent Width, Extent Low, Form? Bits)> values = new(
        ReferenceEqualityComparer.Instance
    );
    private readonly Dictionary<Place, (Extent High, Extent Low, Extent Offset)> places = new(
        ReferenceEqualityComparer.Instance
    );
    private readonly Dictionary<Segment, Extent> counts = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<string, Extent> numbers = new(StringComparer.Ordinal);
    private readonly List<Extent> registers = [];
    private readonly List<Extent> operands = [];
    private readonly IReadOnlyList<int> widths;

    private LiftedMachine(IReadOnlyList<Datapath> datapaths, IReadOnlyList<int> widths, int least)
    {
        Datapaths = datapaths;
        this.widths = widths;
        Least = least;
        Lift();
    }

    /// <summary>The hardware at a few widths that follow each other, and at one further on.</summary>
    public IReadOnlyList<Datapath> Datapaths { get; }

    /// <summary>The hardware whose values are asked about.</summary>
    public Datapath Datapath => Datapaths[0];

    /// <summary>The least width that the description allows.</summary>
    public int Least { get; }

    public Extent Width(Value value) => values[value].Width;

    public Extent Low(Value value) => values[value].Low;

    /// <summary>The bits of a constant.</summary>
    public Form Bits(Value value) => values[value].Bits!;

    public Extent Width(Register register) => registers[register.Index];

    public Extent Width(Operand operand) => operands[operand.Index];

    /// <summary>The bits of the register, and where theirs begin in the word that is transferred.</summary>
    public (Extent High, Extent Low, Extent Offset) Range(Place place) => places[place];

    public Extent Count(Segment segment) => counts[segment];

    /// <summary>A width or constant by its name; null where it does not grow evenly.</summary>
    public Extent? Number(string name) => numbers.TryGetValue(name, out var number) ? number : null;

    /// <exception cref="NotReachedException">It is not of one build for every width.</exception>
    public static LiftedMachine Of(IMachine machine)
    {
        var main = machine.Widths.ToList();
        if (main.Count != 1)
        {
            throw new NotReachedException(Obstacle.SeveralWidths);
        }
        var (datapath, _) = machine.At();
        if (datapath is null)
        {
            throw new NotReachedException(Obstacle.BuildDiffers);
        }
        var (low, high) = (Bound(main[0].Low, datapath), Bound(main[0].High, datapath));
        var first = Math.Max(low, 5);
        int[] widths = [first, first + 1, first + 2, first + 9];
        if (widths[^1] > high)
        {
            throw new NotReachedException(Obstacle.SeveralWidths);
        }
        var built = widths
            .Select(w => machine.Built(new Dictionary<string, BigInteger> { [main[0].Name.Text] = w }))
            .ToList();
        return built.Contains(null)
            ? throw new NotReachedException(Obstacle.BuildDiffers)
            : new LiftedMachine([.. built.OfType<Datapath>()], widths, low);
    }

    /// <summary>Whether a proof for every width may reach a machine: it is one build, claims something, and its loops end alike.</summary>
    public static bool IsReached(Datapath datapath)
    {
        if (datapath.Laws.Count == 0 || datapath.Schedule.Any(s => s.While is not null))
        {
            return false;
        }
        try
        {
            Of(datapath.Machine);
            return true;
        }
        catch (NotReachedException)
        {
            return false;
        }
    }

    private static int Bound(Notation.Expression formula, Datapath datapath) =>
        WidthBound.Of(formula, datapath.Numbers) ?? 0;

    private void Lift()
    {
        Same(d => d.Registers.Count);
        Same(d => d.Operands.Count);
        Same(d => d.Schedule.Count);
        Same(d => d.Results.Count);
        foreach (var (name, _) in Datapath.Numbers)
        {
            var all = Datapaths.Select(d => d.Numbers[name]).ToList();
            if (
                all.TrueForAll(a => a.IsWhole && Rational.Abs(a) < 1 << 30)
                && Fit([.. all.Select(a => (int)a.Numerator)]) is { } fit
            )
            {
                numbers[name] = fit;
            }
        }
        for (var r = 0; r < Datapath.Registers.Count; r++)
        {
            registers.Add(Even(d => d.Registers[r].Width, Datapath.Registers[r].Name));
            Lift(d => d.Registers[r].Loads);
        }
        for (var o = 0; o < Datapath.Operands.Count; o++)
        {
            operands.Add(Even(d => d.Operands[o].Width, Datapath.Operands[o].Name));
        }
        for (var s = 0; s < Datapath.Schedule.Count; s++)
        {
            var segment = Datapath.Schedule[s];
            counts[segment] = Even(d => d.Schedule[s].Count, "repeat");
            Same(d => d.Schedule[s].Steps.Count);
            if (segment.While is not null)
            {
                Lift(d => d.Schedule[s].While!);
            }
            for (var t = 0; t < segment.Steps.Count; t++)
            {
                Same(d => d.Schedule[s].Steps[t].Moments.Count);
                for (var m = 0; m < segment.Steps[t].Moments.Count; m++)
                {
                    Lift(d => d.Schedule[s].Steps[t].Moments[m]);
                }
            }
        }
        for (var r = 0; r < Datapath.Results.Count; r++)
        {
            Lift(d => d.Results[r].Value);
        }
    }

    private void Lift(Func<Datapath, IReadOnlyList<Act>> acts)
    {
        Same(d => acts(d).Count);
        for (var a = 0; a < acts(Datapath).Count; a++)
        {
            Same(d => (int)acts(d)[a].Kind);
            acts(Datapath)[a]
                .Switch(
                    let: act =>
                    {
                        Lift(d => ((LetAct)acts(d)[a]).Wire.Value);
                        if (act.Second is not null)
                        {
                            Lift(d => ((LetAct)acts(d)[a]).Second!.Value);
                        }
                    },
                    transfer: act =>
                    {
                        Same(d => ((TransferAct)acts(d)[a]).Places.Count);
                        var offset = Extent.Zero;
                        for (var p = act.Places.Count - 1; p >= 0; p--)
                        {
                            var name = act.Places[p].Register.Name;
                            var high = Even(d => ((TransferAct)acts(d)[a]).Places[p].High, name);
                            var low = Even(d => ((TransferAct)acts(d)[a]).Places[p].Low, name);
                            places[act.Places[p]] = (high, low, offset);
                            offset += high - low + 1;
                        }
                        Lift(d => ((TransferAct)acts(d)[a]).Value);
                    },
                    branch: _ =>
                    {
                        Lift(d => ((BranchAct)acts(d)[a]).Condition);
                        Lift(d => ((BranchAct)acts(d)[a]).Then);
                        Lift(d => ((BranchAct)acts(d)[a]).Otherwise);
                    },
                    arms: act =>
                    {
                        Lift(d => ((CaseAct)acts(d)[a]).Subject);
                        for (var arm = 0; arm < act.Arms.Count; arm++)
                        {
                            Lift(d => ((CaseAct)acts(d)[a]).Arms[arm].Acts);
                        }
                    },
                    hold: _ => { },
                    remark: _ => { }
                );
        }
    }

    private void Lift(Func<Datapath, Value> value)
    {
        var own = value(Datapath);
        if (values.ContainsKey(own))
        {
            return;
        }
        Same(d => (int)value(d).Operation);
        Same(d => value(d).Inputs.Count);
        var what = own.Written?.ToString() ?? "";
        var width = Even(d => value(d).Width, what);
        values[own] = (
            width,
            Even(d => value(d).Low, what),
            own.Operation == Operation.Constant ? BitsOf([.. Datapaths.Select(d => value(d).Bits)], width, what) : null
        );
        for (var i = 0; i < own.Inputs.Count; i++)
        {
            Lift(d => value(d).Inputs[i]);
        }
        if (own.Wire is not null)
        {
            Lift(d => value(d).Wire!.Value);
        }
    }

    private Form BitsOf(IReadOnlyList<BigInteger> bits, Extent width, string what)
    {
        if (bits.All(b => b == bits[0]))
        {
            return Form.Of(bits[0]);
        }
        var below = bits.Zip(widths, (b, w) => b - (BigInteger.One << width.At(w, 0))).ToList();
        return below.TrueForAll(b => b == below[0])
            ? Form.Power(width) + Form.Of(below[0])
            : throw new NotReachedException(Obstacle.Uneven, what);
    }

    private Extent Even(Func<Datapath, int> number, string what) =>
        Fit([.. Datapaths.Select(number)]) ?? throw new NotReachedException(Obstacle.Uneven, what);

    private Extent? Fit(IReadOnlyList<int> found)
    {
        var extent = new Extent(found[1] - found[0], 0, found[0] - (found[1] - found[0]) * widths[0]);
        return found.Zip(widths).All(f => extent.At(f.Second, 0) == f.First) ? extent : null;
    }

    private void Same(Func<Datapath, int> number)
    {
        if (Datapaths.Any(d => number(d) != number(Datapath)))
        {
            throw new NotReachedException(Obstacle.BuildDiffers);
        }
    }
}
