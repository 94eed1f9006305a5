namespace Reckoner.Checking;

/// <summary>A gate of three inputs: bit 4a + 2b + c of <paramref name="Function"/> is its output. Inputs are plane numbers.</summary>
public readonly record struct Gate(byte Function, int A, int B, int C);

/// <summary>
/// A growing list of 3-input gates over planes; a plane holds one bit of every case. A literal is 2 * plane + 1 when it stands
/// for the plane turned over, so that NOT costs nothing. Plane 0 is all zeros; inputs come next, gates after them. Constants
/// are folded, equal gates stand once, and every gate gives 0 for three zeros.
/// </summary>
public sealed class GateGraph
{
    public const int Zero = 0;
    public const int One = 1;

    /// <summary>More would take a gigabyte.</summary>
    private const int MostGates = 1 << 24;

    private const byte A = 0xF0;
    private const byte B = 0xCC;
    private const byte C = 0xAA;

    private readonly List<Gate> gates = [];
    private readonly Dictionary<Gate, int> places = [];
    private readonly Implications implied;

    public GateGraph(int inputs)
    {
        Inputs = inputs;
        implied = new Implications(this);
    }

    public int Inputs { get; }

    /// <summary>So many gates are made; <see cref="GatesBeyondRoomException"/> where it would be one more.</summary>
    internal int Most { get; init; } = MostGates;

    public IReadOnlyList<Gate> Gates => gates;

    /// <summary>The number of the plane that a gate gives.</summary>
    public int PlaneOf(int gate) => 1 + Inputs + gate;

    /// <summary>The literal of an input.</summary>
    public static int Input(int index) => 2 * (1 + index);

    public static int Not(int literal) => literal ^ 1;

    public int And(int a, int b) => Make(A & B, a, b, Zero);

    public int Or(int a, int b) => Make(A | B, a, b, Zero);

    public int Xor(int a, int b) => Make(A ^ B, a, b, Zero);

    public int Xor(int a, int b, int c) => Make(A ^ B ^ C, a, b, c);

    public int Majority(int a, int b, int c) => Make((A & B) | (A & C) | (B & C), a, b, c);

    /// <summary>
    /// a when the condition is 1, else b. What the condition alone makes constant in a or b becomes so: the high bits of a
    /// difference that is kept only without a borrow, say, where the remainder is still short.
    /// </summary>
    public int Choose(int condition, int a, int b) =>
        Make((A & B) | (~A & C), condition, implied.Given(condition, a), implied.Given(Not(condition), b));

    /// <summary>Whether so far, or a and b differ: the step of a comparison.</summary>
    public int OrDiffer(int soFar, int a, int b) => Make(A | (B ^ C), soFar, a, b);

    private int Make(int function, int a, int b, int c) => Make((byte)function, a, b, c);

    /// <summary>Any function of three literals.</summary>
    public int Make(byte function, int a, int b, int c)
    {
        (function, a) = Settled(function, a, 4);
        (function, b) = Settled(function, b, 2);
        (function, c) = Settled(function, c, 1);
        Merge(ref function, a, b, A, B);
        Merge(ref function, a, c, A, C);
        Merge(ref function, b, c, B, C);
        // What the function does not depend on becomes the zero plane.
        a = DependsOn(function, 4) ? a : Zero;
        b = DependsOn(function, 2) ? b : Zero;
        c = DependsOn(function, 1) ? c : Zero;
        (function, a, b, c) = Sorted(function, a, b, c);
        var turned = function & 1;
        function ^= (byte)-turned;
        if (a == Zero)
        {
            return turned;
        }
        return (b == Zero ? a : Enter(new Gate(function, a >> 1, b >> 1, c >> 1))) ^ turned;
    }

    private int Enter(Gate gate)
    {
        if (!places.TryGetValue(gate, out var plane))
        {
            if (gates.Count == Most)
            {
                throw new GatesBeyondRoomException(Most);
            }
            plane = PlaneOf(gates.Count);
            gates.Add(gate);
            places.Add(gate, plane);
        }
        return 2 * plane;
    }

    /// <summary>A turned literal is turned back, and the constant zero fixed, inside the function.</summary>
    private static (byte, int) Settled(byte function, int literal, int shift)
    {
        var ones =
            shift == 4 ? A
            : shift == 2 ? B
            : C;
        if ((literal & 1) != 0)
        {
            function = (byte)(((function & ones) >> shift) | ((function & ~ones) << shift));
            literal ^= 1;
        }
        if (literal == Zero)
        {
            var low = function & ~ones;
            function = (byte)(low | (low << shift));
        }
        return (function, literal);
    }

    /// <summary>Two inputs that are the same plane: rows in which they differ never occur.</summary>
    private static void Merge(ref byte function, int x, int y, byte onesX, byte onesY)
    {
        if (x != y || x == Zero)
        {
            return;
        }
        var shiftY = onesY == B ? 2 : 1;
        // f(x, y) becomes f(x, x), independent of y.
        var both = function & onesX & onesY;
        var none = function & ~onesX & ~onesY;
        function = (byte)(both | (both >> shiftY) | none | (none << shiftY));
    }

    private static bool DependsOn(byte function, int shift)
    {
        var ones =
            shift == 4 ? A
            : shift == 2 ? B
            : C;
        return ((function & ones) >> shift) != (function & ~ones);
    }

    /// <summary>Inputs in descending order, so that equal gates look equal and the zero plane comes last.</summary>
    private static (byte, int, int, int) Sorted(byte f, int a, int b, int c)
    {
        if (a < b)
        {
            (f, a, b) = (FirstTwoExchanged(f), b, a);
        }
        if (b < c)
        {
            (f, b, c) = (LastTwoExchanged(f), c, b);
        }
        if (a < b)
        {
            (f, a, b) = (FirstTwoExchanged(f), b, a);
        }
        return (f, a, b, c);
    }

    /// <summary>The function that gives the same when its first two inputs change places.</summary>
    public static byte FirstTwoExchanged(byte function) => Exchanged(function, A, B, 4, 2);

    /// <summary>The function that gives the same when its last two inputs change places.</summary>
    public static byte LastTwoExchanged(byte function) => Exchanged(function, B, C, 2, 1);

    private static byte Exchanged(byte f, byte onesX, byte onesY, int shiftX, int shiftY)
    {
        var shift = shiftX - shiftY;
        var xOnly = f & onesX & ~onesY;
        var yOnly = f & ~onesX & onesY;
        return (byte)((f & ~(onesX ^ onesY)) | (xOnly >> shift) | (yOnly << shift));
    }
}
