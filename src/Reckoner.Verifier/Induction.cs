using System.Text.Json;

namespace Reckoner.Verifier;

/// <summary>Bits of a register that invariants speak of by a name.</summary>
internal sealed record Piece(string Name, string Register, Size High, Size Low, bool IsSigned);

/// <summary>What holds at a place of the schedule: pieces of the registers, and facts about them.</summary>
internal sealed record State(IReadOnlyList<Piece> Pieces, IReadOnlyList<Fact> Facts);

/// <summary>
/// Checks the induction: what holds at the head of a loop holds when it is reached, every round but the last keeps it, the last
/// leads to what holds behind the loop; so for each loop in turn, and from the last one to the claims.
/// </summary>
internal sealed class Induction
{
    private readonly Machine machine;
    private readonly bool isInside;
    private readonly IReadOnlyList<(Tree Condition, bool IsSo)> when;
    private readonly Region all;
    private State? before;
    private List<Tree> steps = [];

    public Induction(
        Machine machine,
        bool isInside,
        IReadOnlyList<(Tree Condition, bool IsSo)> when,
        IReadOnlyList<JsonElement> loops
    )
    {
        this.machine = machine;
        this.isInside = isInside;
        this.when = when;
        all = new Region(machine.Least, null);
        var next = 0;
        foreach (var item in machine.Tree.Inside.Where(t => t.Kind is "repeat" or "step"))
        {
            if (item.Kind == "step")
            {
                steps.Add(item);
            }
            else
            {
                Loop(
                    item,
                    next < loops.Count ? loops[next++] : throw new RefusedException(Refusal.CasesDiffer, "loops")
                );
            }
        }
    }

    private void Loop(Tree repeat, JsonElement certificate)
    {
        if (repeat.Text.Length > 0)
        {
            throw new RefusedException(Refusal.NotKnown, "while");
        }
        var count = machine.Size(repeat[0]);
        var last = count - 1;
        if (!all.NeverNegative(last))
        {
            throw new RefusedException(Refusal.NotKnown, "repeat");
        }
        var head = Read(Certificate.Get(certificate, "head"), new Region(machine.Least, last), isExit: false);
        var exit = Read(Certificate.Get(certificate, "exit"), all, isExit: true);
        Check(all, Certificate.Get(certificate, "entry"), path => After(path, Before(path, null), steps, head, 0));
        CheckRound(repeat, count - 2, head, Certificate.Get(certificate, "round"));
        Check(
            all,
            Certificate.Get(certificate, "last"),
            path =>
            {
                Operands(path);
                return After(path, Resumed(path, head, last, isLast: true), Steps(repeat), exit, null);
            }
        );
        (before, steps) = (exit, []);
    }

    private void CheckRound(Tree repeat, Size last, State head, JsonElement cases)
    {
        // Where a loop has no two rounds there is no such round; from which n on it has is the first at which "last" is not below 0.
        if (last.N < 0 || (last.N == 0 && last.K < 0))
        {
            throw new RefusedException(Refusal.NotKnown, "repeat");
        }
        var least = machine.Least;
        while (last.N * least + last.K < 0)
        {
            least++;
        }
        Check(
            new Region(least, last),
            cases,
            path =>
            {
                Operands(path);
                return After(path, Resumed(path, head, null, isLast: false), Steps(repeat), head, new Size(0, 1, 1));
            }
        );
    }

    private static List<Tree> Steps(Tree repeat) => [.. repeat.Of("step")];

    public void CheckClaim(Tree claim, JsonElement cases) =>
        Check(
            all,
            cases,
            path =>
            {
                var execution = Before(path, null);
                steps.ForEach(execution.Take);
                var numbers = Numbers();
                foreach (var result in machine.Tree.Of("result"))
                {
                    numbers[result.Text] = execution.Result(result[0]);
                }
                return new Formulas(machine, path, numbers).Goals(claim);
            }
        );

    private Dictionary<string, Poly> Numbers() =>
        machine.Operands.ToDictionary(o => o.Name, o => Poly.Variable(o.Name));

    // ---- every way

