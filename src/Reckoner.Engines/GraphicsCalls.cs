using System.Runtime.InteropServices;

namespace Reckoner.Engines;

/// <summary>The forms of the calls of a driver's library. Each answers with a number, of which 0 is done.</summary>
internal static class GraphicsCalls
{
    public delegate int OfNumber(uint number);
    public delegate int NumberOut(out int number);
    public delegate int NumberOfNumber(out int number, int of);
    public delegate int AttributeOut(out int value, int which, int device);
    public delegate int NumberOfHandle(out int number, int which, nint of);
    public delegate int NameOut([Out] byte[] name, int length, int device);
    public delegate int HandleOfNumber(out nint handle, int of);
    public delegate int OfHandle(nint handle);
    public delegate int Nothing();
    public delegate int HandleOfBytes(out nint handle, byte[] bytes);
    public delegate int HandleOfName(out nint handle, nint of, byte[] name);
    public delegate int AddressOut(out ulong address, nuint bytes);
    public delegate int OfAddress(ulong address);
    public delegate int Filling(ulong address, byte value, nuint bytes);
    public delegate int Copying([Out] byte[] to, ulong from, nuint bytes);
    public delegate int Text(int error, out nint text);
    public delegate int Launching(
        nint function,
        uint blocks,
        uint blocksY,
        uint blocksZ,
        uint threads,
        uint threadsY,
        uint threadsZ,
        uint shared,
        nint stream,
        nint[] parameters,
        nint extra
    );
}
