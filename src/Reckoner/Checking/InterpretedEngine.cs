using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Reckoner.Checking;

/// <summary>
/// Runs a program gate by gate with the widest vectors there are, without making code. The functions that adders, choices and
/// comparisons need have loops of their own; any other is made of choices between constants.
/// </summary>
public sealed class InterpretedEngine : IPlaneEngine
{
    /// <summary>The functions that have loops of their own, in one order of their inputs.</summary>
    private static ReadOnlySpan<byte> Looped =>
        [0xC0, 0x30, 0xFC, 0x3C, 0x96, 0xE8, 0x8E, 0xCA, 0x3A, 0xF6, 0x60, 0x90, 0x06, 0x80, 0xFE, 0x78, 0xB4];

    private readonly int bits;

    /// <param name="bits">Width of the vectors: 512, 256, 128, or 64 for plain words.</param>
    public InterpretedEngine(int bits)
    {
        this.bits = bits;
    }

    /// <summary>The widest that this processor has.</summary>
    public static InterpretedEngine Widest =>
        new(
            Vector512.IsHardwareAccelerated ? 512
            : Vector256.IsHardwareAccelerated ? 256
            : Vector128.IsHardwareAccelerated ? 128
            : 64
        );

    public string Name => $"interpreted planes, {bits} bits";

    public IPlaneKernel Compile(PlaneProgram program) =>
        bits switch
        {
            512 => new Kernel<Wide512>(program),
            256 => new Kernel<Wide256>(program),
            128 => new Kernel<Wide128>(program),
            _ => new Kernel<Wide64>(program),
        };

