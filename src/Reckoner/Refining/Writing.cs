using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>A statement that writes a register or part of it: where it stands, and under which conditions.</summary>
/// <param name="Guards">The conditions of the branches it stands in, from outside; those of an "else" are turned over.</param>
internal sealed record Writing(TransferLine Transfer, IReadOnlyList<Expression> Guards, int Moment)
{
    /// <summary>Every one that writes a register, in the order of the text.</summary>
    public static IReadOnlyList<Writing> Of(Draft draft, string register)
    {
        var parts = draft
            .Parts.Where(p => p.Slice is Sliced { Value: NameReference })
            .ToDictionary(p => p.Name.Text, p => ((NameReference)((Sliced)p.Slice).Value).Name);
        return [.. draft.Steps.SelectMany(All).Where(w => w.Transfer.Targets.Any(IsOfRegister))];

        bool IsOfRegister(Expression target)
        {
            var name = target is Sliced slice ? slice.Value : target;
            return name is NameReference n && parts.GetValueOrDefault(n.Name, n.Name) == register;
        }
    }

    /// <summary>Every transfer of a step.</summary>
    public static IEnumerable<Writing> All(StepBlock step) =>
        step.Moments.SelectMany((m, i) => m.Statements.SelectMany(s => Inside(s, [], i)));

    private static IEnumerable<Writing> Inside(Statement statement, IReadOnlyList<Expression> guards, int moment) =>
        statement.Match(
            let: _ => [],
            letCase: _ => [],
            transfer: s => [new Writing(s, guards, moment)],
            branch: s =>
                s.Then.SelectMany(t => Inside(t, [.. guards, s.Condition], moment))
                    .Concat((s.Otherwise ?? []).SelectMany(t => Inside(t, [.. guards, Make.Not(s.Condition)], moment))),
            arms: s => s.Arms.SelectMany(a => a.Body).SelectMany(t => Inside(t, [.. guards, s.Subject], moment)),
            hold: IEnumerable<Writing> (_) => [],
            remark: _ => []
        );
}
