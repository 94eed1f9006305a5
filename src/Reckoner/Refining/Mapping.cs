using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>Sentences made again with every value in them, or every statement, changed.</summary>
internal static class Mapping
{
    /// <param name="made">Is given each whole value and gives what stands in its place.</param>
    public static Declaration Of(Declaration scheduled, Func<Expression, Expression> made) =>
        scheduled switch
        {
            RepeatBlock loop => loop with
            {
                While = loop.While is null ? null : made(loop.While),
                Steps = [.. loop.Steps.Select(s => Of(s, made))],
            },
            StepBlock step => Of(step, made),
            _ => scheduled,
        };

    public static StepBlock Of(StepBlock step, Func<Expression, Expression> made) =>
        step with
        {
            Moments = [.. step.Moments.Select(m => m with { Statements = Of(m.Statements, made) })],
        };

    public static IReadOnlyList<Statement> Of(IEnumerable<Statement> statements, Func<Expression, Expression> made) =>
        [.. statements.Select(s => Of(s, made))];

    public static Statement Of(Statement statement, Func<Expression, Expression> made) =>
        statement.Match<Statement>(
            let: s => s with { Value = made(s.Value) },
            letCase: s =>
                s with
                {
                    Subject = made(s.Subject),
                    Arms = [.. s.Arms.Select(a => a with { Value = made(a.Value) })],
                },
            transfer: s => s with { Targets = [.. s.Targets.Select(made)], Value = made(s.Value) },
            branch: s =>
                s with
                {
                    Condition = made(s.Condition),
                    Then = Of(s.Then, made),
                    Otherwise = s.Otherwise is null ? null : Of(s.Otherwise, made),
                },
            arms: s =>
                s with
                {
                    Subject = made(s.Subject),
                    Arms = [.. s.Arms.Select(a => a with { Body = Of(a.Body, made) })],
                },
            hold: s => s,
            remark: s => s
        );

    /// <summary>A value with every part of it changed from inside out.</summary>
    public static Expression Deep(Expression value, Func<Expression, Expression> made) =>
        made(
            value.Children.Count == 0
                ? value
                : Rewriting.Over(value, [.. value.Children.Select(c => value is Scaled ? c : Deep(c, made))])
        );

    /// <summary>Statements with one of them exchanged for others, wherever it stands.</summary>
    public static IReadOnlyList<Statement> Replaced(
        IEnumerable<Statement> statements,
        Statement old,
        IReadOnlyList<Statement> others
    ) =>
        [
            .. statements.SelectMany(s =>
                ReferenceEquals(s, old)
                    ? others
                    : s switch
                    {
                        IfBlock branch => Without(
                            branch with
                            {
                                Then = Replaced(branch.Then, old, others),
                                Otherwise = branch.Otherwise is null ? null : Replaced(branch.Otherwise, old, others),
                            }
                        ),
                        CaseBlock arms =>
                        [
                            arms with
                            {
                                Arms =
                                [
                                    .. arms.Arms.Select(a => a with { Body = Held(Replaced(a.Body, old, others)) }),
                                ],
                            },
                        ],
                        _ => [s],
                    }
            ),
        ];

    /// <summary>A branch in which nothing is left is none.</summary>
    private static IReadOnlyList<Statement> Without(IfBlock branch) =>
        branch.Then.Count == 0 && branch.Otherwise is not { Count: > 0 } ? []
        : branch.Then.Count == 0
            ?
            [
                branch with
                {
                    Condition = Make.Not(branch.Condition),
                    Says = branch.Says is { WhenZero: { } zero } says ? new Says(zero, says.WhenOne) : null,
                    Then = branch.Otherwise!,
                    Otherwise = null,
                    ElseIf = false,
                },
            ]
        : branch.Otherwise is { Count: 0 } ? [branch with { Otherwise = null }]
        : [branch];

    public static IReadOnlyList<Statement> Held(IReadOnlyList<Statement> body) =>
        body.Count > 0 ? body : [new HoldLine(default, Comments.None)];
}
