using Reckoner.Notation;

namespace Reckoner.Proving;

/// <summary>Formulas in which what stands for a name is written in its place.</summary>
internal static class WrittenOut
{
    /// <summary>Constants of constants can grow without end: a formula of more parts keeps the names.</summary>
    private const int MostParts = 200;

    /// <summary>Without the constants of a machine, which may be made of those before them; with some, where it grows too long.</summary>
    public static Expression Of(Expression formula, IEnumerable<ConstantLine> constants)
    {
        foreach (var constant in constants.Reverse())
        {
            var next = With(formula, constant.Name.Text, constant.Formula);
            if (Parts(next) > MostParts)
            {
                return formula;
            }
            formula = next;
        }
        return formula;
    }

    private static Expression With(Expression e, string name, Expression put) =>
        e switch
        {
            NameReference n => n.Name == name ? put : e,
            Scaled { Name.Name: var scaled } s => scaled != name ? e
            : put is NameReference other ? new Scaled(e.Span, s.Factor, other)
            : Times(s.Factor, put),
            _ => Rewriting.Over(e, [.. e.Children.Select(c => With(c, name, put))]),
        };

    public static Expression Times(Expression factor, Expression of) =>
        new Binary(of.Span, BinaryOperator.Multiply, factor, of);

    private static int Parts(Expression e) => 1 + e.Children.Sum(Parts);
}
