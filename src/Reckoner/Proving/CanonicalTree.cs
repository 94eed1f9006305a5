using Reckoner.Binding;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Verifier;

namespace Reckoner.Proving;

/// <summary>A description as the verifier takes it: its sentences word for word, without phrases, comments and names of units.</summary>
internal static class CanonicalTree
{
    public static Tree Of(IMachine machine)
    {
        var description = machine.Description;
        var core = (machine as Machine)?.Core?.Description;
        return new(
            "machine",
            description.Name,
            [
                .. description.Declarations.SelectMany(d =>
                    d is CoreBlock block && core is not null ? CoreTree.Schedule(core)
                    : Of(d) is { } tree ? [tree]
                    : []
                ),
                .. description
                    .Declarations.OfType<CoreBlock>()
                    .SelectMany(b => core is null ? [] : CoreTree.Hardware(b, core)),
            ]
        );
    }

    internal static Tree? Of(Declaration line) =>
        line switch
        {
            MachineLine or TitleLine or NoteLine or FollowsLine or UnitLine or MeaningLine or FormulaLine => null,
            WidthLine l => new(
                l.IsParameter ? "parameter" : "width",
                l.Name.Text,
                Of(l.Default),
                Of(l.Low),
                Of(l.High)
            ),
            ConstantLine { Type: null } l => new("constant", l.Name.Text, Of(l.Formula)),
            ConstantLine { Type: { } type } l => new("bits-constant", l.Name.Text, Of(type), Of(l.Formula)),
            OperandLine l => new("operand", l.Name.Text, Of(l.Type)),
            GivenLine l => new("given", "", Of(l.Formula)),
            RegisterLine l => new("register", l.Name.Text, Of(l.Type), Of(l.Loads)),
            PartLine l => new("part", l.Name.Text, Of(l.Slice)),
            TableBlock l => new("table", l.Name.Text),
            CoreBlock l => new("core", l.Machine.Text),
            ResultLine l => new("result", l.Name.Text, Of(l.Value)),
            ClaimLine l => new(
                l.IsOutside ? "outside" : "law",
                Of(l.Kind),
                l.Condition is null ? [Of(l.Formula)] : [Of(l.Formula), Of(l.Condition)]
            ),
            StepBlock l => Of(l),
            RepeatBlock l => new(
                "repeat",
                l.While is null ? "" : "while",
                [Of(l.Count), .. l.While is null ? Array.Empty<Tree>() : [Of(l.While)], .. l.Steps.Select(Of)]
            ),
            _ => throw new InvalidOperationException(line.GetType().Name),
        };

    private static string Of(ClaimCondition kind) =>
        kind switch
        {
            ClaimCondition.Always => "always",
            ClaimCondition.When => "when",
            ClaimCondition.ExactlyWhen => "exactly when",
        };

    private static Tree Of(TypeSyntax type) => new("type", type.IsSigned ? "signed" : "", Of(type.Width));

    private static Tree Of(StepBlock step) =>
        new("step", step.Name?.Text ?? "", [.. step.Moments.Select(m => Block("moment", m.Statements))]);

    private static Tree Block(string kind, IReadOnlyList<Statement> statements) =>
        new(kind, "", [.. statements.Select(Of).OfType<Tree>()]);

    private static Tree? Of(Statement statement) =>
        statement.Match<Tree?>(
            let: s =>
                new(
                    "let",
                    "",
                    [Of(s.Value), Name(s.Name), .. s.Second is null ? Array.Empty<Tree>() : [Name(s.Second)]]
                ),
            letCase: s =>
                new(
                    "let",
                    "",
                    new Tree("choose", "", [Of(s.Subject), .. s.Arms.Select(a => Arm(a.Labels, Of(a.Value)))]),
                    Name(s.Name)
                ),
            transfer: s => new("set", "", [.. s.Targets.Select(Of), Of(s.Value)]),
            branch: s => new("if", "", Of(s.Condition), Block("block", s.Then), Block("block", s.Otherwise ?? [])),
            arms: s => new("case", "", [Of(s.Subject), .. s.Arms.Select(a => Arm(a.Labels, Block("block", a.Body)))]),
            hold: _ => null,
            remark: _ => null
        );

    private static Tree Name(Declared name) => new("name", name.Text);

    private static Tree Arm(IReadOnlyList<Label>? labels, Tree body) =>
        new("arm", "", [.. labels?.Select(Of) ?? [new Tree("else", "")], body]);

    private static Tree Of(Label label) => label.IsNegative ? new("neg", "", Of(label.Literal)) : Of(label.Literal);

    internal static Tree Of(Expression e) =>
        e.Kind switch
        {
            ExpressionKind.Number => new("number", ((NumberLiteral)e).Text),
            ExpressionKind.Bits => new("bits", ((BitsLiteral)e).Digits),
            ExpressionKind.Name => new("name", ((NameReference)e).Name),
            ExpressionKind.Scaled => Over("*", e),
            ExpressionKind.Bracketed => Of(((Bracketed)e).Inner),
            ExpressionKind.Unary => Over(((Unary)e).Operator == UnaryOperator.Not ? "not" : "neg", e),
            ExpressionKind.Binary => Over(Of(((Binary)e).Operator), e),
            ExpressionKind.Comparison => new(
                "compare",
                string.Join(' ', ((Comparison)e).Relations.Select(r => r.Symbol())),
                [.. e.Children.Select(Of)]
            ),
            ExpressionKind.Within => Over("within", e),
            ExpressionKind.Joined => Over("join", e),
            // One bit has its place twice, as the highest and the lowest.
            ExpressionKind.Sliced => new("slice", "", Of(((Sliced)e).Value), Of(((Sliced)e).High), Of(((Sliced)e).Low)),
            ExpressionKind.Call => new("call", ((Call)e).Function, [.. e.Children.Select(Of)]),
            ExpressionKind.Chosen => Over("when", e),
            ExpressionKind.Total => Over("sum", e),
            ExpressionKind.Every => Over("every", e),
            ExpressionKind.Unreadable => throw new InvalidOperationException("a machine with an error has no tree"),
        };

    private static Tree Over(string kind, Expression e) => new(kind, "", [.. e.Children.Select(Of)]);

    private static string Of(BinaryOperator op) =>
        op switch
        {
            BinaryOperator.Add => "+",
            BinaryOperator.Subtract => "-",
            BinaryOperator.Multiply => "*",
            BinaryOperator.Divide => "/",
            BinaryOperator.Power => "^",
            BinaryOperator.And => "and",
            BinaryOperator.Or => "or",
            BinaryOperator.Xor => "xor",
        };
}
