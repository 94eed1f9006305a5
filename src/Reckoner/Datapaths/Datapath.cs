using System.Numerics;
using Reckoner.Claims;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Datapaths;

/// <summary>A named cycle, in a round or outside. Its moments follow each other inside the cycle.</summary>
/// <param name="Number">Counted from 1 through the whole schedule; 0 is the load.</param>
public sealed record Step(
    int Number,
    string? Name,
    Phrase? Phrase,
    IReadOnlyList<IReadOnlyList<Act>> Moments,
    Source Source,
    int Line
)
{
    /// <summary>Where it is declared, with its names in other languages.</summary>
    public Declared? Declared { get; init; }

    /// <summary>Its name as it is shown in a language; null for a step without one.</summary>
    public string? In(string language) => Declared?.In(language) ?? Name;
}

/// <summary>A loop, or (with <see cref="Repeat"/> 0) a single step outside loops.</summary>
/// <param name="Repeat">The loop's number from 1.</param>
/// <param name="Count">Rounds; with a <see cref="While"/>, at most so many.</param>
/// <param name="While">Looked at before each round, on the registers as they then are.</param>
public sealed record Segment(int Repeat, int Count, Value? While, IReadOnlyList<Step> Steps, int Line)
{
    public bool IsLoop => Repeat > 0;

    /// <summary>Bits of the round counter in the control unit: 0 to Count must be told apart.</summary>
    public int CounterBits => IsLoop ? (int)new BigInteger(Count).GetBitLength() : 0;
}

/// <summary>A result: wiring on the registers after the last cycle.</summary>
public sealed record Result(string Name, Value Value)
{
    public int Width => Value.Width;

    /// <summary>Where it is declared, with its names in other languages.</summary>
    public Declared? Declared { get; init; }

    /// <summary>Its name as it is shown in a language.</summary>
    public string In(string language) => Declared?.In(language) ?? Name;

    /// <summary>The number it stands for, by its reading; bare bits count as unsigned.</summary>
    public BigInteger Number(BigInteger bits) => Value.Reading == Reading.Signed ? Bits.AsSigned(bits, Width) : bits;

    /// <summary>What formulas say of it.</summary>
    /// <param name="index">Its place among the results.</param>
    public Variable Variable(int index) =>
        new(VariableKind.Result, Name, index, Width, Value.Reading == Reading.Signed);
}

/// <summary>
/// The hardware of a machine at chosen widths, each step once: registers, units and what they are shared by, tables, and the
/// schedule with its control. Needs a description without errors; everything after it may rely on every width.
/// </summary>
public sealed class Datapath
{
    public required IMachine Machine { get; init; }

    /// <summary>The chosen widths and parameters, in the order of the text.</summary>
    public required IReadOnlyList<(string Name, BigInteger Value)> Widths { get; init; }

    /// <summary>Widths, parameters and constants: what formulas may name besides operands and results.</summary>
    public required IReadOnlyDictionary<string, Rational> Numbers { get; init; }

    public required IReadOnlyList<Operand> Operands { get; init; }
    public required IReadOnlyList<Register> Registers { get; init; }

    /// <summary>What registers stand for in a walk; no hardware comes of them.</summary>
    public IReadOnlyList<Meaning> Meanings { get; init; } = [];
    public required IReadOnlyList<Unit> Units { get; init; }
    public required IReadOnlyList<Table> Tables { get; init; }
    public required IReadOnlyList<Segment> Schedule { get; init; }
    public required IReadOnlyList<Result> Results { get; init; }

    /// <summary>What was remarked while it was bound, in the order of the text; nothing of it stops anything.</summary>
    public IReadOnlyList<Diagnostic> Remarks { get; internal set; } = [];

    /// <summary>What "given" says; all of it must hold.</summary>
    public required IReadOnlyList<Claim> Given { get; init; }
    public required IReadOnlyList<Claim> Laws { get; init; }
    public required IReadOnlyList<Claim> Outside { get; init; }

    /// <summary>Operands and results: what formulas are about.</summary>
    public IEnumerable<Variable> Variables =>
        Operands.Select(o => o.Variable).Concat(Results.Select((r, i) => r.Variable(i)));

    /// <summary>Whether operands (bits, in the order of the text) lie inside "given".</summary>
    public bool IsGiven(IReadOnlyList<BigInteger> operands) => NotGiven(operands) is null;

    /// <summary>The first claim of "given" that operands do not satisfy; null for none.</summary>
    public Claim? NotGiven(IReadOnlyList<BigInteger> operands) =>
        Given.FirstOrDefault(g => !ClaimJudge.Holds(g, operands, []));

    public IEnumerable<Step> Steps => Schedule.SelectMany(s => s.Steps);

    /// <summary>Clock edges after the load, at most.</summary>
    public int MostCycles => Schedule.Sum(s => s.Count * s.Steps.Count);

    /// <summary>Clock edges after the load, at least by the bounds of the loops.</summary>
    internal int LeastCycles => Schedule.Where(s => s.While is null).Sum(s => s.Count * s.Steps.Count);

    /// <summary>Bits of all round counters of the control unit; loops run one after another and share the longest.</summary>
    internal int RoundBits => Schedule.Select(s => s.CounterBits).DefaultIfEmpty(0).Max();

    /// <summary>The moments of all of them.</summary>
    internal long Moments => Schedule.Sum(s => (long)s.Count * s.Steps.Sum(step => step.Moments.Count));

    /// <summary>Fewer cycles are possible when a loop may stop early.</summary>
    public bool MayStopEarly => Schedule.Any(s => s.While is not null);
}
