using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>
/// The results taken a cycle early: of every register that they read, a copy follows one clock edge behind, and the results are
/// read from the copies.
/// </summary>
internal static class EarlyResults
{
    /// <summary>Null where no register of the description's own is read, or where it has no cycles of its own.</summary>
    public static Edit<Description>? Of(Description description, Scope scope)
    {
        var lines = description.Declarations;
        var results = lines.OfType<ResultLine>().ToList();
        var parts = lines.OfType<PartLine>().ToDictionary(p => p.Name.Text, p => p.Slice);
        var read = results.Select(r => Unfolded(r.Value, parts)).ToList();
        var copied = lines
            .OfType<RegisterLine>()
            .Where(r => read.Exists(e => Mentioned.In(e, r.Name.Text)))
            .ToDictionary(r => r, r => scope.Fresh($"{r.Name.Text}_early"));
        if (copied.Count == 0 || !lines.Any(d => d is StepBlock or RepeatBlock))
        {
            return null;
        }
        var names = copied.ToDictionary(c => c.Key.Name.Text, c => c.Value);
        var place = results[0].Span;
        var last = lines.OfType<RegisterLine>().Last();
        var copies = copied.Select(c => c.Key with { Name = new Declared(place, c.Value), Phrase = null }).ToList();
        IReadOnlyList<Declaration> changed =
        [
            .. lines.SelectMany(d =>
                d switch
                {
                    RegisterLine r when r == last => [r, .. copies],
                    StepBlock s => [Copying(s, names)],
                    RepeatBlock r => [r with { Steps = [.. r.Steps.Select(s => Copying(s, names))] }],
                    ResultLine r => [r with { Value = Renamed(Unfolded(r.Value, parts), names) }],
                    _ => (Declaration[])[d],
                }
            ),
        ];
        return new(description with { Declarations = changed }, "results-early", "", place, []);
    }

    /// <summary>What the copies take is what the registers hold before the edge.</summary>
    private static StepBlock Copying(StepBlock step, Dictionary<string, string> names)
    {
        var first = step.Moments[0];
        var span = step.Span;
        var copies = names.Select(n => new TransferLine(
            span,
            Comments.None,
            [new NameReference(span, n.Value)],
            new NameReference(span, n.Key),
            null
        ));
        var begun = first with { Statements = [.. copies, .. first.Statements] };
        return step with { Moments = Rewriting.With(step.Moments, 0, begun) };
    }

    /// <summary>Parts written out as places of their registers.</summary>
    private static Expression Unfolded(Expression e, Dictionary<string, Expression> parts) =>
        Replaced(e, name => parts.TryGetValue(name.Name, out var slice) ? new Bracketed(name.Span, slice) : null);

    private static Expression Renamed(Expression e, Dictionary<string, string> names) =>
        Replaced(e, name => names.TryGetValue(name.Name, out var other) ? new NameReference(name.Span, other) : null);

    internal static Expression Replaced(Expression e, Func<NameReference, Expression?> other) =>
        e is NameReference name ? other(name) ?? e : Rewriting.Over(e, [.. e.Children.Select(c => Replaced(c, other))]);
}
