namespace Reckoner.Notation;

/// <summary>What stands around a line: comment lines above it and a comment behind it. Comments survive printing.</summary>
public sealed record Comments(IReadOnlyList<string> Above, string? Beside)
{
    public static readonly Comments None = new([], null);
}

/// <summary>A quoted phrase, and the same in other languages ("the quotient" de "der Quotient").</summary>
public sealed record Phrase(Span Span, string Text, IReadOnlyList<(string Language, string Text)> Others)
{
    /// <summary>The phrase in a language, or else as the description's own.</summary>
    public string In(string language) => Others.FirstOrDefault(o => o.Language == language).Text ?? Text;
}

/// <summary>A name where it is declared.</summary>
public sealed record Declared(Span Span, string Text)
{
    /// <summary>What readers of other languages are shown in its place; texts and requests always use the name itself.</summary>
    public IReadOnlyList<(string Language, string Text)> Others { get; init; } = [];

    /// <summary>The name as it is shown in a language.</summary>
    public string In(string language) => Others.FirstOrDefault(o => o.Language == language).Text ?? Text;

    public override string ToString() => Text;
}

/// <summary>A width, with or without sign.</summary>
public sealed record TypeSyntax(Span Span, bool IsSigned, Expression Width);

/// <summary>A sentence of a description. Spans cover its first line to its end.</summary>
public abstract record Line(Span Span, Comments Comments);

// ---- declarations

public abstract partial record Declaration(Span Span, Comments Comments) : Line(Span, Comments);

public sealed record MachineLine(Span Span, Comments Comments, Declared Name) : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Machine;
}

public sealed record TitleLine(Span Span, Comments Comments, Phrase Title) : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Title;
}

public sealed record NoteLine(Span Span, Comments Comments, Phrase Text) : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Note;
}

public sealed record FollowsLine(Span Span, Comments Comments, Declared Machine) : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Follows;
}

/// <summary>width NAME = default in low..high; a parameter is the same for a number that is no operand's width.</summary>
public sealed record WidthLine(
    Span Span,
    Comments Comments,
    bool IsParameter,
    Declared Name,
    Expression Default,
    Expression Low,
    Expression High
) : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Width;
}

/// <summary>A number, or with a type also bits.</summary>
public sealed record ConstantLine(Span Span, Comments Comments, Declared Name, TypeSyntax? Type, Expression Formula)
    : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Constant;
}

public sealed record OperandLine(Span Span, Comments Comments, Declared Name, Phrase? Phrase, TypeSyntax Type)
    : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Operand;
}

public sealed record GivenLine(Span Span, Comments Comments, Expression Formula) : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Given;
}

public sealed record RegisterLine(
    Span Span,
    Comments Comments,
    Declared Name,
    Phrase? Phrase,
    TypeSyntax Type,
    Expression Loads
) : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Register;
}

/// <summary>A name for bits of a register; the value is a slice, possibly inside signed( ).</summary>
public sealed record PartLine(Span Span, Comments Comments, Declared Name, Phrase? Phrase, Expression Slice)
    : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Part;
}

/// <summary>
/// What bits of registers stand for, shown beside them in a walk; no hardware. The point stands left of so many bits; from the step
/// named behind "until" on they stand for it no more.
/// </summary>
public sealed record MeaningLine(
    Span Span,
    Comments Comments,
    Declared Name,
    Phrase? Phrase,
    Expression Value,
    Expression? Point,
    Declared? Until
) : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Meaning;
}

public enum UnitKind
{
    Adder,
    Multiplier,
}

public sealed record UnitLine(
    Span Span,
    Comments Comments,
    Declared Name,
    UnitKind Kind,
    Expression Width,
    Expression? By
) : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Unit;
}

public sealed record TableIndex(Declared Name, TypeSyntax Type);

/// <summary>A row; without condition it is the "else" row.</summary>
public sealed record TableRow(Span Span, Comments Comments, Expression? Condition, Expression Value)
    : Line(Span, Comments);

public sealed record TableBlock(
    Span Span,
    Comments Comments,
    Declared Name,
    IReadOnlyList<TableIndex> Indices,
    TypeSyntax Type,
    IReadOnlyList<TableRow> Rows,
    Comments AtEnd
) : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Table;
}

public sealed record CoreOperand(Span Span, Comments Comments, Declared Name, Expression Value) : Line(Span, Comments);

public sealed record CoreBlock(
    Span Span,
    Comments Comments,
    Declared Machine,
    IReadOnlyList<CoreOperand> Operands,
    Comments AtEnd
) : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Core;
}

public sealed record ResultLine(Span Span, Comments Comments, Declared Name, Expression Value)
    : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Result;
}

/// <summary>
/// A name for a number or a truth over others: what laws, "given" and tables may say instead of it. Without parameters it stands
/// alone, as a name; it is no hardware.
/// </summary>
public sealed record FormulaLine(
    Span Span,
    Comments Comments,
    Declared Name,
    IReadOnlyList<Declared> Parameters,
    Expression Body
) : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Formula;

    /// <summary>How it is named: value(x).</summary>
    internal string Head => Parameters.Count == 0 ? Name.Text : $"{Name.Text}({string.Join(", ", Parameters)})";
}

public enum ClaimCondition
{
    Always,
    When,
    ExactlyWhen,
}

/// <summary>law or outside: F, F when G, F exactly when G.</summary>
public sealed record ClaimLine(
    Span Span,
    Comments Comments,
    bool IsOutside,
    Expression Formula,
    ClaimCondition Kind,
    Expression? Condition
) : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Claim;
}

// ---- the schedule

/// <summary>A named clock edge; without name (and without a line of its own) the single step of a repeat.</summary>
public sealed record StepBlock(
    Span Span,
    Comments Comments,
    Declared? Name,
    Phrase? Phrase,
    IReadOnlyList<Moment> Moments
) : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Step;
}

