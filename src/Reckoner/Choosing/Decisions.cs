using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Timelines;

namespace Reckoner.Choosing;

/// <summary>A cycle in which something is decided: literals for whether it is met there, and whether it is so.</summary>
/// <param name="Edge">The clock edge's place in the timeline.</param>
internal sealed record Asking(int Edge, int Met, int Yes);

/// <summary>Something that is decided in some cycles, by the text it is known by: a condition, an arm of a choice, a named bit.</summary>
internal sealed record Decision(string Text, IReadOnlyList<Asking> Askings);

/// <summary>A decision as it is shown, with the outcomes it can have: yes alone where the other is no, or the arms of a choice.</summary>
/// <param name="Labels">Null for yes and no.</param>
internal sealed record ShownDecision(string Text, IReadOnlyList<string>? Labels, IReadOnlyList<Decision> Outcomes);

/// <summary>
/// Everything that a machine decides, over all its cycles, and the names it may be called by. "not" before a name is the other
/// outcome; a decision that occurs in several lines is one.
/// </summary>
internal sealed class Decisions
{
    private readonly GateGraph graph;
    private readonly Timeline timeline;
    private readonly Planes planes;
    private readonly Dictionary<string, Occasion> known = [];
    private readonly List<ShownDecision> shown = [];

    public Decisions(GateGraph graph, Timeline timeline, Planes planes)
    {
        this.graph = graph;
        this.timeline = timeline;
        this.planes = planes;
        Active = [.. timeline.Edges.Select(e => planes[e.Active][0])];
        var outcomes = timeline.Edges.SelectMany((e, i) => e.Outcomes.Select(o => (Edge: i, Outcome: o))).ToList();
        foreach (var same in outcomes.GroupBy(o => o.Outcome.Arm?.Subject ?? o.Outcome.Text))
        {
            AddShown(same.Key, [.. same]);
        }
        foreach (
            var same in timeline
                .Edges.SelectMany((e, i) => e.Named.Select(n => (Edge: i, Named: n)))
                .Where(n => n.Named.Wire.Value.Width == 1)
                .GroupBy(n => n.Named.Wire.Name)
        )
        {
            Know(new Decision(same.Key, Askings(same.Select(n => (n.Edge, n.Named.Path, n.Named.Word)))));
        }
    }

    /// <summary>For every clock edge whether it takes place.</summary>
    public IReadOnlyList<int> Active { get; }

    public IReadOnlyList<ShownDecision> Shown => shown;

    /// <summary>What may be named in a condition, for who misspells it.</summary>
    public IEnumerable<string> Names => known.Values.Select(o => o.Decision.Text).Distinct();

    /// <summary>The other outcome, as a condition would name it.</summary>
    public static string Turned(string text) =>
        text.StartsWith("not ", StringComparison.Ordinal) ? text["not ".Length..]
        : text.Contains(' ', StringComparison.Ordinal) ? $"not ({text})"
        : $"not {text}";

    private void AddShown(string text, List<(int Edge, Outcome Outcome)> outcomes)
    {
        if (outcomes.Exists(o => o.Outcome.Arm is not null))
        {
            var arms = outcomes
                .Where(o => o.Outcome.Arm is not null)
                .GroupBy(o => o.Outcome.Arm!.Value.Label)
                .Select(g => (Label: g.Key, Decision: Decided($"{text} = {g.Key}", g)))
                .ToList();
            shown.Add(new ShownDecision(text, [.. arms.Select(a => a.Label)], [.. arms.Select(a => a.Decision)]));
        }
        var branches = outcomes.Where(o => o.Outcome.Arm is null).ToList();
        if (branches.Count > 0)
        {
            shown.Add(new ShownDecision(text, null, [Decided(text, branches)]));
        }
    }

    private Decision Decided(string text, IEnumerable<(int Edge, Outcome Outcome)> outcomes)
    {
        var decision = new Decision(text, Askings(outcomes.Select(o => (o.Edge, o.Outcome.Path, o.Outcome.Word))));
        Know(decision);
        return decision;
    }

    /// <summary>What is met several times in one cycle is so there when it once is.</summary>
    private List<Asking> Askings(IEnumerable<(int Edge, int Path, int Word)> words) =>
        [
            .. words
                .GroupBy(w => w.Edge)
                .OrderBy(g => g.Key)
                .Select(g => new Asking(
                    g.Key,
                    Any(g.Select(w => graph.And(Active[g.Key], planes[w.Path][0]))),
                    Any(g.Select(w => graph.And(Active[g.Key], graph.And(planes[w.Path][0], planes[w.Word][0]))))
                )),
        ];

