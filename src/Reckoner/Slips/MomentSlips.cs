using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>The slips of a step's moments: of their statements, and of "then" itself.</summary>
internal static class MomentSlips
{
    private static readonly Span Nowhere = new(0, 0);

    public static IEnumerable<Edit<IReadOnlyList<Moment>>> Of(IReadOnlyList<Moment> moments, Scope scope)
    {
        scope = scope with { Wires = Wires(moments.SelectMany(m => m.Statements)) };
        for (var i = 0; i < moments.Count; i++)
        {
            foreach (var edit in OfOne(moments, i, scope with { Before = scope.WrittenIn(moments.Take(i)) }))
            {
                yield return edit;
            }
            if (i + 1 == moments.Count)
            {
                continue;
            }
            yield return Edit(Rewriting.Exchanged(moments, i), "moments-exchanged", "then", moments[i + 1], []);
            if (DecisionsKept(moments, i) is { } kept)
            {
                yield return Edit(kept, "moments-exchanged-kept", "then", moments[i + 1], []);
            }
            foreach (var edit in LookedAtLate(moments, i))
            {
                yield return edit;
            }
        }
    }

    /// <summary>The slips of one moment's statements.</summary>
    private static IEnumerable<Edit<IReadOnlyList<Moment>>> OfOne(IReadOnlyList<Moment> moments, int at, Scope scope)
    {
        var statements = moments[at].Statements;
        foreach (var edit in StatementSlips.Of(statements, scope))
        {
            var outer = edit.Within(changed => Rewriting.With(moments, at, moments[at] with { Statements = changed }));
            yield return edit.Before is { } name
                ? outer.Within(changed => WithBefore(changed, name, scope.Before[name]))
                : outer;
        }
        for (var i = 0; i < statements.Count; i++)
        {
            if (statements[i] is IfBlock { Otherwise: not null } branch)
            {
                yield return BothBranches.Of(moments, at, i, branch);
            }
        }
    }

    /// <summary>The cycle begins with naming what a register or part then holds.</summary>
    private static IReadOnlyList<Moment> WithBefore(IReadOnlyList<Moment> moments, string name, string wire)
    {
        var first = moments[0];
        var span = PlaceOf(first);
        var let = new LetLine(
            span,
            Comments.None,
            new Declared(span, wire),
            null,
            new NameReference(span, name),
            null,
            null
        );
        return Rewriting.With(moments, 0, first with { Statements = [let, .. first.Statements] });
    }

    private static Edit<IReadOnlyList<Moment>> Edit(
        IReadOnlyList<Moment> moments,
        string kind,
        string subject,
        Moment place,
        IReadOnlyList<Fact> facts
    ) => new(moments, kind, subject, PlaceOf(place), facts);

    private static Span PlaceOf(Moment moment) => moment.Statements is [var first, ..] ? first.Span : Nowhere;

    /// <summary>Two moments exchanged, what the first looks at still looked at first; null when it looks at nothing.</summary>
    private static IReadOnlyList<Moment>? DecisionsKept(IReadOnlyList<Moment> moments, int i)
    {
        var lets = moments[i].Statements.Where(s => s.Names.Any()).ToList();
        if (lets.Count == 0 || lets.Count == moments[i].Statements.Count)
        {
            return null;
        }
        var first = moments[i] with { Statements = [.. lets, .. moments[i + 1].Statements] };
        var second = moments[i + 1] with { Statements = [.. moments[i].Statements.Except(lets)] };
        return Rewriting.With(Rewriting.With(moments, i, first), i + 1, second);
    }

    /// <summary>A wire named after "then" instead of before it.</summary>
    private static IEnumerable<Edit<IReadOnlyList<Moment>>> LookedAtLate(IReadOnlyList<Moment> moments, int i)
    {
        for (var s = 0; s < moments[i].Statements.Count; s++)
        {
            var let = moments[i].Statements[s];
            if (!let.Names.Any())
            {
                continue;
            }
            var before = moments[i] with { Statements = Rewriting.Without(moments[i].Statements, s) };
            var after = moments[i + 1] with { Statements = [let, .. moments[i + 1].Statements] };
            var name = let.Names.First().Name.Text;
            var edited = Rewriting.With(Rewriting.With(moments, i, before), i + 1, after);
            yield return new Edit<IReadOnlyList<Moment>>(edited, "looked-at-late", name, let.Span, [("wire", name)]);
        }
    }

    /// <summary>The wires of statements, with whether they are a carry or borrow.</summary>
    private static Dictionary<string, bool> Wires(IEnumerable<Statement> statements)
    {
        var wires = new Dictionary<string, bool>();
        foreach (var (name, isSecond) in statements.SelectMany(Named))
        {
            wires[name.Text] = isSecond;
        }
        return wires;
    }

    private static IEnumerable<(Declared Name, bool IsSecond)> Named(Statement statement) =>
        statement.Names.Concat(statement.Inside.SelectMany(Named));
}
