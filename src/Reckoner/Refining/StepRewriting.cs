using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>One step rewritten over other registers. What it names keeps its name, and loses the bits that are known.</summary>
/// <param name="reading">What stands for registers that are read, besides those that stand for others everywhere.</param>
internal sealed class StepRewriting(Composer composer, IReadOnlyDictionary<string, Piece[]> reading)
{
    public StepBlock Of(StepBlock step)
    {
        foreach (var (name, word) in reading)
        {
            composer.Instead[name] = word;
        }
        List<IReadOnlyList<Statement>> moments =
        [
            .. step.Moments.Select(m => Block(m.Statements)).Where(m => m.Count > 0),
        ];
        return step with { Moments = [.. moments.DefaultIfEmpty([]).Select(m => new Moment(Comments.None, m))] };
    }

    private IReadOnlyList<Statement> Block(IEnumerable<Statement> statements)
    {
        var block = new List<Statement>();
        foreach (var statement in statements)
        {
            var made = One(statement);
            block.AddRange(composer.TakeHoisted());
            block.AddRange(made);
        }
        return block;
    }

    private IReadOnlyList<Statement> One(Statement statement) =>
        statement.Match<IReadOnlyList<Statement>>(
            let: Let,
            letCase: LetCase,
            transfer: Transfer,
            branch: Branch,
            arms: s =>
            {
                var subject = composer.Rewritten(s.Subject);
                var before = composer.TakeHoisted();
                return
                [
                    .. before,
                    s with
                    {
                        Subject = subject,
                        Arms = [.. s.Arms.Select(a => a with { Body = Mapping.Held(Block(a.Body)) })],
                    },
                ];
            },
            hold: s => [s],
            remark: s => [s]
        );

    private IReadOnlyList<Statement> Branch(IfBlock s)
    {
        var condition = composer.Condition(s.Condition);
        var before = composer.TakeHoisted();
        var (then, otherwise) = (Block(s.Then), s.Otherwise is null ? null : Block(s.Otherwise));
        var changed = s with
        {
            Condition = condition,
            Then = then,
            Otherwise = otherwise,
            ElseIf = s.ElseIf && otherwise is [IfBlock],
        };
        return [.. before, .. Mapping.Replaced([changed], s, [])];
    }

    private IReadOnlyList<Statement> Transfer(TransferLine s)
    {
        var isShift = Shift.Of(s) is not null;
        if (reading.Count == 0)
        {
            var places = composer.Places(s.Targets);
            return composer.Stored(places, composer.Read(s.Value, Composer.WidthOf(places), s.Via));
        }
        // Places are those of the registers themselves, and a shift moves what they hold.
        var known = reading.Keys.ToDictionary(name => name, name => composer.Instead[name]);
        Forget(known.Keys);
        var targets = composer.Places(s.Targets);
        if (!isShift)
        {
            Know(known);
        }
        var word = composer.Read(s.Value, Composer.WidthOf(targets), s.Via);
        Forget(known.Keys);
        var stored = composer.Stored(targets, word);
        Know(known);
        return stored;
    }

    private void Forget(IEnumerable<string> names)
    {
        foreach (var name in names)
        {
            composer.Instead.Remove(name);
        }
    }

    private void Know(Dictionary<string, Piece[]> words)
    {
        foreach (var (name, word) in words)
        {
            composer.Instead[name] = word;
        }
    }

    private IReadOnlyList<Statement> LetCase(LetCase s)
    {
        var width = s.Arms.Select(a => Width(a.Value)).FirstOrDefault(w => w is not null);
        composer.Widths[s.Name.Text] = width ?? throw new BeyondMoveException("no arm says how wide it is");
        if (s.Arms.Any(a => composer.IsSigned(a.Value)))
        {
            composer.Signed.Add(s.Name.Text);
        }
        return
        [
            s with
            {
                Subject = composer.Rewritten(s.Subject),
                Arms = [.. s.Arms.Select(a => a with { Value = composer.Rewritten(a.Value) })],
            },
        ];
    }

    private Length? Width(Expression value)
    {
        try
        {
            return Composer.WidthOf(composer.Read(value));
        }
        catch (BeyondMoveException)
        {
            return null;
        }
    }

    internal IReadOnlyList<Statement> Let(LetLine s)
    {
        var value = Make.Bare(s.Value);
        if (value is Binary { Operator: BinaryOperator.Add or BinaryOperator.Subtract } sum)
        {
            return Sum(s, sum);
        }
        if (s.Second is not null)
        {
            return Second(s, value);
        }
        var word = composer.Read(value, null, s.Via);
        var (from, to) = (0, word.Length);
        while (from < to - 1 && word[from] is ConstantPiece)
        {
            from++;
        }
        while (to > from + 1 && word[to - 1] is ConstantPiece)
        {
            to--;
        }
        var inner = word[from..to];
        var isCut = inner.Length < word.Length;
        if (isCut && inner is [SlicePiece or ConstantPiece])
        {
            composer.Instead[s.Name.Text] = word;
            return [];
        }
        composer.Widths[s.Name.Text] = Composer.WidthOf(inner);
        if (isCut)
        {
            composer.Instead[s.Name.Text] = composer.Join(word[..from], composer.Whole(s.Name.Text), word[to..]);
        }
        if (composer.IsSigned(value))
        {
            composer.Signed.Add(s.Name.Text);
            return [s with { Value = composer.Rewritten(value) }];
        }
        return [s with { Value = composer.Written(inner) }];
    }

