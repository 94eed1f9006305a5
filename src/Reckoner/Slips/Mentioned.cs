using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>Which names values mention and statements write.</summary>
internal static class Mentioned
{
    public static bool In(Expression e, string name) =>
        e is NameReference reference ? reference.Name == name : e.Children.Any(c => In(c, name));

    /// <summary>Whether statements write a place of one of the names, in any branch.</summary>
    public static bool Writes(IEnumerable<Statement> statements, IReadOnlySet<string> names) =>
        statements.Any(s =>
            s.Match(
                let: _ => false,
                letCase: _ => false,
                transfer: t => t.Targets.Any(x => names.Any(n => In(x, n))),
                branch: b => Writes(b.Inside, names),
                arms: c => Writes(c.Inside, names),
                hold: _ => false,
                remark: _ => false
            )
        );

    /// <summary>A register's own name and those of its parts.</summary>
    public static IReadOnlySet<string> NamesOf(Description description, string register) =>
        description
            .Declarations.OfType<PartLine>()
            .Where(p => In(p.Slice, register))
            .Select(p => p.Name.Text)
            .Append(register)
            .ToHashSet();
}
