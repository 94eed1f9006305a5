using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Execution;

namespace Reckoner.Proving;

/// <summary>
/// Walks the stretches of a schedule at every width at once: from the load or the end of a loop into the next loop, through one
/// round, out of the last, and to the results.
/// </summary>
internal sealed class Induction(
    LiftedMachine machine,
    Variables variables,
    IReadOnlyList<Instance> loads,
    Allowance allowance,
    OperandPart part
)
{
    private readonly Datapath datapath = machine.Datapath;

    public IReadOnlyList<Claim> Claims => part.IsInside ? datapath.Laws : datapath.Outside;

    /// <summary>A path at the end of a stretch, and what must be so there.</summary>
    public sealed record End(Path Path, IReadOnlyList<Fact> Goals);

    public (Exploration Exploration, List<End> Ends) Entry(
        LoopInvariant? before,
        IReadOnlyList<Step> steps,
        LoopInvariant loop
    ) =>
        Walk(
            FromWidth(machine.Least),
            before?.ExitStates.All.ToList() ?? loads,
            path =>
            {
                var execution = Before(path, before);
                Take(execution, steps);
                return At(path, execution, loop.HeadPieces, loop.Head, 0);
            }
        );

    /// <summary>Null where no loop has two rounds.</summary>
    public (Exploration Exploration, List<End> Ends) Round(LoopInvariant loop)
    {
        var last = machine.Count(loop.Segment) - 2;
        var region = new Region(machine.Least, last);
        while (!new Region(region.Least, null).NeverNegative(last))
        {
            region =
                region.Least > machine.Least + 64
                    ? throw new NotReachedException(Obstacle.NoRound)
                    : region with
                    {
                        Least = region.Least + 1,
                    };
        }
        return Walk(
            region,
            [.. loop.HeadStates.All.Where(s => s.I <= last.At(s.N, 0))],
            path =>
            {
                Operands(path);
                var execution = Resumed(path, loop.HeadPieces, loop.Head, null);
                Take(execution, loop.Segment, isLast: false);
                return At(path, execution, loop.HeadPieces, loop.Head, Extent.Rounds + 1);
            }
        );
    }

    public (Exploration Exploration, List<End> Ends) Last(LoopInvariant loop)
    {
        var last = machine.Count(loop.Segment) - 1;
        var region = FromWidth(machine.Least);
        if (!region.NeverNegative(last))
        {
            throw new NotReachedException(Obstacle.NoRound);
        }
        return Walk(
            region,
            [.. loop.HeadStates.All.Where(s => s.I == last.At(s.N, 0)).Select(s => s.Copy(s.N, 0))],
            path =>
            {
                Operands(path);
                var execution = Resumed(path, loop.HeadPieces, loop.Head, last);
                Take(execution, loop.Segment, isLast: true);
                return At(path, execution, loop.ExitPieces, loop.Exit, null);
            }
        );
    }

    public (Exploration Exploration, List<End> Ends) Results(
        LoopInvariant? before,
        IReadOnlyList<Step> steps,
        Claim claim
    ) =>
        Walk(
            FromWidth(machine.Least),
            before?.ExitStates.All.ToList() ?? loads,
            path =>
            {
                var execution = Before(path, before);
                Take(execution, steps);
                var results = datapath
                    .Results.Select(r => Number(path, execution.Word(r.Value).Value, r.Value))
                    .ToList();
                return new End(path, OfClaims(path, results).Goals(claim));
            }
        );

    private static Region FromWidth(int least) => new(least, null);

    private (Exploration, List<End>) Walk(Region region, IReadOnlyList<Instance> instances, Func<Path, End> body)
    {
        var exploration = new Exploration(region, variables, allowance);
        // A handful of states of every width and round tells which ways are possible.
        var few = instances.GroupBy(i => (i.N, i.I)).SelectMany(g => g.Take(12)).ToList();
        return (exploration, [.. exploration.Walk(few, body).Select(e => e.End)]);
    }

    // ---- beginnings

    private Execution<Lazy<Word>> Before(Path path, LoopInvariant? before)
    {
        var operands = Operands(path);
        if (before is not null)
        {
            return Resumed(path, before.ExitPieces, before.Exit, null);
        }
        var execution = new Execution<Lazy<Word>>(new SymbolicWords(machine, path, operands));
        execution.Load(datapath);
        foreach (var register in execution.Registers)
        {
            _ = register.Value;
        }
        return execution;
    }

    /// <summary>The operands as words, with what "given" says of them.</summary>
    private List<Word> Operands(Path path)
    {
        var words = new List<Word>();
        foreach (var operand in datapath.Operands)
        {
            var (variable, width) = (variables.Operand(operand.Name), machine.Width(operand));
            if (operand.IsSigned)
            {
                var form = path.Signed(variable, width);
                Signed(path, operand.Name, form);
                path.Define(variables.Magnitude(operand.Name), path.IsNegative(form) ? -form : form);
                words.Add(Word.Signed(form, width));
            }
            else
            {
                words.Add(Word.Of(path.Unsigned(variable, width), width));
            }
        }
        var formulas = OfClaims(path, []);
        if (
            datapath.Given.All(g => formulas.Holds(g.Formula)) != part.IsInside
            || part.When.Any(w => formulas.Holds(datapath.Laws[w.Law].Condition!) != w.IsSo)
        )
        {
            throw new ImpossibleException();
        }
        return words;
    }

    private void Signed(Path path, string name, Form form) =>
        path.Define(variables.Sign(name), path.IsNegative(form) ? Form.One : Form.Zero);

    private Formulas OfClaims(Path path, IReadOnlyList<Form> results) =>
        new(
            machine,
            path,
            v =>
                v.Kind switch
                {
                    VariableKind.Operand => Form.Variable(variables.Operand(v.Name)),
                    VariableKind.Result => results[v.Index],
                    VariableKind.Index or VariableKind.Parameter => throw new NotReachedException(
                        Obstacle.Formula,
                        v.Name
                    ),
                }
        );

    /// <param name="round">How many rounds are done; null for any number of them.</param>
    private Execution<Lazy<Word>> Resumed(
        Path path,
        IReadOnlyList<Piece> pieces,
        IReadOnlyList<Fact> known,
        Extent? round
    )
    {
        var registers = new List<Lazy<Word>>();
        foreach (var own in pieces.GroupBy(p => p.Register))
        {
            var stretches = new List<Stretch>();
            foreach (var piece in own)
            {
                var width = round is { } at ? piece.Width.AtRound(at) : piece.Width;
                if (piece.IsSigned)
                {
                    var form = path.Signed(piece.Variable, width);
                    if (known.Any(k => k.Form.Has(variables.Sign(piece.Name))))
                    {
                        Signed(path, piece.Name, form);
                    }
                    registers.Add(new(Word.Signed(form, width)));
                }
                else
                {
                    stretches.Add(new(path.Unsigned(piece.Variable, width), width));
                }
            }
            if (stretches.Count > 0)
            {
                registers.Add(new(Word.Of(stretches)));
            }
        }
        for (var k = 0; k < known.Count; k++)
        {
            path.KnowOf(k, known[k] with { Form = round is { } at ? known[k].Form.AtRound(at) : known[k].Form });
        }
        var execution = new Execution<Lazy<Word>>(new SymbolicWords(machine, path, []));
        execution.Begin(registers);
        return execution;
    }

    // ---- ends

    private static void Take(Execution<Lazy<Word>> execution, IReadOnlyList<Step> steps)
    {
        foreach (var step in steps)
        {
            execution.Take(new Cycle(0, new Segment(0, 0, null, [step], 0), 1, step));
        }
    }

    private static void Take(Execution<Lazy<Word>> execution, Segment segment, bool isLast)
    {
        foreach (var step in segment.Steps)
        {
            execution.Take(new Cycle(0, segment, isLast ? segment.Count : 0, step));
        }
    }

    private End At(
        Path path,
        Execution<Lazy<Word>> execution,
        IReadOnlyList<Piece> pieces,
        IReadOnlyList<Fact> wanted,
        Extent? round
    )
    {
        var values = new Dictionary<int, Form>();
        foreach (var piece in pieces)
        {
            var word = execution.Registers[piece.Register.Index].Value;
            if (!piece.IsSigned)
            {
                var (high, low) = round is { } at
                    ? (piece.High.AtRound(at), piece.Low.AtRound(at))
                    : (piece.High, piece.Low);
                values[piece.Variable] = word.Slice(path, high, low).Number(path);
                continue;
            }
            var form = values[piece.Variable] = path.Plain(word.AsSigned(path));
            if (wanted.Any(w => w.Form.Has(variables.Sign(piece.Name))))
            {
                values[variables.Sign(piece.Name)] = path.IsNegative(form) ? Form.One : Form.Zero;
            }
        }
        return new End(
            path,
            [.. wanted.Select(w => w with { Form = (round is { } at ? w.Form.AtRound(at) : w.Form).With(values) })]
        );
    }

    private static Form Number(Path path, Word word, Value value) =>
        value.Reading == Reading.Signed ? word.AsSigned(path) : word.Number(path);
}
