using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>
/// Reads values as words of pieces, over registers that may stand for words of other registers, does arithmetic with them as far as
/// it is known without operands, and writes them as values again. One for each step: what it names stays named to the step's end.
/// </summary>
internal sealed partial class Composer
{
    private readonly Scale scale;
    private readonly NewNames newNames;
    private readonly Dictionary<string, (string Register, Length Low, Length Width)> parts = [];
    private readonly Dictionary<string, Length> tables = [];
    private readonly HashSet<string> taken = [];
    private readonly Dictionary<string, Piece[]> hoistedWords = [];
    private readonly Dictionary<string, SumPiece> sums = [];
    private readonly HashSet<string> made = [];

    /// <param name="registers">Those that there are; the draft's own unless they are others.</param>
    public Composer(Draft draft, Scale scale, NewNames newNames, IReadOnlyList<RegisterLine>? registers = null)
    {
        this.scale = scale;
        this.newNames = newNames;
        foreach (var operand in draft.Operands)
        {
            Declare(operand.Name.Text, operand.Type);
        }
        foreach (var register in registers ?? draft.Registers)
        {
            Declare(register.Name.Text, register.Type);
        }
        foreach (var part in draft.Parts)
        {
            if (part.Slice is not Sliced { Value: NameReference of } slice)
            {
                throw new BeyondMoveException($"{part.Name} is a part with a sign");
            }
            var low = Length.Of(slice.Low);
            parts[part.Name.Text] = (of.Name, low, Length.Of(slice.High) - low + 1);
        }
        foreach (var table in draft.Origin.Declarations.OfType<TableBlock>())
        {
            tables[table.Name.Text] = Length.Of(table.Type.Width);
        }
        foreach (var constant in draft.Origin.Declarations.OfType<ConstantLine>().Where(c => c.Type is not null))
        {
            Declare(constant.Name.Text, constant.Type!);
        }
        foreach (var branch in Draft.Of(draft.Origin).Steps.SelectMany(Statements.Of).OfType<IfBlock>())
        {
            if (branch.Says is { } says)
            {
                Said[branch.Condition.ToString()] = says;
            }
        }
        taken.UnionWith(Widths.Keys);
        taken.UnionWith(parts.Keys);
        taken.UnionWith(Keywords.All);
        taken.UnionWith(draft.Origin.Declarations.SelectMany(NameOf));
        taken.UnionWith(draft.Steps.SelectMany(Statements.Of).SelectMany(s => s.Names).Select(n => n.Name.Text));
    }

    private static IEnumerable<string> NameOf(Declaration declaration) =>
        declaration switch
        {
            WidthLine d => [d.Name.Text],
            ConstantLine d => [d.Name.Text],
            RegisterLine d => [d.Name.Text],
            UnitLine d => [d.Name.Text],
            TableBlock d => [d.Name.Text],
            ResultLine d => [d.Name.Text],
            StepBlock { Name: { } name } => [name.Text],
            _ => [],
        };

    private void Declare(string name, TypeSyntax type)
    {
        Widths[name] = Length.Of(type.Width);
        if (type.IsSigned)
        {
            Signed.Add(name);
        }
    }

    /// <summary>How wide each register, operand and named value is.</summary>
    public Dictionary<string, Length> Widths { get; } = [];

    /// <summary>Those of them that are read with a sign.</summary>
    public HashSet<string> Signed { get; } = [];

    /// <summary>What stands for a name instead of it.</summary>
    public Dictionary<string, Piece[]> Instead { get; init; } = [];

    /// <summary>Values that had to be named, to stand before the statement being made.</summary>
    public List<Statement> Hoisted { get; } = [];

    /// <summary>Whether a carry or borrow may be named where it saves a bit.</summary>
    public bool NamesCarries { get; init; } = true;

    /// <summary>What is said of decisions, by what they ask.</summary>
    public Dictionary<string, Says> Said { get; } = [];

    /// <summary>What is said of a decision, turned over where it is asked the other way round; null where nothing is.</summary>
    public Says? SaidOf(Expression condition) =>
        Said.GetValueOrDefault(condition.ToString())
        ?? (
            Said.GetValueOrDefault(Make.Not(condition).ToString()) is { WhenZero: { } zero } turned
                ? new Says(zero, turned.WhenOne)
                : null
        );

    /// <summary>Takes what had to be named so far.</summary>
    public IReadOnlyList<Statement> TakeHoisted()
    {
        IReadOnlyList<Statement> all = [.. Hoisted];
        Hoisted.Clear();
        return all;
    }

    /// <summary>A name that nothing has, in every language with the same number behind it where it is taken.</summary>
    public Declared Fresh(Declared wanted)
    {
        var name = wanted;
        for (var number = 2; !taken.Add(name.Text); number++)
        {
            name = Make.Declared(wanted.Text + number) with
            {
                Others = [.. wanted.Others.Select(o => (o.Language, o.Text + number))],
            };
        }
        return name;
    }

    public Declared FreshCarry(BinaryOperator op) => Fresh(op == BinaryOperator.Add ? newNames.Carry : newNames.Borrow);

    public int Sign(Length length) => scale.Sign(length);

    /// <summary>Whether two lengths are the same number, however they are written.</summary>
    public bool Equal(Length a, Length b) => a == b || Sign(a - b) == 0;

    public Length Smaller(Length a, Length b) => Sign(a - b) <= 0 ? a : b;

    public Length Larger(Length a, Length b) => Sign(a - b) >= 0 ? a : b;

    /// <summary>Bits of a register that may be written.</summary>
    public static SlicePiece PlaceOf(Piece piece) =>
        piece as SlicePiece ?? throw new BeyondMoveException($"{piece} is no place");

