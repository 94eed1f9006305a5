using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Binding;

internal sealed partial class Binder
{
    private readonly List<Dictionary<string, WireSymbol>> scopes = [];

    /// <summary>What this moment has written so far on this path.</summary>
    private List<Written> writes = [];
    private BranchPath? path;
    private RepeatBlock? loop;
    private int step;
    private int branches;

    private sealed record Written(Register Register, BigInteger Mask, int Line);

    private RegisterSymbol? SymbolOf(Register register) => symbols.GetValueOrDefault(register.Name) as RegisterSymbol;

    private void MarkUsed(Register register)
    {
        if (SymbolOf(register) is { } symbol)
        {
            symbol.IsUsed = true;
        }
    }

    /// <summary>A register read below a line that writes it, in the same moment, would read differently line by line.</summary>
    private bool MayRead(Expression e, Register register, int high, int low)
    {
        var mask = Numbers.Bits.Mask(high - low + 1) << low;
        if (writes.Find(w => w.Register == register && !(w.Mask & mask).IsZero) is not { } write || !isStepWhole)
        {
            return true;
        }
        Refuse(Id.ReadAfterWrite, e, ("name", Printer.Text(e)), ("line", write.Line));
        return false;
    }

    private List<Act> Block(IReadOnlyList<Statement> statements)
    {
        scopes.Add(new(StringComparer.Ordinal));
        var acts = Statements(statements);
        scopes.RemoveAt(scopes.Count - 1);
        return acts;
    }

    private List<Act> Statements(IReadOnlyList<Statement> statements) => [.. statements.Select(Bind).OfType<Act>()];

    private Act? Bind(Statement statement)
    {
        var line = LineOf(statement.Span);
        return statement.Match<Act?>(
            let: s => BindLet(s, line),
            letCase: s => BindLet(s, line),
            transfer: s => BindTransfer(s, line),
            branch: s => BindIf(s, line),
            arms: s => BindCase(s, line),
            hold: _ => new HoldAct(source, line),
            remark: s => new RemarkAct(source, line, s.Text)
        );
    }

    private T WithVia<T>(Declared? name, Func<T> bind, string line)
    {
        via = null;
        if (name is { Text.Length: > 0 })
        {
            var named = Find(name.Text);
            if (named is UnitSymbol { } symbol)
            {
                symbol.IsUsed = true;
                via = symbol.Unit is null ? null : new Via(symbol.Unit, name);
            }
            else if (named is not null)
            {
                report.Add(
                    Id.ViaKind,
                    name.Span,
                    ("unit", name.Text),
                    ("is", new Term("a-" + named.Kind)),
                    ("operation", new Term("a-unit"))
                );
            }
            else
            {
                ReportUnknown(
                    new NameReference(name.Span, name.Text),
                    symbols.Values.OfType<UnitSymbol>().Select(u => u.Name)
                );
            }
        }
        var found = report.Count;
        var bound = bind();
        if (via is { IsTaken: false } && report.Count == found)
        {
            report.Add(Id.ViaIdle, via.Name.Span, ("unit", via.Name.Text), ("line", line));
        }
        via = null;
        return bound;
    }

    // ---- let

    /// <param name="mayIdle">It had to be named for the sake of the second name.</param>
    private WireSymbol DeclareWire(Declared name, Value value, Says? says, bool mayIdle = false)
    {
        var wire = new Wire(name, value, says, source, LineOf(name.Span));
        var symbol = new WireSymbol(name.Text, wire.Line, wire);
        if (Find(name.Text) is { } other)
        {
            report.Add(Id.DeclaredTwice, name.Span, ("name", name.Text), ("line", other.Line));
        }
        else if (name.Text.Length > 0)
        {
            scopes[^1][name.Text] = symbol;
            symbol.IsUsed = mayIdle;
            wires.Add((name, symbol));
        }
        return symbol;
    }

    private readonly List<(Declared Name, WireSymbol Symbol)> wires = [];

    private Act? BindLet(LetLine let, int line)
    {
        var (first, second) = WithVia(
            let.Via,
            () => let.Second is null ? (Evaluate(let.Value, null, Reading.Bare), null) : TwoValues(let),
            Printer.Text(let.Value)
        );
        CheckSays(let, second ?? first);
        var wire = DeclareWire(let.Name, first, let.Second is null ? let.Says : null, mayIdle: let.Second is not null);
        var carry = let.Second is null ? null : DeclareWire(let.Second, second!, let.Says);
        return first.IsUnknown ? null : new LetAct(source, line, wire.Wire, carry?.Wire);
    }

