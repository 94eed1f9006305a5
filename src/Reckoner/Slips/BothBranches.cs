using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>
/// Both branches of a decision, the second after the first. At once they would write one place twice, so the second follows a
/// "then"; what shares a unit with the first gets one of its own.
/// </summary>
internal static class BothBranches
{
    public static Edit<IReadOnlyList<Moment>> Of(IReadOnlyList<Moment> moments, int at, int statement, IfBlock branch)
    {
        var condition = Printer.Text(branch.Condition);
        var statements = moments[at].Statements;
        IReadOnlyList<Statement> first =
        [
            .. statements.Take(statement),
            .. branch.Then,
            .. statements.Skip(statement + 1),
        ];
        var second = new Moment(Comments.None, [.. branch.Otherwise!.Select(OwnUnit)]);
        IReadOnlyList<Moment> both =
        [
            .. moments.Take(at),
            moments[at] with
            {
                Statements = first,
            },
            second,
            .. moments.Skip(at + 1),
        ];
        return new(both, "both-branches", condition, branch.Span, [("condition", condition)]);
    }

    private static Statement OwnUnit(Statement statement) =>
        statement.Match<Statement>(
            let: s => s with { Via = null },
            letCase: s => s,
            transfer: s => s with { Via = null },
            branch: s =>
                s with
                {
                    Then = [.. s.Then.Select(OwnUnit)],
                    Otherwise = s.Otherwise?.Select(OwnUnit).ToList(),
                },
            arms: s => s with { Arms = [.. s.Arms.Select(a => a with { Body = [.. a.Body.Select(OwnUnit)] })] },
            hold: s => s,
            remark: s => s
        );
}