/// <summary>A stretch of a cycle in which everything happens at once. <see cref="Then"/> are the comments of the "then" before it.</summary>
public sealed record Moment(Comments Then, IReadOnlyList<Statement> Statements);

/// <summary>repeat COUNT, or repeat at most COUNT while CONDITION.</summary>
public sealed record RepeatBlock(
    Span Span,
    Comments Comments,
    Expression Count,
    Expression? While,
    IReadOnlyList<StepBlock> Steps,
    Comments AtEnd
) : Declaration(Span, Comments)
{
    internal override DeclarationKind Declares => DeclarationKind.Repeat;
}

public abstract partial record Statement(Span Span, Comments Comments) : Line(Span, Comments)
{
    /// <summary>The statements that stand inside it, in every branch.</summary>
    public IEnumerable<Statement> Inside =>
        Match<IEnumerable<Statement>>(
            let: _ => [],
            letCase: _ => [],
            transfer: _ => [],
            branch: s => s.Then.Concat(s.Otherwise ?? []),
            arms: s => s.Arms.SelectMany(a => a.Body),
            hold: _ => [],
            remark: _ => []
        );

    /// <summary>The values it names itself, and whether they are the second of two: a carry, a borrow or a carry word.</summary>
    public IEnumerable<(Declared Name, bool IsSecond)> Names =>
        Match<IEnumerable<(Declared, bool)>>(
            let: s => s.Second is null ? [(s.Name, false)] : [(s.Name, false), (s.Second, true)],
            letCase: s => [(s.Name, false)],
            transfer: _ => [],
            branch: _ => [],
            arms: _ => [],
            hold: _ => [],
            remark: _ => []
        );

    /// <summary>Whether it stands behind the labels of an arm on their line.</summary>
    public bool StandsBehindLabels =>
        Match(
            let: _ => false,
            letCase: _ => false,
            transfer: _ => true,
            branch: _ => false,
            arms: _ => false,
            hold: _ => true,
            remark: _ => true
        );
}

/// <summary>says "..." else "...": words for how a bit, or what a choice or a branch looks at, falls; or one phrase for a number.</summary>
public sealed record Says(Phrase WhenOne, Phrase? WhenZero)
{
    /// <summary>The words for an outcome; null where there are none.</summary>
    public Phrase? When(bool isOne) => isOne ? WhenOne : WhenZero;

    /// <summary>Whether {} stands for a number in it.</summary>
    public bool IsOfNumber => WhenOne.Text.Contains("{}", StringComparison.Ordinal);
}

public sealed record LetLine(
    Span Span,
    Comments Comments,
    Declared Name,
    Declared? Second,
    Expression Value,
    Declared? Via,
    Says? Says
) : Statement(Span, Comments)
{
    public override StatementKind Kind => StatementKind.Let;
}

/// <summary>A label: bits with x, or a number with its sign.</summary>
public sealed record Label(Span Span, Expression Literal, bool IsNegative);

/// <summary>An arm of a value; without labels it is "else".</summary>
public sealed record ValueArm(
    Span Span,
    Comments Comments,
    IReadOnlyList<Label>? Labels,
    Phrase? Says,
    Expression Value
) : Line(Span, Comments);

public sealed record LetCase(
    Span Span,
    Comments Comments,
    Declared Name,
    Expression Subject,
    IReadOnlyList<ValueArm> Arms,
    Comments AtEnd
) : Statement(Span, Comments)
{
    public override StatementKind Kind => StatementKind.LetCase;
}

public sealed record TransferLine(
    Span Span,
    Comments Comments,
    IReadOnlyList<Expression> Targets,
    Expression Value,
    Declared? Via
) : Statement(Span, Comments)
{
    public override StatementKind Kind => StatementKind.Transfer;
}

/// <summary>Without else, <see cref="Otherwise"/> is null; "else if" is an otherwise of one <see cref="IfBlock"/> marked so.</summary>
public sealed record IfBlock(
    Span Span,
    Comments Comments,
    Expression Condition,
    Says? Says,
    IReadOnlyList<Statement> Then,
    Comments AtElse,
    IReadOnlyList<Statement>? Otherwise,
    bool ElseIf,
    Comments AtEnd
) : Statement(Span, Comments)
{
    public override StatementKind Kind => StatementKind.If;
}

public sealed record StatementArm(
    Span Span,
    Comments Comments,
    IReadOnlyList<Label>? Labels,
    Phrase? Says,
    IReadOnlyList<Statement> Body
) : Line(Span, Comments);

public sealed record CaseBlock(
    Span Span,
    Comments Comments,
    Expression Subject,
    IReadOnlyList<StatementArm> Arms,
    Comments AtEnd
) : Statement(Span, Comments)
{
    public override StatementKind Kind => StatementKind.Case;
}

public sealed record HoldLine(Span Span, Comments Comments) : Statement(Span, Comments)
{
    public override StatementKind Kind => StatementKind.Hold;
}

/// <summary>A note inside a step: narration of what follows.</summary>
public sealed record RemarkLine(Span Span, Comments Comments, Phrase Text) : Statement(Span, Comments)
{
    public override StatementKind Kind => StatementKind.Remark;
}

/// <summary>
/// A whole text as read. <see cref="Torn"/> are the names that stand on lines that could not be read; among them the empty name
/// when such a line may have declared any.
/// </summary>
public sealed record Description(
    Source Source,
    IReadOnlyList<Declaration> Declarations,
    IReadOnlyList<string> Tail,
    IReadOnlySet<string> Torn
)
{
    public string Name => Declarations.OfType<MachineLine>().FirstOrDefault()?.Name.Text ?? "";
}
