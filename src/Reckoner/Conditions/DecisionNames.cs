using System.Numerics;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Timelines;

namespace Reckoner.Conditions;

/// <summary>A place where something is decided: the bit that says whether it is met, and the word that decides it.</summary>
/// <param name="Edge">The clock edge's place in the timeline.</param>
/// <param name="IsTurned">Whether it is so where the bit is 0.</param>
internal sealed record DecisionPlace(int Edge, int Path, int Word, bool IsTurned)
{
    /// <summary>Of a named value that is compared with a number: how; of a bit null.</summary>
    public (Relation Relation, BigInteger Number)? Compared { get; init; }

    /// <summary>How that named value is read.</summary>
    public bool IsSigned { get; init; }
}

/// <summary>Something that is decided in some cycles, with all places where it is; one that occurs in several lines is one.</summary>
internal sealed record KnownOccasion(Occasion Outcome, IReadOnlyList<DecisionPlace> Places);

/// <summary>
/// What a machine decides, over all its cycles, by the names that conditions may use: conditions and arms of choices as they are
/// written, bits that have a name, and named values beside a number.
/// </summary>
internal sealed class DecisionNames
{
    private readonly Timeline timeline;
    private readonly Dictionary<string, KnownOccasion> known = [];

    public DecisionNames(Timeline timeline)
    {
        this.timeline = timeline;
        var outcomes = timeline.Edges.SelectMany(
            (e, i) =>
                e.Outcomes.Select(o =>
                    (Occasion.Of(o.Text), new DecisionPlace(i, o.Path, o.Word, Occasion.Of(o.Text).IsTurned))
                )
        );
        Know(outcomes);
        Know(
            timeline
                .Edges.SelectMany((e, i) => e.Named.Select(n => (Edge: i, Named: n)))
                .Where(n => n.Named.Wire.Value.Width == 1)
                .Select(n =>
                    (
                        new Occasion(n.Named.Wire.Name, false),
                        new DecisionPlace(n.Edge, n.Named.Path, n.Named.Word, false)
                    )
                )
        );
    }

    private void Know(IEnumerable<(Occasion Occasion, DecisionPlace Place)> places)
    {
        foreach (var same in places.GroupBy(p => Key(p.Occasion)).Where(g => !known.ContainsKey(g.Key)).ToList())
        {
            known.Add(same.Key, new KnownOccasion(same.First().Occasion, [.. same.Select(s => s.Place)]));
        }
    }

    private static string Key(Occasion occasion) =>
        string.Join(' ', Occasion.Tokens(occasion.Text).Select(t => t.Text));

    /// <summary>Everything that is decided, each as it is first written.</summary>
    public IEnumerable<KnownOccasion> All => known.Values;

    /// <summary>What may be named in a condition, for who misspells it.</summary>
    public IEnumerable<string> Names => known.Values.Select(d => $"{d.Outcome}").Distinct();

    /// <summary>What an occasion is about, or null for nothing that this machine decides. "Turned" stays what it is.</summary>
    public KnownOccasion? Find(Occasion occasion) =>
        known.TryGetValue(Key(occasion), out var found) ? found : Compared(Occasion.Tokens(occasion.Text));

    /// <summary>The occasion as this machine writes it; null where it decides no such thing.</summary>
    public Occasion? Known(Occasion occasion) =>
        Find(occasion) is { } found ? occasion with { Text = found.Outcome.Text } : null;

    /// <summary>A wider named value beside a number: q = -1.</summary>
    private KnownOccasion? Compared(List<Token> tokens)
    {
        if (
            tokens.Count is not (3 or 4)
            || Relation(tokens[1]) is not { } relation
            || Number([.. tokens.Skip(2)]) is not { } number
        )
        {
            return null;
        }
        var places = timeline
            .Edges.SelectMany((e, i) => e.Named.Select(n => (Edge: i, Named: n)))
            .Where(n => n.Named.Wire.Name == tokens[0].Text)
            .Select(n => new DecisionPlace(n.Edge, n.Named.Path, n.Named.Word, false)
            {
                Compared = (relation, number),
                IsSigned = n.Named.Wire.Value.Reading == Datapaths.Reading.Signed,
            })
            .ToList();
        var text = $"{tokens[0].Text} {tokens[1].Text} {string.Concat(tokens.Skip(2).Select(t => t.Text))}";
        return places.Count == 0 ? null : new KnownOccasion(new Occasion(text, false), places);
    }

    /// <summary>relation = "=" | "&lt;&gt;" | "&lt;" | "&lt;=" | "&gt;" | "&gt;=" ;</summary>
    private static Relation? Relation(Token token) =>
        token.Text switch
        {
            "=" => Numbers.Relation.Equal,
            "<>" => Numbers.Relation.Unequal,
            "<" => Numbers.Relation.Less,
            "<=" => Numbers.Relation.LessOrEqual,
            ">" => Numbers.Relation.Greater,
            ">=" => Numbers.Relation.GreaterOrEqual,
            _ => null,
        };

    private BigInteger? Number(IReadOnlyList<Token> tokens) =>
        tokens switch
        {
            [{ Text: "-" }, var number] => -Number(number),
            [var number] => Number(number),
            _ => null,
        };

    private BigInteger? Number(Token token) =>
        token.Kind == TokenKind.Number ? new NumberLiteral(token.Span, token.Text).Number
        : timeline.Datapath.Numbers.TryGetValue(token.Text, out var known) && known.IsWhole ? known.Numerator
        : null;
}
