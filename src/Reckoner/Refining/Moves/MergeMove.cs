using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Refining;

/// <summary>
/// A whole round told as one moment: every register gets at once what the round would leave in it. The steps of a round become one
/// cycle so, what is done and undone again is not done at all, and sums are seen to be narrower.
/// </summary>
internal sealed class MergeMove
{
    private readonly Draft draft;
    private readonly Composer composer;
    private readonly Dictionary<string, Length> widths;
    private readonly List<Statement> named = [];
    private readonly StepRewriting lets;

    private MergeMove(Workshop workshop, Draft draft)
    {
        this.draft = draft;
        composer = workshop.Plain(draft);
        widths = draft.Registers.ToDictionary(r => r.Name.Text, r => composer.Widths[r.Name.Text]);
        lets = new StepRewriting(composer, new Dictionary<string, Piece[]>());
    }

    public static IEnumerable<Candidate> Of(Workshop workshop, Draft draft)
    {
        if (draft.Loop is not { } loop || loop.Steps is [{ Moments.Count: 1 }])
        {
            yield break;
        }
        var merged = new MergeMove(workshop, draft).Merged(workshop, loop);
        IReadOnlyList<Reason> reasons =
            loop.Steps.Count > 1 ? [new Reason(ReasonKind.StepsMerged, ("count", loop.Steps.Count))] : [];
        yield return new Candidate(MoveKind.Merge, reasons, merged);
    }

    private Draft Merged(Workshop workshop, RepeatBlock loop)
    {
        var now = Beginning(workshop, loop);
        foreach (var moment in loop.Steps.SelectMany(s => s.Moments))
        {
            foreach (var (name, word) in now)
            {
                composer.Instead[name] = word;
            }
            var next = new Dictionary<string, Piece[]>(now);
            Block(moment.Statements, next, []);
            now = next;
        }
        composer.Instead.Clear();
        var stores = InOrder(now);
        IReadOnlyList<Statement> round = Used([.. named, .. stores]);
        var merged = draft.With(loop with { Steps = [Make.Cycle([round])] });
        return workshop.Fitted(merged);
    }

    /// <summary>What the registers hold where a round begins; bits that are seen to be 0 then are constants.</summary>
    private Dictionary<string, Piece[]> Beginning(Workshop workshop, RepeatBlock loop)
    {
        var seen = workshop.Seen(draft);
        var first = draft.Schedule.ToList().IndexOf(loop);
        var begins = new Observed.Moments(first, loop.Steps.Count, WithLast: false);
        var words = new Dictionary<string, Piece[]>();
        foreach (var register in draft.Registers)
        {
            var name = register.Name.Text;
            words[name] = composer.Whole(name);
            if (register.Type.IsSigned || seen.IsEmpty)
            {
                continue;
            }
            var (upper, lower) = seen.Zeros(name, begins);
            var left = widths[name] - upper - lower;
            words[name] =
                workshop.Sign(left) > 0
                    ? composer.Join(Composer.Zeros(upper), [new SlicePiece(name, lower, left)], Composer.Zeros(lower))
                    : Composer.Zeros(widths[name]);
        }
        return words;
    }

    private void Block(
        IEnumerable<Statement> statements,
        Dictionary<string, Piece[]> next,
        IReadOnlyList<Expression> conditions
    )
    {
        foreach (var statement in statements)
        {
            statement.Switch(
                let: Let,
                letCase: _ => throw new BeyondMoveException("a case as a value"),
                transfer: s =>
                {
                    var places = Places(s.Targets);
                    var word = composer.Read(s.Value, Composer.WidthOf(places), s.Via);
                    Take();
                    Place(next, places, word, conditions);
                    Take();
                },
                branch: s =>
                {
                    var condition = composer.Condition(s.Condition);
                    Take();
                    if (s.Says is { } says)
                    {
                        composer.Said[condition.ToString()] = says;
                    }
                    Block(s.Then, next, [.. conditions, condition]);
                    Block(s.Otherwise ?? [], next, [.. conditions, Make.Not(condition)]);
                },
                arms: s => Arms(s, next, conditions),
                hold: _ => { },
                remark: _ => { }
            );
        }
    }

    private void Arms(CaseBlock s, Dictionary<string, Piece[]> next, IReadOnlyList<Expression> conditions)
    {
        var subject = composer.Written(composer.Read(s.Subject));
        Take();
        var others = new List<Expression>();
        foreach (var arm in s.Arms)
        {
            if (arm.Labels is null)
            {
                Block(arm.Body, next, [.. conditions, .. others.Select(Make.Not)]);
                continue;
            }
            if (arm.Labels is not [{ Literal: BitsLiteral bits, IsNegative: false }] || bits.Digits.Contains('x'))
            {
                throw new BeyondMoveException("an arm for several patterns");
            }
            var condition = Make.Compared(subject, Relation.Equal, bits);
            Block(arm.Body, next, [.. conditions, condition]);
            others.Add(condition);
        }
    }

    private void Take() => named.AddRange(composer.TakeHoisted());

