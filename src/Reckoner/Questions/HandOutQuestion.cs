using System.Numerics;
using Reckoner.Choosing;

namespace Reckoner.Questions;

/// <summary>
/// Operands of equal difficulty for each student of a list, from a secret. The same question gives the same answer; a student added
/// at the end changes nobody else's, nor does one added anywhere if what was handed out <see cref="Earlier"/> is given.
/// </summary>
/// <param name="Students">
/// Their identifiers, each once, in the order of the list: those who stand beside each other there get different operands.
/// </param>
/// <param name="Secret">Who has it can tell everybody's operands; who has not, nobody's. 16 bytes or more.</param>
public sealed record HandOutQuestion(AskedMachine Machine, IReadOnlyList<string> Students, ReadOnlyMemory<byte> Secret)
{
    /// <summary>Bytes of a secret at least; fewer could be tried one and all.</summary>
    public const int LeastSecret = 16;

    /// <exception cref="ArgumentException">A student comes twice.</exception>
    public IReadOnlyList<string> Students
    {
        get;
        init => field = EachOnce(value);
    } = EachOnce(Students);

    /// <exception cref="ArgumentException">It is too short.</exception>
    public ReadOnlyMemory<byte> Secret
    {
        get;
        init => field = LongEnough(value);
    } = LongEnough(Secret);

    private static IReadOnlyList<string> EachOnce(IReadOnlyList<string> students) =>
        students.Distinct(StringComparer.Ordinal).Count() == students.Count
            ? students
            : throw new ArgumentException("a student comes twice", nameof(students));

    private static ReadOnlyMemory<byte> LongEnough(ReadOnlyMemory<byte> secret) =>
        secret.Length >= LeastSecret
            ? secret
            : throw new ArgumentException($"a secret has {LeastSecret} bytes at least", nameof(secret));

    /// <summary>What they are for; other operands are drawn for another purpose, such as the second question of a sheet.</summary>
    public string Purpose { get; init; } = "";

    /// <summary>A condition on walks, such as "quotient = 0"; null for operands in general.</summary>
    public string? Showing { get; init; }

    public EqualAllowed Allowed { get; init; } = EqualAllowed.Nothing;

    /// <summary>By identifier the operands' bits that were handed out before and stay as they are.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<BigInteger>> Earlier { get; init; } =
        new Dictionary<string, IReadOnlyList<BigInteger>>();

    /// <summary>Operands' bits that nobody is to get: those of a first draw, when a second one is equally hard.</summary>
    public IReadOnlyList<IReadOnlyList<BigInteger>> Avoid { get; init; } = [];

    /// <summary>
    /// By identifier operands' bits that a student has elsewhere, such as in another question of a sheet: those come again only where
    /// nothing else is left.
    /// </summary>
    public IReadOnlyDictionary<string, IReadOnlyList<IReadOnlyList<BigInteger>>> Own { get; init; } =
        new Dictionary<string, IReadOnlyList<IReadOnlyList<BigInteger>>>();

    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public Answer<HandedOut> Ask(Means means)
    {
        var question = new OperandsQuestion(Machine, ChosenFor.EqualDifficulty) { Showing = Showing };
        return Bounded.Ask(found =>
            question.Among(means, found) is var (condition, candidates) ? Handed(candidates, condition) : null
        );
    }

    private HandedOut Handed(Candidates candidates, string? condition)
    {
        var classes = new EqualDifficulty(candidates, Allowed);
        var draw = new HandOut(classes, Allowed, Secret.ToArray(), Purpose);
        var handed = draw.Of(
            Students,
            Earlier,
            Avoid,
            Own.SelectMany(o => o.Value, (o, bits) => (o.Key, Bits: bits)).ToLookup(o => o.Key, o => o.Bits)
        );
        return new HandedOut(candidates, condition, classes.Largest, draw.Left, handed)
        {
            Ways = () => classes.Ways(classes.Largest, Students.Count + Avoid.Count),
        };
    }
}

/// <summary>Operands handed to students.</summary>
/// <param name="Candidates">Those that they were chosen from.</param>
/// <param name="Condition">What they show, as it was asked; null for nothing particular.</param>
/// <param name="Class">The class that most are of: the largest. Null where there is none without a shortcut.</param>
/// <param name="Left">How many different operands of it these students have or could get.</param>
/// <param name="Students">In the order of the list; null where there are too few for them.</param>
public sealed record HandedOut(
    Candidates Candidates,
    string? Condition,
    EqualClass? Class,
    int Left,
    IReadOnlyList<HandedOperands>? Students
)
{
    /// <summary>Ways on where there are too few; found when it is asked.</summary>
    public Func<EqualWays> Ways { get; init; } = () => new EqualWays(null, null, null);
}
