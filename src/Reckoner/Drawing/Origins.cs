using Reckoner.Datapaths;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>What a colour stands for in a figure: an operand, a unit, a table, everything decided, or gates.</summary>
internal sealed record Origin(SourceKind Kind, object? Thing)
{
    /// <summary>What a bit's source is counted as; null for a constant, which has no colour.</summary>
    public static Origin? Of(BitSource source) =>
        source.Kind switch
        {
            SourceKind.Operand => new Origin(source.Kind, source.Operand),
            SourceKind.Unit => new Origin(source.Kind, source.Value!.Unit),
            SourceKind.Table => new Origin(source.Kind, source.Value!.Table),
            SourceKind.Decision or SourceKind.Gates => new Origin(source.Kind, null),
            SourceKind.Constant => null,
            SourceKind.Register => throw new ArgumentException("a register is no origin"),
        };
}

/// <summary>
/// Gives every origin of a walk its hue. Operands come first and take the hues that differ most; what is decided is always the
/// same one.
/// </summary>
internal sealed class Origins
{
    private const int Decided = 3;

    /// <summary>What is longer than this is not said in a legend.</summary>
    private const int MostLetters = 24;

    /// <summary>The hues that each kind prefers, then all others.</summary>
    private static readonly int[] ForOperands = [0, 1, 4, 6, 2, 5];
    private static readonly int[] ForUnits = [2, 5, 6, 4, 1, 0];

    private readonly List<(Origin Origin, int Hue)> hues = [];

    /// <summary>Of what bits come out of, since every bit of every row is asked for.</summary>
    private readonly Dictionary<object, int> known = new(ReferenceEqualityComparer.Instance);

    /// <param name="others">What is computed and not kept, where that is shown too.</param>
    public Origins(IEnumerable<ProvenanceRow> rows, IEnumerable<BitSource>? others = null)
    {
        var met = new HashSet<object>(ReferenceEqualityComparer.Instance);
        // Bits by the thousand come out of a few things.
        bool IsNew(BitSource source) => Thing(source) is not { } thing || met.Add(thing);
        var found = rows.SelectMany(r => r.Origins)
            .SelectMany(bits => bits)
            .Concat(others ?? [])
            .Where(IsNew)
            .Select(Origin.Of)
            .OfType<Origin>()
            .Distinct()
            .OrderBy(o => o.Kind)
            .ThenBy(o => Place(o.Thing));
        foreach (var origin in found)
        {
            hues.Add((origin, Hue(origin)));
        }
    }

    /// <summary>In the order of a legend.</summary>
    public IReadOnlyList<(Origin Origin, int Hue)> All => hues;

    public int Hue(BitSource source)
    {
        if (Thing(source) is not { } thing)
        {
            return Origin.Of(source) is { } origin ? Find(origin) : Role.Neutral;
        }
        if (!known.TryGetValue(thing, out var hue))
        {
            hue = Find(Origin.Of(source)!);
            known.Add(thing, hue);
        }
        return hue;
    }

    /// <summary>What an origin is called in a legend; two of one kind and name are told apart by what they do.</summary>
    public string Said(Origin origin, Vocabulary words) =>
        origin.Kind switch
        {
            SourceKind.Operand => words.Say(
                "figure.from-operand",
                ("name", ((Operand)origin.Thing!).In(words.Language))
            ),
            SourceKind.Unit => words.Say("figure.from-unit", ("name", Name((Unit)origin.Thing!, words))),
            SourceKind.Table => words.Say("figure.from-table", ("name", ((Table)origin.Thing!).Name)),
            SourceKind.Decision => words.Say("figure.from-decision"),
            SourceKind.Gates => words.Say("figure.from-gates"),
            SourceKind.Register or SourceKind.Constant => throw new InvalidOperationException($"{origin.Kind}"),
        };

    private string Name(Unit unit, Vocabulary words)
    {
        var alike = hues.Select(h => h.Origin.Thing)
            .OfType<Unit>()
            .Where(u => Kind(u, words) == Kind(unit, words))
            .ToList();
        if (alike.Count <= 1)
        {
            return Kind(unit, words);
        }
        var does = alike.Select(u => Does(u, words)).ToList();
        var own = Does(unit, words);
        return own.Length > 0 && own.Length <= MostLetters && does.Count(d => d == own) == 1
            ? words.Say("figure.unit-does", ("unit", Kind(unit, words)), ("what", own))
            : words.Say("figure.unit-number", ("unit", Kind(unit, words)), ("number", alike.IndexOf(unit) + 1));
    }

    private static string Kind(Unit unit, Vocabulary words) => unit.Name ?? UnitText.KindOf(unit, words);

    private static string Does(Unit unit, Vocabulary words) =>
        unit.Uses is [{ Value: { Written: not null } value }, ..] ? WrittenText.Of(value, words) : "";

    private int Find(Origin origin) => hues.Find(h => h.Origin == origin).Hue;

    /// <summary>Whatever was decided counts as one.</summary>
    private static object? Thing(BitSource source) =>
        source.Kind == SourceKind.Decision ? nameof(SourceKind.Decision) : source.Value ?? (object?)source.Operand;

    private int Hue(Origin origin)
    {
        if (origin.Kind == SourceKind.Decision)
        {
            return Decided;
        }
        var preferred = origin.Kind == SourceKind.Operand ? ForOperands : ForUnits;
        return preferred.FirstOrDefault(h => !hues.Exists(x => x.Hue == h), preferred[hues.Count % preferred.Length]);
    }

    private static int Place(object? of) =>
        of switch
        {
            Operand o => o.Index,
            Unit u => u.Number,
            _ => 0,
        };
}
