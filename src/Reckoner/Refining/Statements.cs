using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>What stands in the statements of a step.</summary>
internal static class Statements
{
    /// <summary>All of them, those inside others too.</summary>
    public static IEnumerable<Statement> Of(StepBlock step) =>
        step.Moments.SelectMany(m => m.Statements).SelectMany(WithInside);

    public static IEnumerable<Statement> WithInside(Statement statement) =>
        statement.Inside.SelectMany(WithInside).Prepend(statement);

    /// <summary>The values that stand in a statement itself, not in those inside it; places to write are among them.</summary>
    public static IEnumerable<Expression> Values(Statement statement) =>
        statement.Match<IEnumerable<Expression>>(
            let: s => [s.Value],
            letCase: s => [s.Subject, .. s.Arms.Select(a => a.Value)],
            transfer: s => [.. s.Targets, s.Value],
            branch: s => [s.Condition],
            arms: s => [s.Subject],
            hold: _ => [],
            remark: _ => []
        );

    /// <summary>The values it reads: those of <see cref="Values"/> without the places it writes.</summary>
    public static IEnumerable<Expression> Read(Statement statement) =>
        statement is TransferLine transfer ? [transfer.Value] : Values(statement);

    /// <summary>All names in a value.</summary>
    public static IEnumerable<string> NamesIn(Expression value) =>
        value is NameReference name ? [name.Name] : value.Children.SelectMany(NamesIn);

    public static bool Mentions(Expression value, Func<string, bool> isMeant) => NamesIn(value).Any(isMeant);

    public static bool Mention(IEnumerable<Statement> statements, Func<string, bool> isMeant) =>
        statements.SelectMany(WithInside).SelectMany(Values).Any(v => Mentions(v, isMeant));
}
