namespace Reckoner.Checking;

/// <summary>A lookup over values; <paramref name="To"/> is the value it makes.</summary>
internal readonly record struct Lookup(byte Function, int A, int B, int C, int To)
{
    public const byte Copy = 0xF0;
    public const byte Not = 0x0F;
    public const byte And = 0xC0;
    public const byte AndNot = 0x30;
    public const byte Or = 0xFC;
    public const byte Xor = 0x3C;

    /// <summary>0, 1, 2 for A, B, C.</summary>
    public int At(int position) =>
        position switch
        {
            0 => A,
            1 => B,
            _ => C,
        };

    /// <summary>Whether the input at a position makes a difference.</summary>
    public bool Reads(int position) =>
        position switch
        {
            0 => Function >> 4 != (Function & 0x0F),
            1 => (Function & 0xCC) >> 2 != (Function & 0x33),
            _ => (Function & 0xAA) >> 1 != (Function & 0x55),
        };
}

/// <summary>
/// A program with a number of its own for every value that ever stands in a slot: what writers of straight-line code need to
/// keep values out of memory. Value 0 is the zeros, then the inputs, then one per instruction. A value's slot is its own from
/// its instruction to the last one that reads it.
/// </summary>
internal sealed class PlaneValues
{
    private readonly int[] slotOf;
    private readonly int[] lastUse;
    private readonly Lookup[] lookups;
    private readonly int[] standing;

    public PlaneValues(PlaneProgram program)
    {
        First = 1 + program.Inputs;
        lookups = new Lookup[program.Instructions.Count];
        slotOf = new int[First + lookups.Length];
        lastUse = new int[slotOf.Length];
        standing = new int[program.Slots];
        for (var slot = 0; slot < First; slot++)
        {
            slotOf[slot] = standing[slot] = slot;
        }
        for (var i = 0; i < lookups.Length; i++)
        {
            var x = program.Instructions[i];
            lookups[i] = new Lookup(x.Function, standing[x.A], standing[x.B], standing[x.C], First + i);
            for (var position = 0; position < 3; position++)
            {
                if (lookups[i].Reads(position))
                {
                    lastUse[lookups[i].At(position)] = i;
                }
            }
            standing[x.To] = First + i;
            slotOf[First + i] = x.To;
        }
        foreach (var output in program.Outputs)
        {
            lastUse[standing[output.Slot]] = int.MaxValue;
        }
        // State for the next run stands in the inputs' slots.
        foreach (var value in standing.Take(First))
        {
            lastUse[value] = int.MaxValue;
        }
    }

    /// <summary>The first value that is made by an instruction.</summary>
    public int First { get; }

    public int Count => slotOf.Length;

    public IReadOnlyList<Lookup> Lookups => lookups;

    public int SlotOf(int value) => slotOf[value];

    /// <summary>The value that stands in a slot after a run.</summary>
    public int LastIn(int slot) => standing[slot];

    /// <summary>The last instruction that reads a value; one that is needed after the run is never read for the last time.</summary>
    public int LastUse(int value) => lastUse[value];
}