    private int Any(IEnumerable<int> literals) => literals.Aggregate(GateGraph.Zero, graph.Or);

    private void Know(Decision decision)
    {
        var (bare, isTurned) = Bare(Tokens(decision.Text));
        known.TryAdd(Key(bare), new Occasion(decision, isTurned));
    }

    private static List<Token> Tokens(string text) =>
        [
            .. Lexer
                .Read(new Source("", text), new Report(null))
                .Tokens.Where(t => t.Kind is not (TokenKind.LineEnd or TokenKind.End)),
        ];

    /// <summary>What words of a condition name, or null. "not" in front turns it.</summary>
    public Occasion? Find(IReadOnlyList<Token> tokens)
    {
        var (bare, isTurned) = Bare(tokens);
        if (known.TryGetValue(Key(bare), out var found))
        {
            return found with { IsTurned = found.IsTurned != isTurned };
        }
        return Named(bare) is { } named ? new Occasion(named, isTurned) : null;
    }

    /// <summary>The words without brackets around all of them and "not" before all of them, and whether that turns them.</summary>
    private static (IReadOnlyList<Token> Bare, bool IsTurned) Bare(IReadOnlyList<Token> tokens)
    {
        var (from, to, isTurned) = (0, tokens.Count, false);
        if (tokens is [{ Kind: TokenKind.Quote } quoted])
        {
            return Bare(Tokens(quoted.Text));
        }
        while (to - from > 1)
        {
            if (tokens[from].Is("not") && !HasJoint(tokens, from + 1, to))
            {
                (from, isTurned) = (from + 1, !isTurned);
            }
            else if (tokens[from].Is("(") && ConditionParser.Closing(tokens, from) == to - 1)
            {
                (from, to) = (from + 1, to - 1);
            }
            else
            {
                break;
            }
        }
        return ([.. tokens.Skip(from).Take(to - from)], isTurned);
    }

    private static string Key(IEnumerable<Token> tokens) => string.Join(' ', tokens.Select(t => t.Text));

    private static bool HasJoint(IReadOnlyList<Token> tokens, int from, int to)
    {
        for (var i = from; i < to; i++)
        {
            if (tokens[i].Is("("))
            {
                i = ConditionParser.Closing(tokens, i);
            }
            else if (tokens[i] is { Kind: TokenKind.Keyword, Text: "and" or "or" or "xor" or "when" })
            {
                return true;
            }
        }
        return false;
    }

    /// <summary>A wider named value beside a number: q = -1.</summary>
    private Decision? Named(IReadOnlyList<Token> tokens)
    {
        if (
            tokens.Count is not (3 or 4)
            || Relation(tokens[1]) is not { } relation
            || Number([.. tokens.Skip(2)]) is not { } number
        )
        {
            return null;
        }
        var words = timeline
            .Edges.SelectMany((e, i) => e.Named.Select(n => (Edge: i, Named: n)))
            .Where(n => n.Named.Wire.Name == tokens[0].Text)
            .ToList();
        if (words.Count == 0)
        {
            return null;
        }
        var askings = words
            .GroupBy(w => w.Edge)
            .Select(g =>
            {
                var met = g.Select(w => graph.And(Active[g.Key], planes[w.Named.Path][0])).ToList();
                var yes = g.Zip(met, (w, m) => graph.And(m, Compared(w.Named, relation, number)));
                return new Asking(g.Key, Any(met), Any(yes));
            });
        return new Decision(Key(tokens), [.. askings]);
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

    private int Compared(NamedWord named, Relation relation, BigInteger number)
    {
        var isSigned = named.Wire.Value.Reading == Reading.Signed;
        var width = Math.Max(named.Wire.Value.Width + 1, Bits.Needed(number, isSigned: true) + 1);
        var bits = planes[named.Word];
        int[] a = isSigned
            ? Planes.Extended(bits, width)
            : [.. bits, .. Enumerable.Repeat(GateGraph.Zero, width - bits.Length)];
        var b = Planes.Constant(Bits.Wrap(number, width), width);
        var differ = Planes.Differ(graph, a, b);
        a[^1] = GateGraph.Not(a[^1]);
        b[^1] = GateGraph.Not(b[^1]);
        var less = Planes.Difference(graph, a, b).Borrow;
        return relation switch
        {
            Numbers.Relation.Equal => GateGraph.Not(differ),
            Numbers.Relation.Unequal => differ,
            Numbers.Relation.Less => less,
            Numbers.Relation.LessOrEqual => graph.Or(less, GateGraph.Not(differ)),
            Numbers.Relation.Greater => graph.And(GateGraph.Not(less), differ),
            Numbers.Relation.GreaterOrEqual => GateGraph.Not(less),
        };
    }
}
