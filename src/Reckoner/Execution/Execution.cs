using Reckoner.Datapaths;

namespace Reckoner.Execution;

/// <summary>
/// Executes acts and schedules on words of a domain: the one place that says what acts, moments, rounds and a schedule mean. Holds
/// the registers, and the wires of the cycle being executed.
/// </summary>
internal sealed partial class Execution<TWord>
{
    private readonly IWordDomain<TWord> domain;
    private readonly Observer<TWord>? observer;

    /// <summary>Inputs being gathered, those of one value above those of the values it stands in.</summary>
    private TWord[] gathered = new TWord[16];
    private int top;
    private bool isHeard;

    public Execution(IWordDomain<TWord> domain, Observer<TWord>? observer = null)
    {
        this.domain = domain;
        this.observer = observer;
        if (observer is not null)
        {
            observer.Heard = this;
        }
    }

    /// <summary>What the registers hold, by their index.</summary>
    public TWord[] Registers { get; private set; } = [];

    /// <summary>What the wires named so far in this cycle carry.</summary>
    public Dictionary<Wire, TWord> Wires { get; } = [];

    /// <summary>The word of "last" in the round being executed.</summary>
    public TWord Last { get; set; } = default!;

    /// <summary>One bit: whether what is being executed is met; 1 outside all decisions.</summary>
    public TWord Path { get; private set; } = default!;

    /// <summary>The word of a value in the present state.</summary>
    public TWord Word(Value value)
    {
        var outer = isHeard;
        isHeard = false;
        var word = Compute(value);
        isHeard = outer;
        return word;
    }

    /// <summary>The same, and the observer hears how it is computed.</summary>
    public TWord Aloud(Value value)
    {
        isHeard = observer is not null;
        var word = Compute(value);
        isHeard = false;
        return word;
    }

    private TWord Compute(Value value)
    {
        var from = top;
        switch (value.Operation)
        {
            case Operation.Register:
                Gather(Registers[value.Register!.Index]);
                break;
            case Operation.Wire:
                Gather(Wires[value.Wire!]);
                break;
            case Operation.Last:
                Gather(Last);
                break;
            default:
                var inputs = value.IsSecondOutput ? value.Inputs[0].Inputs : value.Inputs;
                for (var i = 0; i < inputs.Count; i++)
                {
                    Gather(Compute(inputs[i]));
                }
                break;
        }
        var gives = gathered.AsSpan(from, top - from);
        var word = domain.Word(value, gives);
        if (isHeard)
        {
            observer!.Computed(value, gives, word);
        }
        top = from;
        return word;
    }

    private void Gather(TWord word)
    {
        if (top == gathered.Length)
        {
            Array.Resize(ref gathered, 2 * top);
        }
        gathered[top++] = word;
    }
}
