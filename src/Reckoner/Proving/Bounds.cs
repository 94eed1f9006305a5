using Reckoner.Numbers;

namespace Reckoner.Proving;

/// <summary>
/// Bounds of forms by other numbers: powers of 2, multiples of an operand, of a piece of the state, small constants. Those are kept
/// that hold in every state that was met and are nearly reached in at least half of the widths and rounds.
/// </summary>
internal sealed class Bounds
{
    private const int MostStates = 3000;
    private static readonly int[] Near = [-1, 0, 1];
    private static readonly int[] Multiples = [1, 2];
    private static readonly int[] Signs = [1, -1];

    private sealed record Limit(Form Form, double[] Values);

    private sealed record Family(int? Variable, bool IsOfState, IReadOnlyList<Limit> Limits);

    private readonly List<Instance> states;
    private readonly int[] groups;
    private readonly int groupCount;
    private readonly List<Family> families = [];
    private readonly HashSet<Family> constants = [];
    private readonly HashSet<int> unsignedPieces;

    /// <param name="operands">Numbers without sign of which multiples are bounds.</param>
    /// <param name="pieces">Pieces without sign that are more than a bit.</param>
    /// <param name="withRounds">Whether powers may depend on the rounds done.</param>
    public Bounds(States all, IReadOnlyList<int> operands, IReadOnlyList<int> pieces, bool withRounds)
    {
        states = [.. all.All];
        if (states.Count > MostStates)
        {
            states = [.. new Generator(5).Drawn(states, MostStates)];
        }
        var numbers = new Dictionary<Group, int>();
        groups =
        [
            .. states.Select(s =>
                numbers.TryGetValue(new(s.N, s.I), out var g) ? g : numbers[new(s.N, s.I)] = numbers.Count
            ),
        ];
        groupCount = numbers.Count;
        unsignedPieces = [.. pieces];
        Extent[] slopes = withRounds ? [0, new(0, 1, 0), new(1, 0, 0), new(1, -1, 0), new(1, 1, 0)] : [0, new(1, 0, 0)];
        var powers = slopes.SelectMany(s => Near.Select(c => s + c)).ToList();
        var halves = slopes.Where(s => !s.IsConstant).Select(s => Form.Power(s) - Form.One);
        Add(
            null,
            powers
                .SelectMany(p => new[] { Form.Power(p), Form.Power(p) - Form.One })
                .Concat(halves.Select(h => h.Times(Rational.Ratio(1, 2))))
        );
        Add(null, [Form.Zero, -1, 1], isConstant: true);
        foreach (var operand in operands)
        {
            Add(
                operand,
                powers.SelectMany(p =>
                    new[] { Form.Power(p), Form.Power(p) }.Select((f, k) => f * Form.Variable(operand) - Form.Of(k))
                )
            );
        }
        foreach (var piece in pieces)
        {
            Add(
                piece,
                Multiples.SelectMany(c => Near.Select(k => Form.Variable(piece).Times(c) - Form.Of(k))),
                isOfState: true
            );
        }
    }

    private void Add(int? variable, IEnumerable<Form> forms, bool isConstant = false, bool isOfState = false)
    {
        var family = new Family(variable, isOfState, [.. forms.Select(f => new Limit(f, Values(f)))]);
        families.Add(family);
        if (isConstant)
        {
            constants.Add(family);
        }
    }

    private double[] Values(Form form) => [.. states.Select(form.At)];

    /// <summary>Limit - form, for every limit that stays; the form negated too.</summary>
    public IEnumerable<Form> Of(Form form)
    {
        var values = Values(form);
        var own = form.Variables.ToHashSet();
        var isPiece = form.Parts.Count == 1 && own.Count == 1 && unsignedPieces.Contains(own.First());
        foreach (var sign in Signs)
        {
            var signed = sign > 0 ? values : [.. values.Select(v => -v)];
            foreach (var family in families)
            {
                if (family.Variable is { } variable && own.Contains(variable))
                {
                    continue;
                }
                if (
                    sign < 0
                    && (
                        (isPiece && !constants.Contains(family))
                        || (family.IsOfState && (isPiece || form.Parts.Count > 1))
                    )
                )
                {
                    continue;
                }
                var kept = family
                    .Limits.Where(l => Bounds.Holds(signed, l) && IsNear(signed, l, constants.Contains(family)))
                    .ToList();
                foreach (var limit in kept.Where(l => !kept.Exists(other => IsBelow(other, l))).Take(2))
                {
                    yield return limit.Form - form.Times(sign);
                }
            }
        }
    }

    private static bool Holds(double[] values, Limit limit)
    {
        for (var s = 0; s < values.Length; s++)
        {
            if (values[s] > limit.Values[s] + 1e-9)
            {
                return false;
            }
        }
        return true;
    }

    private bool IsNear(double[] values, Limit limit, bool isConstant)
    {
        var isGroupNear = new bool[groupCount];
        for (var s = 0; s < values.Length; s++)
        {
            var (gap, size) = (limit.Values[s] - values[s], Math.Abs(limit.Values[s]));
            isGroupNear[groups[s]] |= isConstant
                ? gap < 0.5
                : gap <= Math.Max(1, 0.2 * size) && (size > 1 || gap <= 0.5);
        }
        return isGroupNear.Count(n => n) * 2 >= groupCount;
    }

    /// <summary>Whether a limit is nowhere above another and somewhere below it.</summary>
    private static bool IsBelow(Limit limit, Limit other)
    {
        var isBelow = false;
        for (var s = 0; s < limit.Values.Length; s++)
        {
            if (limit.Values[s] > other.Values[s])
            {
                return false;
            }
            isBelow |= limit.Values[s] < other.Values[s];
        }
        return isBelow;
    }
}