    private sealed class Kernel<T>(PlaneProgram program) : IPlaneKernel
        where T : struct, IWide<T>
    {
        private readonly Instruction[] instructions = [.. program.Instructions.Select(Arranged)];

        /// <summary>Inputs change places until the function is one that has a loop of its own.</summary>
        private static Instruction Arranged(Instruction i)
        {
            var tried = i;
            for (var order = 0; order < 6; order++)
            {
                if (Looped.Contains(tried.Function))
                {
                    return tried;
                }
                tried =
                    order % 2 == 0
                        ? tried with
                        {
                            Function = GateGraph.FirstTwoExchanged(tried.Function),
                            A = tried.B,
                            B = tried.A,
                        }
                        : tried with
                        {
                            Function = GateGraph.LastTwoExchanged(tried.Function),
                            B = tried.C,
                            C = tried.B,
                        };
            }
            return i;
        }

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public void Run(Span<ulong> memory)
        {
            if (memory.Length < program.Slots * PlaneMemory.Stride)
            {
                throw new ArgumentException("too little memory for the program", nameof(memory));
            }
            ref var start = ref MemoryMarshal.GetReference(memory);
            foreach (ref readonly var i in instructions.AsSpan())
            {
                ref var a = ref Unsafe.Add(ref start, i.A * PlaneMemory.Stride);
                ref var b = ref Unsafe.Add(ref start, i.B * PlaneMemory.Stride);
                ref var c = ref Unsafe.Add(ref start, i.C * PlaneMemory.Stride);
                ref var to = ref Unsafe.Add(ref start, i.To * PlaneMemory.Stride);
                // Bit 4a + 2b + c of the function is the gate's output.
                switch (i.Function)
                {
                    case 0xC0:
                        Each<And>(ref a, ref b, ref c, ref to);
                        break;
                    case 0x30:
                        Each<AndNot>(ref a, ref b, ref c, ref to);
                        break;
                    case 0xFC:
                        Each<Or>(ref a, ref b, ref c, ref to);
                        break;
                    case 0x3C:
                        Each<Xor>(ref a, ref b, ref c, ref to);
                        break;
                    case 0x96:
                        Each<Xor3>(ref a, ref b, ref c, ref to);
                        break;
                    case 0xE8:
                        Each<Majority>(ref a, ref b, ref c, ref to);
                        break;
                    case 0x8E:
                        Each<MajorityNot>(ref a, ref b, ref c, ref to);
                        break;
                    case 0xCA:
                        Each<Choose>(ref a, ref b, ref c, ref to);
                        break;
                    case 0x3A:
                        Each<ChooseNot>(ref a, ref b, ref c, ref to);
                        break;
                    case 0xF6:
                        Each<OrDiffer>(ref a, ref b, ref c, ref to);
                        break;
                    case 0x60:
                        Each<AndDiffer>(ref a, ref b, ref c, ref to);
                        break;
                    case 0x90:
                        Each<AndSame>(ref a, ref b, ref c, ref to);
                        break;
                    case 0x06:
                        Each<NotAndDiffer>(ref a, ref b, ref c, ref to);
                        break;
                    case 0x80:
                        Each<And3>(ref a, ref b, ref c, ref to);
                        break;
                    case 0xFE:
                        Each<Or3>(ref a, ref b, ref c, ref to);
                        break;
                    case 0x78:
                        Each<XorAnd>(ref a, ref b, ref c, ref to);
                        break;
                    case 0xB4:
                        Each<XorAndNot>(ref a, ref b, ref c, ref to);
                        break;
                    default:
                        Any(i.Function, ref a, ref b, ref c, ref to);
                        break;
                }
            }
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        private static void Each<TGate>(ref ulong a, ref ulong b, ref ulong c, ref ulong to)
            where TGate : struct, IGate
        {
            for (nuint i = 0; i < PlaneMemory.Words; i += (nuint)T.Words)
            {
                T.Store(TGate.Of(T.Load(ref a, i), T.Load(ref b, i), T.Load(ref c, i)), ref to, i);
            }
        }

        /// <summary>Chooses by a between the functions of b and c that remain, and by b among those of c.</summary>
        private static void Any(byte function, ref ulong a, ref ulong b, ref ulong c, ref ulong to)
        {
            for (nuint i = 0; i < PlaneMemory.Words; i += (nuint)T.Words)
            {
                var (x, y, z) = (T.Load(ref a, i), T.Load(ref b, i), T.Load(ref c, i));
                var high = Of(function >> 4, y, z);
                var low = Of(function & 15, y, z);
                T.Store(low ^ (x & (high ^ low)), ref to, i);
            }
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        private static T Of(int function, T b, T c)
        {
            var high = Of(function >> 2, c);
            var low = Of(function & 3, c);
            return low ^ (b & (high ^ low));
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        private static T Of(int function, T c) =>
            function switch
            {
                0 => T.Zeros,
                1 => ~c,
                2 => c,
                _ => ~T.Zeros,
            };

        private interface IGate
        {
            static abstract T Of(T a, T b, T c);
        }

        private readonly struct And : IGate
        {
            public static T Of(T a, T b, T c) => a & b;
        }

        private readonly struct AndNot : IGate
        {
            public static T Of(T a, T b, T c) => a & ~b;
        }

        private readonly struct Or : IGate
        {
            public static T Of(T a, T b, T c) => a | b;
        }

        private readonly struct Xor : IGate
        {
            public static T Of(T a, T b, T c) => a ^ b;
        }

        private readonly struct Xor3 : IGate
        {
            public static T Of(T a, T b, T c) => a ^ b ^ c;
        }

        private readonly struct Majority : IGate
        {
            public static T Of(T a, T b, T c) => (a & b) | (c & (a | b));
        }

        private readonly struct MajorityNot : IGate
        {
            public static T Of(T a, T b, T c) => (b & c) | (~a & (b | c));
        }

        private readonly struct Choose : IGate
        {
            public static T Of(T a, T b, T c) => (a & b) | (~a & c);
        }

        private readonly struct ChooseNot : IGate
        {
            public static T Of(T a, T b, T c) => (a & ~b) | (~a & c);
        }

        private readonly struct OrDiffer : IGate
        {
            public static T Of(T a, T b, T c) => a | (b ^ c);
        }

        private readonly struct AndDiffer : IGate
        {
            public static T Of(T a, T b, T c) => a & (b ^ c);
        }

        private readonly struct AndSame : IGate
        {
            public static T Of(T a, T b, T c) => a & ~(b ^ c);
        }

        private readonly struct NotAndDiffer : IGate
        {
            public static T Of(T a, T b, T c) => ~a & (b ^ c);
        }

        private readonly struct XorAnd : IGate
        {
            public static T Of(T a, T b, T c) => a ^ (b & c);
        }

        private readonly struct XorAndNot : IGate
        {
            public static T Of(T a, T b, T c) => a ^ (b & ~c);
        }

        private readonly struct And3 : IGate
        {
            public static T Of(T a, T b, T c) => a & b & c;
        }

        private readonly struct Or3 : IGate
        {
            public static T Of(T a, T b, T c) => a | b | c;
        }
    }

    /// <summary>A vector of one width.</summary>
    private interface IWide<T>
        where T : struct, IWide<T>
    {
        static abstract int Words { get; }
        static abstract T Zeros { get; }
        static abstract T Load(ref ulong from, nuint offset);
        static abstract void Store(T value, ref ulong to, nuint offset);

        static abstract T operator &(T a, T b);

        static abstract T operator |(T a, T b);

        static abstract T operator ^(T a, T b);

        static abstract T operator ~(T a);
    }

    private readonly struct Wide512(Vector512<ulong> v) : IWide<Wide512>
    {
        private readonly Vector512<ulong> v = v;
        public static int Words => 8;
        public static Wide512 Zeros => new(Vector512<ulong>.Zero);

        public static Wide512 Load(ref ulong from, nuint offset) => new(Vector512.LoadUnsafe(ref from, offset));

        public static void Store(Wide512 value, ref ulong to, nuint offset) => value.v.StoreUnsafe(ref to, offset);

        public static Wide512 operator &(Wide512 a, Wide512 b) => new(a.v & b.v);

        public static Wide512 operator |(Wide512 a, Wide512 b) => new(a.v | b.v);

        public static Wide512 operator ^(Wide512 a, Wide512 b) => new(a.v ^ b.v);

        public static Wide512 operator ~(Wide512 a) => new(~a.v);
    }

    private readonly struct Wide256(Vector256<ulong> v) : IWide<Wide256>
    {
        private readonly Vector256<ulong> v = v;
        public static int Words => 4;
        public static Wide256 Zeros => new(Vector256<ulong>.Zero);

        public static Wide256 Load(ref ulong from, nuint offset) => new(Vector256.LoadUnsafe(ref from, offset));

        public static void Store(Wide256 value, ref ulong to, nuint offset) => value.v.StoreUnsafe(ref to, offset);

        public static Wide256 operator &(Wide256 a, Wide256 b) => new(a.v & b.v);

        public static Wide256 operator |(Wide256 a, Wide256 b) => new(a.v | b.v);

        public static Wide256 operator ^(Wide256 a, Wide256 b) => new(a.v ^ b.v);

        public static Wide256 operator ~(Wide256 a) => new(~a.v);
    }

    private readonly struct Wide128(Vector128<ulong> v) : IWide<Wide128>
    {
        private readonly Vector128<ulong> v = v;
        public static int Words => 2;
        public static Wide128 Zeros => new(Vector128<ulong>.Zero);

        public static Wide128 Load(ref ulong from, nuint offset) => new(Vector128.LoadUnsafe(ref from, offset));

        public static void Store(Wide128 value, ref ulong to, nuint offset) => value.v.StoreUnsafe(ref to, offset);

        public static Wide128 operator &(Wide128 a, Wide128 b) => new(a.v & b.v);

        public static Wide128 operator |(Wide128 a, Wide128 b) => new(a.v | b.v);

        public static Wide128 operator ^(Wide128 a, Wide128 b) => new(a.v ^ b.v);

        public static Wide128 operator ~(Wide128 a) => new(~a.v);
    }

    private readonly struct Wide64(ulong v) : IWide<Wide64>
    {
        private readonly ulong v = v;
        public static int Words => 1;
        public static Wide64 Zeros => new(0);

        public static Wide64 Load(ref ulong from, nuint offset) => new(Unsafe.Add(ref from, offset));

        public static void Store(Wide64 value, ref ulong to, nuint offset) => Unsafe.Add(ref to, offset) = value.v;

        public static Wide64 operator &(Wide64 a, Wide64 b) => new(a.v & b.v);

        public static Wide64 operator |(Wide64 a, Wide64 b) => new(a.v | b.v);

        public static Wide64 operator ^(Wide64 a, Wide64 b) => new(a.v ^ b.v);

        public static Wide64 operator ~(Wide64 a) => new(~a.v);
    }
}