    private IReadOnlyList<Statement> Second(LetLine s, Expression value)
    {
        if (value is not Call { Function: "csa" } call)
        {
            throw new BeyondMoveException($"two names for {value}");
        }
        var width = call.Arguments.Select(Width).FirstOrDefault(w => w is not null);
        composer.Widths[s.Name.Text] = composer.Widths[s.Second!.Text] =
            width ?? throw new BeyondMoveException($"nothing says how wide {value} is");
        if (call.Arguments.Any(composer.IsSigned))
        {
            composer.Signed.Add(s.Name.Text);
            return [s with { Value = Rewriting.Over(call, [.. call.Arguments.Select(composer.Rewritten)]) }];
        }
        return
        [
            s with
            {
                Value = Rewriting.Over(
                    call,
                    [.. call.Arguments.Select(a => composer.Written(composer.Read(a, width)))]
                ),
            },
        ];
    }

    /// <summary>A sum or difference with a name: narrower by the places that are known, and with a carry where that saves one.</summary>
    private IReadOnlyList<Statement> Sum(LetLine s, Binary value)
    {
        var (name, op) = (s.Name.Text, value.Operator);
        var left = Width(value.Left);
        var right = composer.Read(value.Right, left);
        var word = composer.Read(value.Left, Composer.WidthOf(right));
        var width = Composer.WidthOf(word);
        if (!composer.Equal(width, Composer.WidthOf(right)))
        {
            throw new BeyondMoveException($"{width} bits beside {Composer.WidthOf(right)}");
        }
        if (composer.IsSigned(value))
        {
            composer.Widths[name] = width;
            composer.Signed.Add(name);
            return
            [
                s with
                {
                    Value = Make.Binary(op, composer.Rewritten(value.Left), composer.Rewritten(value.Right)),
                },
            ];
        }
        var low = Composer.ZerosOf(right, top: false);
        var kept = composer.Slice(word, 0, low);
        var high = composer.Equal(width, low)
            ? 0
            : composer.Smaller(Composer.ZerosOf(word, top: true), Composer.ZerosOf(right, top: true));
        var narrow = width - low - high;
        if (composer.Sign(narrow) <= 0)
        {
            throw new BeyondMoveException("nothing is left to add");
        }
        if (composer.Sign(high) > 0 && s.Second is null)
        {
            if (composer.NamesCarries)
            {
                s = s with { Second = composer.FreshCarry(op) };
            }
            else
            {
                (high, narrow) = (high - 1, narrow + 1);
            }
        }
        var (a, b) = (composer.Slice(word, low, narrow), composer.Slice(right, low, narrow));
        if (composer.Sign(high) == 0 && s.Second is null)
        {
            var signed = composer.RowWithSign(b);
            var repeated = composer.Smaller(composer.SignsOf(a), composer.SignsOf(signed)) - 1;
            if (composer.Sign(repeated) > 0)
            {
                narrow -= repeated;
                composer.Widths[name] = narrow;
                composer.Instead[name] = composer.Join(
                    [new CopiesPiece(composer.Slice(composer.Whole(name), narrow - 1, 1)[0], repeated)],
                    composer.Whole(name),
                    kept
                );
                return [Over(s, op, composer.Slice(a, 0, narrow), composer.Slice(signed, 0, narrow))];
            }
        }
        composer.Widths[name] = narrow;
        if (s.Second is { } second)
        {
            composer.Widths[second.Text] = 1;
        }
        if (composer.Sign(high) > 0 || kept.Length > 0)
        {
            composer.Instead[name] = composer.Join(Above(s, op, high, narrow), composer.Whole(name), kept);
        }
        if (composer.Sign(high) > 0)
        {
            b = composer.Row(b);
            if (s.Second is { } carry && op == BinaryOperator.Add)
            {
                composer.Instead[carry.Text] = Composer.Zeros(1);
            }
        }
        return [Over(s, op, a, b)];
    }

    /// <summary>What stands above a narrower sum: the carry and zeros, or the borrow throughout.</summary>
    private Piece[] Above(LetLine s, BinaryOperator op, Length high, Length narrow)
    {
        if (composer.Sign(high) == 0)
        {
            return [];
        }
        if (s.Second is not { } second)
        {
            return op == BinaryOperator.Add
                ? Composer.Zeros(high)
                : [new CopiesPiece(new SlicePiece(s.Name.Text, narrow - 1, 1), high)];
        }
        var bit = new SlicePiece(second.Text, 0, 1);
        return op == BinaryOperator.Add ? composer.Join(Composer.Zeros(high - 1), [bit]) : [new CopiesPiece(bit, high)];
    }

    private LetLine Over(LetLine s, BinaryOperator op, Piece[] a, Piece[] b) =>
        s with
        {
            Value = Make.Binary(op, composer.Operand(a), composer.Operand(b)),
        };
}