    /// <summary>A second name takes the carry of one +, the borrow of one -, or the carry word of csa.</summary>
    private (Value, Value?) TwoValues(LetLine let)
    {
        var e = let.Value;
        while (e is Bracketed bracketed)
        {
            e = bracketed.Inner;
        }
        if (e is Call { Function: "csa" } csa)
        {
            return CarrySave(csa);
        }
        if (e is not Binary { Operator: BinaryOperator.Add or BinaryOperator.Subtract } sum || IsNumber(e))
        {
            var unreadable = e is Unreadable || Evaluate(e, null, Reading.Bare).IsUnknown;
            if (!unreadable)
            {
                report.Add(Id.SecondName, let.Second!.Span, ("name", let.Second.Text), ("value", Printer.Text(e)));
            }
            return (Value.Unknown, Value.Unknown);
        }
        var value = Evaluate(sum, null, Reading.Bare);
        if (value.IsUnknown)
        {
            return (value, value);
        }
        if (value.Reading == Reading.Signed)
        {
            report.Add(Id.CarryOfSigned, let.Second!.Span, ("name", let.Second.Text), ("value", Printer.Text(e)));
            return (Value.Unknown, Value.Unknown);
        }
        if (new[] { sum.Left, sum.Right }.Any(IsSumItself))
        {
            report.Add(Id.CarryOfLast, let.Second!.Span, ("name", let.Second.Text));
        }
        var operation = value.Operation == Operation.Add ? Operation.Carry : Operation.Borrow;
        return (value, Make(operation, e, Size.Of(1), Reading.Bare, value));
    }

    private bool IsSumItself(Expression e) =>
        Unbracketed(e) is Binary { Operator: BinaryOperator.Add or BinaryOperator.Subtract } && !IsNumber(e);

    private (Value, Value?) CarrySave(Call csa)
    {
        if (
            !Has(csa, "csa", 3)
            || Alike(csa.Arguments, null, csa) is not { } sides
            || Common(sides, csa) is not { } reading
        )
        {
            return (Value.Unknown, Value.Unknown);
        }
        var sum = Served(Make(Operation.CarrySaveSum, csa, sides[0].Size, reading, sides), null);
        return (sum, Make(Operation.CarrySaveCarry, csa, sides[0].Size, Reading.Bare, sum));
    }

    private void CheckSays(LetLine let, Value spoken)
    {
        if (let.Says is null || spoken.IsUnknown)
        {
            return;
        }
        var isOfChoice = spoken.Operation == Operation.Choose && !let.Says.IsOfNumber;
        if (spoken.Width > 1 && !isOfChoice && (!let.Says.IsOfNumber || let.Says.WhenZero is not null))
        {
            report.Add(
                Id.SaysNothing,
                let.Says.WhenOne.Span,
                ("name", (let.Second ?? let.Name).Text),
                ("size", spoken.Size)
            );
        }
    }

    private Act? BindLet(LetCase let, int line)
    {
        via = null;
        var subject = Evaluate(let.Subject, null, Reading.Bare);
        var arms = subject.IsUnknown ? null : Arms(subject, [.. let.Arms.Select(a => (a.Labels, a.Says, a.Span))]);
        var values = let.Arms.Count == 0 ? null : Alike([.. let.Arms.Select(a => a.Value)], null, let.Arms[0].Value);
        var value = Value.Unknown;
        if (arms is not null && values is not null && Common(values, let.Arms[0].Value) is { } reading)
        {
            value = new Value(Operation.Select, values[0].Size, reading, [subject, .. values])
            {
                Arms = arms,
                Written = let.Subject,
                Source = source,
            };
        }
        var wire = DeclareWire(let.Name, value, null);
        return value.IsUnknown ? null : new LetAct(source, line, wire.Wire, null);
    }

    // ---- transfers

    private TransferAct? BindTransfer(TransferLine transfer, int line)
    {
        var places = transfer.Targets.Select(Target).ToList();
        var known = places.All(p => p is not null);
        var size = known ? places.Select(p => SizeOf(p!)).Aggregate((a, b) => a + b) : null;
        var reading = places is [{ } only] ? ReadingOf(only) : Reading.Bare;
        var value = WithVia(
            transfer.Via,
            () => EvaluateFor(transfer.Value, size, reading),
            Printer.Text(transfer.Value)
        );
        if (!known)
        {
            return null;
        }
        var name = string.Join(':', transfer.Targets.Select(t => Printer.Text(t)));
        value = Fit(value, size!, reading, name, transfer.Value);
        foreach (var place in places)
        {
            Write(place!, line, isSaid: value.IsUnknown);
        }
        return value.IsUnknown ? null : new TransferAct(source, line, [.. places.Select(p => p!)], value);
    }

