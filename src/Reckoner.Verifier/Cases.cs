using System.Text.Json;

namespace Reckoner.Verifier;

/// <summary>A node of a certificate's tree of cases: the ways of a question, or what is shown at the end of a path.</summary>
internal sealed class Cases(JsonElement node)
{
    private JsonElement Ways =>
        Certificate.Find(node, "ways") is { ValueKind: JsonValueKind.Array } ways
            ? ways
            : throw new RefusedException(Refusal.CasesDiffer, "ways");

    public void MustAsk(int ways)
    {
        if (Ways.GetArrayLength() != ways)
        {
            throw new RefusedException(Refusal.CasesDiffer, "ways");
        }
    }

    /// <summary>The sum that refutes a way; null where the path goes on.</summary>
    public Sum? Refuted(int way) => Certificate.Find(Ways[way], "no") is { } sum ? Sum.Read(sum) : null;

    public Cases Next(int way) =>
        Certificate.Find(Ways[way], "go") is { } next
            ? new(next)
            : throw new RefusedException(Refusal.CasesDiffer, "go");

    /// <summary>For each goal its parts: a scale and a sum, one for each side of 0 that it must not be on.</summary>
    public IReadOnlyList<IReadOnlyList<(Poly Scale, Sum Sum)>> Shown =>
        Certificate.Find(node, "end") is { ValueKind: JsonValueKind.Array } end
            ?
            [
                .. end.EnumerateArray()
                    .Select(goal =>
                        Certificate
                            .List(goal)
                            .Select(p => (Certificate.Poly(Certificate.At(p, 0)), Sum.Read(Certificate.At(p, 1))))
                            .ToList()
                    ),
            ]
            : throw new RefusedException(Refusal.CasesDiffer, "end");
}

/// <summary>Facts multiplied with factors; added up they must give -1, so that not all of them can be so.</summary>
internal sealed class Sum
{
    /// <summary>A factor and the facts multiplied with it.</summary>
    private const int MostFacts = 16;

    private readonly List<(Poly Factor, IReadOnlyList<int> Facts)> addends = [];

    public static Sum Read(JsonElement sum)
    {
        var read = new Sum();
        foreach (var addend in Certificate.List(sum))
        {
            var facts = Certificate.AtMost(MostFacts, Certificate.List(addend)).Skip(1).Select(Certificate.Number);
            read.addends.Add((Certificate.Poly(Certificate.At(addend, 0)), [.. facts]));
        }
        return read;
    }

    /// <summary>
    /// An equation times anything is 0. Facts that are 0 or more stay so when they are multiplied with each other, with a number
    /// above 0 and with a power.
    /// </summary>
    public void Check(IReadOnlyList<Fact> facts)
    {
        var total = Poly.Zero;
        foreach (var (factor, numbers) in addends)
        {
            if (numbers.Count == 0 || numbers.Any(f => f < 0 || f >= facts.Count))
            {
                throw new RefusedException(Refusal.WrongSum, "facts");
            }
            if (!factor.IsPositivePower && !(numbers.Count == 1 && facts[numbers[0]].IsEquation))
            {
                throw new RefusedException(Refusal.WrongSum, "factor");
            }
            total += numbers.Aggregate(factor, (product, f) => product * facts[f].Poly);
        }
        if (!(total + 1).IsZero)
        {
            throw new RefusedException(Refusal.WrongSum, "total");
        }
    }
}
