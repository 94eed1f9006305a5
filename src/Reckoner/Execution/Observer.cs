using Reckoner.Datapaths;

namespace Reckoner.Execution;

/// <summary>
/// Hears what an execution does, in the order in which it does it. What is asked for beside it (the words of results, or those an
/// observer asks for itself) is not heard.
/// </summary>
internal abstract class Observer<TWord>
{
    /// <summary>What is heard; set by whoever executes.</summary>
    protected internal Execution<TWord> Heard { get; internal set; } = null!;

    /// <summary>The load begins to compute what a register takes.</summary>
    public virtual void Loads(Register register) { }

    /// <summary>A loop begins to ask whether it goes on.</summary>
    public virtual void AsksToGoOn(Cycle cycle) { }

    /// <summary>A cycle begins; the registers hold what they held before it.</summary>
    /// <param name="active">One bit: whether it takes place.</param>
    public virtual void Begins(Cycle cycle, TWord active) { }

    public virtual void Begins(Act act) { }

    /// <summary>A value was computed, after its inputs. Values are told apart by reference.</summary>
    public virtual void Computed(Value value, ReadOnlySpan<TWord> inputs, TWord word) { }

    /// <summary>A wire carries a word from here to the end of the cycle.</summary>
    public virtual void Names(Wire wire, TWord word) { }

    /// <summary>An act begins to ask a question; what is computed for it belongs to the question.</summary>
    public virtual void Asks(Act act, Value question) { }

    public virtual void Asked(Act act, Value question, TWord word) { }

    /// <summary>It is known how a decision falls: of a branch whether it is so (way 0), of a choice for each arm whether it acts.</summary>
    /// <param name="bit">One bit.</param>
    public virtual void Tells(Act act, int way, TWord bit) { }

    /// <summary>
    /// A way of a decision begins: of a branch 0 when it is so and 1 when not, of a choice the arm's number. Where one way is taken
    /// only that one is executed; where all are, the bit tells.
    /// </summary>
    /// <param name="bit">One bit: whether the decision falls so, when it is met at all.</param>
    public virtual void Enters(Act act, int way, TWord bit) { }

    public virtual void Leaves(Act act, int way) { }

    /// <summary>All ways have been executed that are, and what they leave in the registers is chosen between.</summary>
    public virtual void Joins(Act act) { }

    /// <summary>The registers hold what is chosen.</summary>
    public virtual void Joined(Act act) { }

    /// <summary>Places were given the bits of a word.</summary>
    public virtual void Wrote(TransferAct act, TWord word) { }

    /// <param name="moment">From 1.</param>
    public virtual void EndsMoment(Cycle cycle, int moment) { }

    /// <summary>All moments are over; what the registers keep is chosen where the cycle may not take place.</summary>
    public virtual void Stores(Cycle cycle) { }

    /// <summary>The registers hold what the cycle leaves.</summary>
    public virtual void Ends(Cycle cycle) { }
}
