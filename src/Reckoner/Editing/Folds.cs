using Reckoner.Notation;

namespace Reckoner.Editing;

/// <summary>Blocks of a description that take more than one line, by their first and last line, counted from 1.</summary>
internal static class Folds
{
    public static IEnumerable<(int First, int Last)> Of(Description description)
    {
        var source = description.Source;
        return description
            .Declarations.SelectMany(Blocks)
            .Select(b => (First: source.LineOf(b.Start), Last: source.LineOf(Math.Max(b.Start, b.End - 1))))
            .Where(f => f.Last > f.First)
            .Distinct();
    }

    private static IEnumerable<Span> Blocks(Declaration declaration) =>
        declaration switch
        {
            TableBlock or CoreBlock => [declaration.Span],
            RepeatBlock repeat => repeat.Steps.SelectMany(Blocks).Prepend(repeat.Span),
            StepBlock step => Blocks(step),
            _ => [],
        };

    private static IEnumerable<Span> Blocks(StepBlock step)
    {
        var statements = step.Moments.SelectMany(m => m.Statements).ToList();
        var own =
            step.Name is not null && statements.Count > 0
                ? [Span.Covering(step.Span, statements[^1].Span)]
                : (Span[])[];
        return own.Concat(statements.SelectMany(Blocks));
    }

    private static IEnumerable<Span> Blocks(Statement statement) =>
        statement
            .Inside.SelectMany(Blocks)
            .Concat(statement is IfBlock or CaseBlock or LetCase ? [statement.Span] : []);
}