    public static Length WidthOf(IEnumerable<Piece> word) => word.Aggregate((Length)0, (sum, p) => sum + p.Width);

    /// <summary>The whole of what a name stands for.</summary>
    public Piece[] Whole(string name) => [new SlicePiece(name, 0, Widths[name])];

    public static Piece[] Zeros(Length width) => [new ConstantPiece(false, width)];

    /// <summary>The pieces of words side by side; neighbours that are one piece become one, empty ones go.</summary>
    public Piece[] Join(params IEnumerable<IEnumerable<Piece>> words)
    {
        var joined = new List<Piece>();
        foreach (var piece in words.SelectMany(w => w))
        {
            if (Sign(piece.Width) == 0)
            {
                continue;
            }
            var next = piece is CopiesPiece { IsBit: true } copies ? copies.Bit : piece;
            if (joined.Count > 0 && Merged(joined[^1], next) is { } both)
            {
                joined[^1] = both;
            }
            else
            {
                joined.Add(next);
            }
        }
        return [.. joined];
    }

    private Piece? Merged(Piece high, Piece low) =>
        (high, low) switch
        {
            (ConstantPiece a, ConstantPiece b) when a.IsOne == b.IsOne => new ConstantPiece(a.IsOne, a.Width + b.Width),
            (SlicePiece a, SlicePiece b) when a.Name == b.Name && Equal(a.Low, b.End) => new SlicePiece(
                a.Name,
                b.Low,
                a.Width + b.Width
            ),
            (ChoicePiece a, ChoicePiece b) when Text(a.Condition) == Text(b.Condition) => new ChoicePiece(
                a.Condition,
                Join(a.Then, b.Then),
                Join(a.Otherwise, b.Otherwise),
                a.Width + b.Width
            ),
            _ => null,
        };

    private static string Text(Expression e) => Printer.Text(e);

    /// <summary>So many bits of a word, from a place up.</summary>
    public Piece[] Slice(IReadOnlyList<Piece> word, Length low, Length width)
    {
        if (Sign(width) <= 0)
        {
            return [];
        }
        var found = new List<Piece>();
        var (end, at) = (low + width, (Length)0);
        foreach (var piece in word.Reverse())
        {
            var (from, to) = (Larger(at, low), Smaller(at + piece.Width, end));
            if (Sign(to - from) > 0)
            {
                found.Insert(0, Cut(piece, from - at, to - from));
            }
            at += piece.Width;
        }
        var slice = Join(found);
        return Equal(WidthOf(slice), width) ? slice : throw new BeyondMoveException("a slice reaches beyond its word");
    }

    private Piece Cut(Piece piece, Length low, Length width)
    {
        if (Sign(low) == 0 && Equal(piece.Width, width))
        {
            return piece;
        }
        switch (piece)
        {
            case ConstantPiece p:
                return new ConstantPiece(p.IsOne, width);
            case SlicePiece p:
                return new SlicePiece(p.Name, p.Low + low, width);
            case CopiesPiece p:
                return Equal(width, 1) ? p.Bit : new CopiesPiece(p.Bit, width);
            case ChoicePiece p:
                var (then, otherwise) = (Slice(p.Then, low, width), Slice(p.Otherwise, low, width));
                return then.Length == 1 && Piece.Same(then, otherwise)
                    ? then[0]
                    : new ChoicePiece(p.Condition, then, otherwise, width);
            default:
                var named = Named(piece);
                return new SlicePiece(named.Name, named.Low + low, width);
        }
    }

    /// <summary>Gives a piece a name of its own, in a statement that stands before what is being made.</summary>
    public SlicePiece Named(Piece piece)
    {
        if (hoistedWords.TryGetValue(piece.Key, out var known))
        {
            return (SlicePiece)known[0];
        }
        var sum = piece as SumPiece;
        var fresh = Fresh(
            piece switch
            {
                SumPiece { Operator: BinaryOperator.Add } => newNames.Sum,
                SumPiece => newNames.Difference,
                ChoicePiece => newNames.Row,
                _ => newNames.Value,
            }
        );
        var slice = new SlicePiece(fresh.Text, 0, piece.Width);
        Widths[fresh.Text] = piece.Width;
        var value = Written([piece]);
        Hoisted.Add(
            Make.Let(fresh, null, value, sum?.Via) with
            {
                Says = piece is ChoicePiece choice ? SaidOf(choice.Condition) : null,
            }
        );
        hoistedWords[piece.Key] = [slice];
        if (sum is not null)
        {
            sums[fresh.Text] = sum;
        }
        return slice;
    }

    /// <summary>Two words cut at the same places, the highest first.</summary>
    public IReadOnlyList<(Piece[] A, Piece[] B)> Aligned(Piece[] a, Piece[] b)
    {
        if (!Equal(WidthOf(a), WidthOf(b)))
        {
            throw new BeyondMoveException($"{WidthOf(a)} bits beside {WidthOf(b)}");
        }
        var ends = new List<Length>();
        foreach (var word in new[] { a, b })
        {
            var at = (Length)0;
            foreach (var piece in word.Reverse())
            {
                at += piece.Width;
                if (!ends.Exists(e => Sign(e - at) == 0))
                {
                    ends.Add(at);
                }
            }
        }
        ends.Sort((x, y) => Sign(x - y));
        var aligned = new List<(Piece[], Piece[])>();
        var low = (Length)0;
        foreach (var end in ends)
        {
            aligned.Insert(0, (Slice(a, low, end - low), Slice(b, low, end - low)));
            low = end;
        }
        return aligned;
    }
}