    /// <summary>A sum is named where it is used; what decides something keeps its name.</summary>
    private void Let(LetLine s)
    {
        var value = Make.Bare(s.Value);
        var isSum = value is Binary { Operator: BinaryOperator.Add or BinaryOperator.Subtract };
        if (isSum && s.Second is not null)
        {
            var made = lets.Let(s);
            Take();
            named.AddRange(made);
            return;
        }
        var word = composer.Read(value, null, s.Via);
        Take();
        if (!isSum && word is [OpaquePiece or ChoicePiece])
        {
            composer.Widths[s.Name.Text] = Composer.WidthOf(word);
            named.Add(s with { Value = composer.Written(word) });
            return;
        }
        composer.Instead[s.Name.Text] = word;
    }

    private Piece[] Places(IEnumerable<Expression> targets)
    {
        var words = widths.Keys.ToDictionary(name => name, name => composer.Instead[name]);
        foreach (var name in words.Keys)
        {
            composer.Instead.Remove(name);
        }
        var places = composer.Places(targets);
        foreach (var (name, word) in words)
        {
            composer.Instead[name] = word;
        }
        return places;
    }

    private void Place(
        Dictionary<string, Piece[]> next,
        Piece[] places,
        Piece[] word,
        IReadOnlyList<Expression> conditions
    )
    {
        var before = composer.Join(
            places.Select(Composer.PlaceOf).Select(p => composer.Slice(next[p.Name], p.Low, p.Width))
        );
        foreach (var condition in conditions.Reverse())
        {
            word = Gated(condition, word, before);
        }
        foreach (var (at, gets) in composer.Aligned(places, word))
        {
            var place = Composer.PlaceOf(at[0]);
            var (old, whole) = (next[place.Name], widths[place.Name]);
            next[place.Name] = composer.Join(
                composer.Slice(old, place.End, whole - place.End),
                gets,
                composer.Slice(old, 0, place.Low)
            );
        }
    }

    /// <summary>A word or what was there before: x + y or x is x + (y or 0), which needs no choice behind the sum.</summary>
    private Piece[] Gated(Expression condition, Piece[] word, Piece[] before)
    {
        var gated = new List<Piece[]>();
        var at = Composer.WidthOf(word);
        foreach (var piece in word)
        {
            at -= piece.Width;
            var old = composer.Slice(before, at, piece.Width);
            gated.Add(
                piece is SumPiece sum && Piece.Same(sum.Left, old)
                    ?
                    [
                        new SumPiece(
                            sum.Operator,
                            sum.Left,
                            composer.Choice(condition, sum.Right, Composer.Zeros(sum.Width)),
                            sum.Via,
                            sum.Width
                        ),
                    ]
                    : composer.Choice(
                        condition,
                        piece is SumPiece ? [composer.Named(piece)] : [piece],
                        [.. old.Select(p => p is SumPiece ? composer.Named(p) : p)]
                    )
            );
        }
        return composer.Join(gated);
    }

    /// <summary>What is stored, so that nothing is read below a line that writes it; registers that need each other together.</summary>
    private IReadOnlyList<Statement> InOrder(Dictionary<string, Piece[]> now)
    {
        var left = widths.Keys.Where(r => !Piece.Same(now[r], composer.Whole(r))).ToList();
        var stored = left.ToDictionary(r => r, r => Stored([r], now));
        var all = new List<Statement>();
        while (left.Count > 0)
        {
            if (left.Find(r => !left.Exists(other => other != r && Reads(stored[other], r))) is { } free)
            {
                all.AddRange(stored[free]);
                left.Remove(free);
                continue;
            }
            var bound = left.Where(r =>
                    left.Exists(o => o != r && Reads(stored[o], r)) && left.Exists(o => o != r && Reads(stored[r], o))
                )
                .ToList();
            bound = bound.Count > 0 ? bound : left;
            all.AddRange(Stored(bound, now));
            left = [.. left.Except(bound)];
        }
        return all;
    }

    private static bool Reads(IEnumerable<Statement> statements, string register) =>
        statements
            .SelectMany(Statements.WithInside)
            .SelectMany(Statements.Read)
            .Any(v => Statements.Mentions(v, n => n == register));

    private IReadOnlyList<Statement> Stored(IReadOnlyList<string> registers, Dictionary<string, Piece[]> now)
    {
        var stored = composer.Stored(
            composer.Join(registers.Select(composer.Whole)),
            composer.Join(registers.Select(r => now[r]))
        );
        Take();
        return [.. stored.Select(Spoken)];
    }

    /// <summary>A branch says what was said where the same was asked.</summary>
    private Statement Spoken(Statement statement) =>
        statement is IfBlock branch ? branch with { Says = composer.SaidOf(branch.Condition) } : statement;

    /// <summary>Without values that nobody reads.</summary>
    private static IReadOnlyList<Statement> Used(List<Statement> statements)
    {
        while (
            statements.Find(s =>
                s is LetLine let
                && !Statements.Mention(
                    statements.Where(o => !ReferenceEquals(o, s)),
                    n => n == let.Name.Text || n == let.Second?.Text
                )
            )
                is { } unused
        )
        {
            statements.Remove(unused);
        }
        return statements;
    }
}
