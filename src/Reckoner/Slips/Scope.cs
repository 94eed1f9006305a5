using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>What a slip may need to know of the description around it.</summary>
/// <param name="Widths">The width of every register, part and operand, as it is written.</param>
/// <param name="Wires">The wires known here, with whether they are a carry or borrow.</param>
/// <param name="Words">Every name that occurs anywhere.</param>
/// <param name="Registers">The names of every register, its own and those of its parts.</param>
internal sealed record Scope(
    IReadOnlyDictionary<string, Expression> Widths,
    IReadOnlyDictionary<string, bool> Wires,
    IReadOnlySet<string> Words,
    IReadOnlyList<IReadOnlySet<string>> Registers
)
{
    private static readonly Span Nowhere = new(0, 0);

    /// <summary>Of what an earlier moment of the cycle writes, the wires that hold it as it was before.</summary>
    public IReadOnlyDictionary<string, string> Before { get; init; } = new Dictionary<string, string>();

    public static Scope Of(Description description)
    {
        var widths = new Dictionary<string, Expression>();
        foreach (var line in description.Declarations)
        {
            switch (line)
            {
                case OperandLine d:
                    widths[d.Name.Text] = d.Type.Width;
                    break;
                case RegisterLine d:
                    widths[d.Name.Text] = d.Type.Width;
                    break;
                case PartLine { Slice: Sliced { HasLow: true } s } d:
                    widths[d.Name.Text] = Beside(Less(s.High, s.Low), BinaryOperator.Add);
                    break;
            }
        }
        return new Scope(
            widths,
            new Dictionary<string, bool>(),
            Names(Printer.Text(description, comments: false)),
            [
                .. description
                    .Declarations.OfType<RegisterLine>()
                    .Select(r => Mentioned.NamesOf(description, r.Name.Text)),
            ]
        );
    }

    /// <summary>Every stretch of letters, digits and underscores: more than the names, never fewer.</summary>
    private static HashSet<string> Names(string text)
    {
        var apart = new string([.. text.Select(c => char.IsLetterOrDigit(c) || c == '_' ? c : ' ')]);
        return [.. apart.Split(' ')];
    }

    /// <summary>A name that nothing in the description has.</summary>
    public string Fresh(string name) => Words.Contains(name) ? Fresh(name + "_") : name;

    /// <summary>The names whose bits are written by moments, each with a fresh name for what it was before.</summary>
    public Dictionary<string, string> WrittenIn(IEnumerable<Moment> moments)
    {
        var statements = moments.SelectMany(m => m.Statements).ToList();
        return Registers
            .Where(names => Mentioned.Writes(statements, names))
            .SelectMany(names => names)
            .ToDictionary(n => n, n => Fresh($"{n}_before"));
    }

    /// <summary>The top bit of a word, null where its width is not written anywhere.</summary>
    public Expression? TopOf(Expression word) =>
        word switch
        {
            NameReference v when Widths.TryGetValue(v.Name, out var width) => new Sliced(
                v.Span,
                v,
                Beside(width, BinaryOperator.Subtract)
            ),
            Sliced v => new Sliced(v.Span, v.Value, v.High),
            Joined v => TopOf(v.Parts[0]),
            Bracketed v => TopOf(v.Inner),
            Call { Function: "signed" or "unsigned" } v => TopOf(v.Arguments[0]),
            _ => null,
        };

    private static Binary Beside(Expression e, BinaryOperator op) =>
        new(e.Span, op, e, new NumberLiteral(Nowhere, "1"));

    private static Binary Less(Expression a, Expression b) =>
        new(a.Span, BinaryOperator.Subtract, a, new Bracketed(b.Span, b));
}
