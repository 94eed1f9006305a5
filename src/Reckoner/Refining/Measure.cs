using Reckoner.Datapaths;
using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>By what versions are compared while they are sought.</summary>
/// <param name="Choices">How often the schedule chooses, as it is written: of two versions alike, the plainer has fewer.</param>
internal readonly record struct Measure(int RegisterBits, int AdderBits, int Cycles, int Choices)
{
    public static Measure Of(Datapath datapath, Draft draft) =>
        new(
            datapath.Registers.Sum(r => r.Width),
            datapath.Units.Where(u => u.Uses.Count > 0).Sum(u => u.Size.Count),
            datapath.MostCycles,
            draft.Steps.SelectMany(Statements.Of).Sum(Chooses)
        );

    private static int Chooses(Statement statement) =>
        (statement.Kind is StatementKind.If or StatementKind.Case or StatementKind.LetCase ? 1 : 0)
        + Statements.Values(statement).Sum(Chooses);

    private static int Chooses(Expression value) =>
        (value.Kind == ExpressionKind.Chosen ? 1 : 0) + value.Children.Sum(Chooses);

    private int Bits => RegisterBits + AdderBits;

    /// <summary>Whether nothing costs more, and something less.</summary>
    public bool IsBetterThan(Measure other) =>
        Bits <= other.Bits
        && Cycles <= other.Cycles
        && (Bits < other.Bits || Cycles < other.Cycles || Choices < other.Choices);
}
