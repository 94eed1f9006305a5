using System.Diagnostics;

namespace Reckoner.Checking;

/// <summary>
/// Straight-line code for a stretch of a program with a limited number of locals: when they run out, the value that is needed
/// again last gives way (Belady 1966) and is read from its slot from then on. Stores only what is read from memory later.
/// </summary>
internal sealed class StretchPlan
{
    /// <summary>With fewer locals the parts of gates spelt with two inputs might not fit.</summary>
    public const int LeastLocals = 12;

    private const int Never = int.MaxValue;
    private const int None = -1;

    private readonly PlaneValues values;
    private readonly int from;
    private readonly int to;
    private readonly IReadOnlyList<Lookup> lookups;
    private readonly List<PlanStep> steps = [];

    /// <summary>By value: when it is read next, the local it is in, whether its slot holds it.</summary>
    private readonly int[] nextUse;
    private readonly int[] localOf;
    private readonly bool[] isStored;

    /// <summary>By lookup and position: when the input is read after it.</summary>
    private readonly int[] useAfter;
    private readonly int[] valueIn;
    private readonly Stack<int> free = [];

    private StretchPlan(PlaneValues values, int from, int to, IReadOnlyList<Lookup> lookups, int locals)
    {
        this.values = values;
        this.from = from;
        this.to = to;
        this.lookups = lookups;
        var count = values.Count + lookups.Count;
        nextUse = new int[count];
        localOf = new int[count];
        isStored = new bool[count];
        useAfter = new int[3 * lookups.Count];
        valueIn = new int[locals];
        Array.Fill(nextUse, Never);
        Array.Fill(localOf, None);
        Array.Fill(valueIn, None);
        for (var local = locals - 1; local >= 0; local--)
        {
            free.Push(local);
        }
    }

    /// <param name="from">First instruction; <paramref name="to"/> is the first one behind the stretch.</param>
    /// <param name="lookups">The stretch itself, or what it was spelt with.</param>
    public static IReadOnlyList<PlanStep> Of(
        PlaneValues values,
        int from,
        int to,
        IReadOnlyList<Lookup> lookups,
        int locals
    )
    {
        var plan = new StretchPlan(values, from, to, lookups, locals);
        plan.FindUses();
        for (var i = 0; i < lookups.Count; i++)
        {
            plan.Take(i);
        }
        return plan.steps;
    }

    private void FindUses()
    {
        for (var i = lookups.Count - 1; i >= 0; i--)
        {
            for (var position = 0; position < 3; position++)
            {
                useAfter[3 * i + position] = nextUse[lookups[i].At(position)];
            }
            for (var position = 0; position < 3; position++)
            {
                if (lookups[i].Reads(position))
                {
                    nextUse[lookups[i].At(position)] = i;
                }
            }
        }
    }

    /// <summary>Whether later stretches or the end of the run read a value of this one.</summary>
    private bool IsReadLater(int value) => value < values.Count && values.LastUse(value) >= to;

    private void Take(int index)
    {
        var lookup = lookups[index];
        for (var position = 0; position < 3; position++)
        {
            if (lookup.Reads(position))
            {
                nextUse[lookup.At(position)] = useAfter[3 * index + position];
            }
        }
        if (lookup.Function == Lookup.Copy && Renames(lookup))
        {
            return;
        }
        for (var position = 0; position < 3; position++)
        {
            if (lookup.Reads(position))
            {
                Fetch(lookup.At(position), lookup);
            }
        }
        var (a, b, c) = (Place(lookup, 0), Place(lookup, 1), Place(lookup, 2));
        for (var position = 0; position < 3; position++)
        {
            if (lookup.Reads(position))
            {
                Release(lookup.At(position));
            }
        }
        var local = LocalFor(lookup.To, lookup);
        isStored[lookup.To] = local == PlanStep.Nowhere || IsReadLater(lookup.To);
        steps.Add(
            new PlanStep(
                lookup.Function,
                a,
                b,
                c,
                local,
                isStored[lookup.To] ? values.SlotOf(lookup.To) : PlanStep.Nowhere
            )
        );
    }

    private int Place(Lookup lookup, int position)
    {
        var value = lookup.At(position);
        return !lookup.Reads(position) ? PlanStep.Nowhere
            : localOf[value] != None ? localOf[value]
            : ~values.SlotOf(value);
    }

    /// <summary>A copy of a value that nothing else needs takes over its local.</summary>
    private bool Renames(Lookup copy)
    {
        var local = localOf[copy.A];
        if (nextUse[copy.A] != Never || local == None)
        {
            return false;
        }
        localOf[copy.A] = None;
        Put(copy.To, local);
        if (IsReadLater(copy.To))
        {
            Store(copy.To);
        }
        Release(copy.To);
        return true;
    }

    private void Put(int value, int local)
    {
        localOf[value] = local;
        valueIn[local] = value;
    }

    private void Store(int value)
    {
        isStored[value] = true;
        steps.Add(PlanStep.Store(localOf[value], values.SlotOf(value)));
    }

    /// <summary>Brings a value that is needed again into a local, if one can be had.</summary>
    private void Fetch(int value, Lookup lookup)
    {
        if (localOf[value] == None && LocalFor(value, lookup) is var local && local != PlanStep.Nowhere)
        {
            steps.Add(PlanStep.Load(values.SlotOf(value), local));
        }
    }

    private void Release(int value)
    {
        if (nextUse[value] == Never && localOf[value] != None)
        {
            free.Push(localOf[value]);
            valueIn[localOf[value]] = None;
            localOf[value] = None;
        }
    }

    /// <summary>A local for a value, for which another may have to give way; nowhere if it is the one to do without.</summary>
    private int LocalFor(int value, Lookup lookup)
    {
        if (nextUse[value] == Never)
        {
            return PlanStep.Nowhere;
        }
        if (!free.TryPop(out var local))
        {
            var last = Last(value, lookup);
            if (last == value)
            {
                Debug.Assert(value < values.Count, "a value without a slot found no local");
                return PlanStep.Nowhere;
            }
            if (last >= values.First + from && !isStored[last])
            {
                Store(last);
            }
            local = localOf[last];
            localOf[last] = None;
        }
        Put(value, local);
        return local;
    }

    /// <summary>What is needed again last, but nothing the lookup reads, and nothing between two gates: that has no slot.</summary>
    private int Last(int value, Lookup lookup)
    {
        var last = value;
        foreach (var other in valueIn)
        {
            var mayGo = other < values.Count && other != lookup.A && other != lookup.B && other != lookup.C;
            if (mayGo && (nextUse[other] > nextUse[last] || last >= values.Count))
            {
                last = other;
            }
        }
        return last;
    }
}