    private static void Check(Region region, JsonElement cases, Func<Path, IReadOnlyList<Fact>> body)
    {
        var open = new Stack<IReadOnlyList<int>>([
            [],
        ]);
        while (open.TryPop(out var script))
        {
            var path = new Path(region, new Cases(cases), script, open.Push);
            try
            {
                CheckGoals(path, body(path));
            }
            catch (ImpossibleException)
            {
                // All ways of a question were refuted, or what was known before cannot be.
            }
        }
    }

    private static void CheckGoals(Path path, IReadOnlyList<Fact> goals)
    {
        var shown = path.Cases.Shown;
        if (shown.Count != goals.Count)
        {
            throw new RefusedException(Refusal.CasesDiffer, "goals");
        }
        for (var g = 0; g < goals.Count; g++)
        {
            var goal = goals[g] with { Poly = path.Plain(goals[g].Poly) };
            if (goal.Plain != true)
            {
                // An equation must be neither 1 or more nor -1 or less, the other only not the latter, scaled to a whole number.
                int[] sides = goal.IsEquation ? [1, -1] : [-1];
                if (shown[g].Count != sides.Length)
                {
                    throw new RefusedException(Refusal.CasesDiffer, "sides");
                }
                for (var s = 0; s < sides.Length; s++)
                {
                    CheckSide(path, goal.Poly, sides[s], shown[g][s]);
                }
            }
            path.KnowShown(goal);
        }
    }

    private static void CheckSide(Path path, Poly poly, int side, (Poly Scale, Sum Sum) shown)
    {
        var scaled = poly * shown.Scale;
        if (!shown.Scale.IsPositivePower || !scaled.IsWhole(path.Region))
        {
            throw new RefusedException(Refusal.NotWhole, "");
        }
        shown.Sum.Check([.. path.Facts, Fact.NotNegative(scaled * side - 1)]);
    }

    // ---- beginnings and ends

    private Execution Before(Path path, bool? isLast)
    {
        var operands = Operands(path);
        if (before is not null)
        {
            return Resumed(path, before, null, isLast);
        }
        var execution = new Execution(machine, path, isLast);
        execution.Load(operands);
        return execution;
    }

    private Dictionary<string, Word> Operands(Path path)
    {
        var words = new Dictionary<string, Word>(StringComparer.Ordinal);
        foreach (var (name, width, reading, _) in machine.Operands)
        {
            if (reading == Reading.Signed)
            {
                var own = path.Signed(name, width);
                var isNegative = path.IsNegative(own);
                path.Define(name + "<0", isNegative ? 1 : 0);
                path.Define($"|{name}|", isNegative ? -own : own);
                words[name] = Word.Signed(own, width);
            }
            else
            {
                words[name] = Word.Of(path.Unsigned(name, width), width);
            }
        }
        var formulas = new Formulas(machine, path, Numbers());
        if (
            machine.Tree.Of("given").All(g => formulas.Holds(g[0])) != isInside
            || when.Any(w => formulas.Holds(w.Condition) != w.IsSo)
        )
        {
            throw new ImpossibleException();
        }
        return words;
    }

    /// <summary>Any state in which the facts hold.</summary>
    private Execution Resumed(Path path, State state, Size? round, bool? isLast)
    {
        Size At(Size size) => round is { } r ? size.AtRound(r) : size;
        var execution = new Execution(machine, path, isLast);
        foreach (var register in state.Pieces.GroupBy(p => p.Register))
        {
            var stretches = new List<Stretch>();
            foreach (var piece in register)
            {
                var width = At(piece.High - piece.Low + 1);
                if (!piece.IsSigned)
                {
                    stretches.Add(new(path.Unsigned(piece.Name, width), width));
                    continue;
                }
                var own = path.Signed(piece.Name, width);
                if (state.Facts.Any(f => f.Poly.Variables.Contains(piece.Name + "<0")))
                {
                    path.Define(piece.Name + "<0", path.IsNegative(own) ? 1 : 0);
                }
                execution.Registers[register.Key] = Word.Signed(own, width);
            }
            if (stretches.Count > 0)
            {
                execution.Registers[register.Key] = Word.Of(stretches);
            }
        }
        foreach (var fact in state.Facts)
        {
            path.KnowShown(fact with { Poly = round is { } r ? fact.Poly.AtRound(r) : fact.Poly });
        }
        return execution;
    }

