using System.Runtime.Intrinsics;
using Reckoner.Checking;

namespace Reckoner.Engines;

/// <summary>What became of the wish for vectors of a width.</summary>
public enum VectorWish
{
    /// <summary>Granted, or nothing was asked.</summary>
    Granted,

    /// <summary>What was asked is none of the widths.</summary>
    NoWidth,

    /// <summary>A width that this machine lacks.</summary>
    NotHere,
}

/// <summary>The engine for this machine; null when what was asked cannot be had: nothing else is taken instead.</summary>
/// <param name="Asked">The words of the wish, if there was one.</param>
public sealed record EngineChoice(IPlaneEngine? Engine, VectorWish Wish, string? Asked)
{
    /// <summary>The environment variable that chooses a width, so that all can be measured on one machine.</summary>
    public const string Variable = "RECKONER_VECTORS";

    /// <summary>All widths, the widest first. 64 means plain words.</summary>
    public static readonly IReadOnlyList<int> Widths = [512, 256, 128, 64];

    /// <summary>Below so many gates times steps, making code takes longer than doing without.</summary>
    private const long WorthEmitting = 1 << 22;

    /// <summary>Code of more gates takes minutes to be made, and in the end does not fit.</summary>
    private const int MostEmitted = 1 << 19;

    public static EngineChoice Widest => Of(Environment.GetEnvironmentVariable(Variable));

    /// <param name="asked">One of the widths, or nothing for the widest that is here.</param>
    public static EngineChoice Of(string? asked)
    {
        if (string.IsNullOrEmpty(asked))
        {
            return new EngineChoice(Made(Widths.First(IsHere)), VectorWish.Granted, null);
        }
        return !int.TryParse(asked, out var bits) || !Widths.Contains(bits)
                ? new EngineChoice(null, VectorWish.NoWidth, asked)
            : !IsHere(bits) ? new EngineChoice(null, VectorWish.NotHere, asked)
            : new EngineChoice(Made(bits), VectorWish.Granted, asked);
    }

    /// <summary>Whether this machine has vectors of a width.</summary>
    public static bool IsHere(int bits) =>
        bits switch
        {
            512 => EmittedEngine.IsHere(512) || Vector512.IsHardwareAccelerated,
            256 => Vector256.IsHardwareAccelerated,
            128 => Vector128.IsHardwareAccelerated,
            _ => bits == 64,
        };

    private static IPlaneEngine Made(int bits) =>
        EmittedEngine.IsHere(bits) ? new EmittedEngine(bits) : new InterpretedEngine(bits);

    /// <summary>The engine, or planes interpreted at its width where there is too little to do for code to pay, or too much code.</summary>
    public IPlaneEngine? For(PlaneProgram program, long steps) =>
        Engine is EmittedEngine emitted
        && (program.Instructions.Count is var gates && (steps * gates < WorthEmitting || gates > MostEmitted))
            ? new InterpretedEngine(emitted.Bits)
            : Engine;
}