    private static Size SizeOf(Place place) =>
        place.Written is Sliced s
            ? new Size(
                place.Width,
                s.HasLow ? LinearFormula.Of(s.High) - LinearFormula.Of(s.Low) + Linear.Of(1) : Linear.Of(1)
            )
            : place.Part?.Size ?? place.Register.Size;

    private static Reading ReadingOf(Place place) =>
        place.Written is Sliced ? Reading.Bare : place.Part?.Reading ?? place.Register.Reading;

    private Place? Target(Expression target)
    {
        switch (target)
        {
            case NameReference name when Find(name.Name) is { } symbol:
                if (symbol is RegisterSymbol { Register: var register })
                {
                    return register is null ? null : new Place(register, register.Width - 1, 0, null, target);
                }
                if (symbol is PartSymbol { Part: var part })
                {
                    symbol.IsUsed = true;
                    return part is null ? null : new Place(part.Register, part.High, part.Low, part, target);
                }
                report.Add(Id.NotWritable, target.Span, ("name", name.Name), ("is", new Term("a-" + symbol.Kind)));
                return null;
            case NameReference name:
                ReportUnknown(name, symbols.Values.Where(s => s is RegisterSymbol or PartSymbol).Select(s => s.Name));
                return null;
            case Sliced slice:
                if (Target(slice.Value) is not { } place)
                {
                    return null;
                }
                var range = Range(slice, SizeOf(place), Printer.Text(slice.Value));
                return range is var (high, low, _)
                    ? place with
                    {
                        High = place.Low + high,
                        Low = place.Low + low,
                        Written = target,
                    }
                    : null;
            default:
                return null;
        }
    }

    /// <param name="isSaid">Something is wrong with the value, perhaps the same: it reads what it should not write.</param>
    private void Write(Place place, int line, bool isSaid)
    {
        if (
            writes.Find(w => w.Register == place.Register && !(w.Mask & place.Mask).IsZero) is { } earlier
            && isStepWhole
            && !isSaid
        )
        {
            report.Add(
                Id.WrittenTwice,
                place.Written.Span,
                ("name", Printer.Text(place.Written)),
                ("line", earlier.Line)
            );
        }
        writes.Add(new Written(place.Register, place.Mask, line));
        if (SymbolOf(place.Register) is { } symbol)
        {
            symbol.IsWritten = true;
        }
    }

    // ---- branches

    /// <summary>Binds branches that exclude each other; after them every register bit that one of them writes counts as written.</summary>
    private List<List<Act>> Branches(IReadOnlyList<IReadOnlyList<Statement>> bodies)
    {
        var before = writes;
        var outer = path;
        var after = new List<Written>(before);
        var branch = ++branches;
        var acts = new List<List<Act>>();
        for (var arm = 0; arm < bodies.Count; arm++)
        {
            writes = [.. before];
            path = new BranchPath(branch, arm, outer);
            acts.Add(Block(bodies[arm]));
            after.AddRange(writes.Skip(before.Count));
        }
        writes = after;
        path = outer;
        return acts;
    }

    private BranchAct? BindIf(IfBlock block, int line)
    {
        via = null;
        var condition = Condition(block.Condition);
        var acts = Branches([block.Then, block.Otherwise ?? []]);
        return condition.IsUnknown
            ? null
            : new BranchAct(source, line, condition, block.Says, acts[0], acts[1], block.Otherwise is not null);
    }

    private CaseAct? BindCase(CaseBlock block, int line)
    {
        via = null;
        var subject = Evaluate(block.Subject, null, Reading.Bare);
        var arms = subject.IsUnknown ? null : Arms(subject, [.. block.Arms.Select(a => (a.Labels, a.Says, a.Span))]);
        var acts = Branches([.. block.Arms.Select(a => a.Body)]);
        return arms is null
            ? null
            : new CaseAct(source, line, subject, [.. arms.Zip(acts, (patterns, body) => new ActArm(patterns, body))]);
    }
}
