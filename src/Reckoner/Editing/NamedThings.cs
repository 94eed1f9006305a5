using Reckoner.Notation;

namespace Reckoner.Editing;

/// <summary>
/// Everything that a description names, with where each name holds. Needs a text as it was read; what could not be read names
/// nothing.
/// </summary>
internal static class NamedThings
{
    public static IReadOnlyList<Named> Of(Description description)
    {
        var all = new List<Named>();
        var whole = new Span(0, description.Source.Text.Length);
        foreach (var declaration in description.Declarations)
        {
            Add(all, declaration, whole);
        }
        all.RemoveAll(n => n.Name.Length == 0);
        return all;
    }

    private static void Add(List<Named> all, Declaration declaration, Span whole)
    {
        declaration.Match<object?>(
            machine: d => Put(d.Name, NamedKind.Machine),
            title: _ => null,
            note: _ => null,
            follows: _ => null,
            width: d => Put(d.Name, d.IsParameter ? NamedKind.Parameter : NamedKind.Width),
            constant: d => Put(d.Name, NamedKind.Constant),
            operand: d => Put(d.Name, NamedKind.Operand, d.Phrase),
            given: _ => null,
            register: d => Put(d.Name, NamedKind.Register, d.Phrase),
            part: d => Put(d.Name, NamedKind.Part, d.Phrase),
            meaning: d => Put(d.Name, NamedKind.Meaning, d.Phrase),
            unit: d => Put(d.Name, NamedKind.Unit),
            table: d =>
            {
                Put(d.Name, NamedKind.Table);
                foreach (var index in d.Indices)
                {
                    all.Add(new Named(index.Name.Text, NamedKind.Index, index.Name.Span, d.Span, d, null));
                }
                return null;
            },
            core: _ => null,
            repeat: d =>
            {
                foreach (var step in d.Steps)
                {
                    Add(all, step, whole);
                }
                return null;
            },
            step: d =>
            {
                if (d.Name is { } name)
                {
                    Put(name, NamedKind.Step, d.Phrase);
                }
                AddWires(all, d);
                return null;
            },
            result: d => Put(d.Name, NamedKind.Result),
            formula: d =>
            {
                Put(d.Name, NamedKind.Formula);
                foreach (var parameter in d.Parameters)
                {
                    all.Add(new Named(parameter.Text, NamedKind.Parameter, parameter.Span, d.Span, d, null));
                }
                return null;
            },
            claim: _ => null
        );

        object? Put(Declared name, NamedKind kind, Phrase? phrase = null)
        {
            all.Add(new Named(name.Text, kind, name.Span, whole, declaration, phrase));
            return null;
        }
    }

    /// <summary>Wires hold from where they are declared to the end of what they stand in, over the moments of a cycle.</summary>
    private static void AddWires(List<Named> all, StepBlock step)
    {
        var statements = step.Moments.SelectMany(m => m.Statements).ToList();
        if (statements.Count > 0)
        {
            AddWires(all, statements, statements[^1].Span.End);
        }
    }

    private static void AddWires(List<Named> all, IReadOnlyList<Statement> statements, int end)
    {
        foreach (var statement in statements)
        {
            foreach (var (name, _) in statement.Names)
            {
                var scope = new Span(name.Span.Start, Math.Max(end, name.Span.End));
                all.Add(new Named(name.Text, NamedKind.Wire, name.Span, scope, statement, null));
            }
            foreach (var block in Blocks(statement).Where(b => b.Count > 0))
            {
                AddWires(all, block, block[^1].Span.End);
            }
        }
    }

    private static IEnumerable<IReadOnlyList<Statement>> Blocks(Statement statement) =>
        statement.Match<IEnumerable<IReadOnlyList<Statement>>>(
            let: _ => [],
            letCase: _ => [],
            transfer: _ => [],
            branch: s => [s.Then, s.Otherwise ?? []],
            arms: s => s.Arms.Select(a => a.Body),
            hold: _ => [],
            remark: _ => []
        );
}
