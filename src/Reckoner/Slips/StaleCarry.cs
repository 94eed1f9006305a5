using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>
/// A carry or borrow that is the one of the time before: a register of one bit keeps the new one and gives the old one, 0 at
/// first. A carry word of a row of adders is no such bit.
/// </summary>
internal static class StaleCarry
{
    public static Edit<IReadOnlyList<Statement>>? Of(LetLine s, Scope scope)
    {
        if (s.Second is not { } carry || s.Value is not Binary)
        {
            return null;
        }
        Declared Named(string name) => new(s.Span, name);
        var kept = Named(scope.Fresh($"{carry.Text}_before"));
        var now = Named(scope.Fresh($"{carry.Text}_now"));
        var register = new RegisterLine(
            s.Span,
            Comments.None,
            kept,
            null,
            new TypeSyntax(s.Span, IsSigned: false, new NumberLiteral(s.Span, "1")),
            new NumberLiteral(s.Span, "0")
        );
        IReadOnlyList<Statement> lines =
        [
            s with
            {
                Second = now,
                Says = null,
            },
            new LetLine(s.Span, Comments.None, carry, null, new NameReference(s.Span, kept.Text), null, s.Says),
            new TransferLine(
                s.Span,
                Comments.None,
                [new NameReference(s.Span, kept.Text)],
                new NameReference(s.Span, now.Text),
                null
            ),
        ];
        return new(lines, "carry-stale", carry.Text, s.Span, [("wire", carry.Text)]) { Extra = register };
    }
}