    /// <summary>Takes the steps; gives what must hold then.</summary>
    private static List<Fact> After(Path path, Execution execution, IReadOnlyList<Tree> steps, State state, Size? round)
    {
        foreach (var step in steps)
        {
            execution.Take(step);
        }
        Size At(Size size) => round is { } r ? size.AtRound(r) : size;
        var values = new Dictionary<string, Poly>(StringComparer.Ordinal);
        foreach (var piece in state.Pieces)
        {
            var word = execution.Registers[piece.Register];
            if (!piece.IsSigned)
            {
                values[piece.Name] = word.Slice(path, At(piece.High), At(piece.Low)).Number(path);
                continue;
            }
            var own = values[piece.Name] = path.Plain(word.AsSigned(path));
            if (state.Facts.Any(f => f.Poly.Variables.Contains(piece.Name + "<0")))
            {
                values[piece.Name + "<0"] = path.IsNegative(own) ? 1 : 0;
            }
        }
        return
        [
            .. state.Facts.Select(f => f with { Poly = (round is { } r ? f.Poly.AtRound(r) : f.Poly).With(values) }),
        ];
    }

    // ---- what the certificate says of a place

    private const int MostPieces = 1000;
    private const int MostFacts = 4000;

    private State Read(JsonElement node, Region region, bool isExit)
    {
        var pieces = Certificate
            .AtMost(MostPieces, Certificate.List(Certificate.Get(node, "pieces")))
            .Select(p => new Piece(
                Certificate.Text(Certificate.At(p, 0)),
                Certificate.Text(Certificate.At(p, 1)),
                Certificate.Size(Certificate.At(p, 2)),
                Certificate.Size(Certificate.At(p, 3)),
                Certificate.Number(Certificate.At(p, 4)) != 0
            ))
            .ToList();
        CheckPieces(pieces, region);
        var facts = Certificate
            .AtMost(MostFacts, Certificate.List(Certificate.Get(node, "facts")))
            .Select(f => new Fact(
                Certificate.Poly(Certificate.At(f, 1)),
                Certificate.Text(Certificate.At(f, 0)) == "="
            ))
            .ToList();
        var known = pieces
            .Select(p => p.Name)
            .Concat(machine.Operands.Select(o => o.Name))
            .ToHashSet(StringComparer.Ordinal);
        var signed = pieces.Where(p => p.IsSigned).Select(p => p.Name).ToList();
        var operands = machine.Operands.Where(o => o.Reading == Reading.Signed).Select(o => o.Name).ToList();
        known.UnionWith(signed.Concat(operands).Select(s => s + "<0").Concat(operands.Select(o => $"|{o}|")));
        return facts.TrueForAll(f =>
            f.Poly.Variables.All(known.Contains) && (!isExit || f.Poly.Parts.Keys.All(p => p.I == 0))
        )
            ? new(pieces, facts)
            : throw new RefusedException(Refusal.WrongPieces, "facts");
    }

    /// <summary>
    /// The pieces of every register, in the order of the text, from its top to its bottom without gap or overlap. A signed one is the
    /// whole of its register: another, of no width, would stand in its place. A piece without a name would be lost from every product.
    /// </summary>
    private void CheckPieces(List<Piece> pieces, Region region)
    {
        var names = pieces.Select(p => p.Name).Concat(machine.Operands.Select(o => o.Name)).ToList();
        var areNamed =
            names.Distinct().Count() == names.Count
            && pieces.TrueForAll(p => p.Name.Length > 0 && p.Name.IndexOfAny(['#', '<', '|', ';', ' ']) < 0);
        var next = 0;
        foreach (var register in machine.Registers)
        {
            var top = register.Width;
            while (next < pieces.Count && pieces[next].Register == register.Name)
            {
                var piece = pieces[next++];
                var fits =
                    !piece.IsSigned
                    || (
                        piece.Low == 0
                        && piece.High == register.Width - 1
                        && register.Reading == Reading.Signed
                        && pieces.Count(p => p.Register == piece.Register) == 1
                    );
                areNamed &= fits && piece.High == top - 1 && region.NeverNegative(piece.High - piece.Low + 1);
                top = piece.Low;
            }
            areNamed &= top == 0;
        }
        if (!areNamed || next != pieces.Count)
        {
            throw new RefusedException(Refusal.WrongPieces, "");
        }
    }
}
