namespace Reckoner.Proving;

/// <summary>
/// What may be so at the head of every round, or behind the last: equations and bounds that hold in every state that was met. Most
/// of them are; which ones is shown by induction.
/// </summary>
internal sealed class Candidates(LiftedMachine machine, IReadOnlyList<Trace> traces, Variables variables)
{
    private sealed class Features
    {
        public required List<int> Operands { get; init; }
        public required List<int> OperandSigns { get; init; }
        public required List<int> Unsigned { get; init; }
        public required List<int> State { get; init; }
        public required List<int> StateSigns { get; init; }
        public required HashSet<int> Bits { get; init; }
    }

    public (List<Fact> Facts, States States) Of(int loop, bool isExit, IReadOnlyList<Piece> pieces)
    {
        var states = Met(loop, isExit, pieces);
        if (states.Groups.Count == 0)
        {
            return ([], states);
        }
        var features = FeaturesOf(states, pieces);
        var relations = Independent(new Relations(states).Find(Single(features), Products(features)));
        var forms = Bounded(features, relations);
        var plain = Plain(features, relations);
        var bounds = new Bounds(
            states,
            features.Unsigned,
            [.. pieces.Where(p => !p.IsSigned && !p.IsBit).Select(p => p.Variable).Except(plain)],
            !isExit
        );
        // What the width of a piece says, or another bound once what is equal is replaced, need not be said again.
        var equations = new Knowledge([.. relations.Select(Fact.Zero)], variables);
        var said = pieces.SelectMany(Said).Select(equations.Reduced).ToHashSet();
        var facts = relations.ConvertAll(Fact.Zero);
        facts.AddRange(
            forms
                .SelectMany(bounds.Of)
                .Where(b => equations.Reduced(b) is { IsConstant: false } reduced && said.Add(reduced))
                .Select(Fact.NotNegative)
        );
        var ordered = facts.OrderBy(f => !f.IsEquation).ThenBy(f => f.Form.Degree).ThenBy(f => f.Form.Parts.Count);
        return ([.. ordered], states);
    }

    /// <summary>
    /// The equations that do not follow from those before them, the simple ones first; in products operands stand for what is equal
    /// to them.
    /// </summary>
    private List<Form> Independent(IReadOnlyList<Form> relations)
    {
        var kept = new List<Form>();
        foreach (var relation in relations.OrderBy(r => r.Degree))
        {
            var reduced = new Knowledge([.. kept.Select(Fact.Zero)], variables).Reduced(relation);
            if (!reduced.IsZero)
            {
                kept.Add(relation.Degree > 1 ? reduced : relation);
            }
        }
        return kept;
    }

    /// <summary>The operands of the traces.</summary>
    public List<Instance> Loads() => [.. traces.Select(t => OfOperands(t, 0))];

    private Instance OfOperands(Trace trace, int round)
    {
        var instance = new Instance(trace.N, round);
        for (var o = 0; o < trace.Operands.Count; o++)
        {
            var (operand, number) = (machine.Datapath.Operands[o], trace.Operands[o]);
            instance[variables.Operand(operand.Name)] = number;
            if (operand.IsSigned)
            {
                instance[variables.Sign(operand.Name)] = number < 0 ? 1 : 0;
                instance[variables.Magnitude(operand.Name)] = Math.Abs(number);
            }
        }
        return instance;
    }

    /// <summary>The states of the traces, with a number for every variable.</summary>
    public States Met(int loop, bool isExit, IReadOnlyList<Piece> pieces)
    {
        var groups = new Dictionary<Group, List<Instance>>();
        foreach (var trace in traces)
        {
            foreach (var head in trace.Heads.Where(h => h.Loop == loop && h.IsExit == isExit))
            {
                var instance = OfOperands(trace, isExit ? 0 : head.Round);
                foreach (var piece in pieces)
                {
                    var number = piece.Number(head.Registers[piece.Register.Index], trace.N, head.Round);
                    instance[piece.Variable] = number;
                    if (piece.IsSigned)
                    {
                        instance[variables.Sign(piece.Name)] = number < 0 ? 1 : 0;
                    }
                }
                var key = new Group(instance.N, instance.I);
                (groups.TryGetValue(key, out var group) ? group : groups[key] = []).Add(instance);
            }
        }
        return new States(groups);
    }

    private Features FeaturesOf(States states, IReadOnlyList<Piece> pieces)
    {
        var operands = machine.Datapath.Operands;
        var signed = operands.Where(o => o.IsSigned).ToList();
        bool IsMagnitudeLoaded(Datapaths.Operand o) =>
            o.IsSigned
            && machine
                .Datapath.Registers.SelectMany(r => All(r.Loads))
                .Any(v => v.Operation == Datapaths.Operation.Magnitude && All(v).Any(x => x.Operand == o));
        int Named(Datapaths.Operand o) =>
            IsMagnitudeLoaded(o) ? variables.Magnitude(o.Name) : variables.Operand(o.Name);
        bool RepeatsOperand(Piece p) => operands.Any(o => states.All.All(s => s[p.Variable] == s[Named(o)]));
        return new Features
        {
            Operands = [.. operands.Select(Named)],
            OperandSigns = [.. signed.Select(o => variables.Sign(o.Name))],
            Unsigned = [.. operands.Where(o => !o.IsSigned || IsMagnitudeLoaded(o)).Select(Named)],
            State = [.. pieces.OrderBy(p => p.IsBit).Select(p => p.Variable)],
            StateSigns = [.. pieces.Where(p => p.IsSigned && !RepeatsOperand(p)).Select(p => variables.Sign(p.Name))],
            Bits = [.. pieces.Where(p => p.IsBit).Select(p => p.Variable)],
        };
    }

    private static IEnumerable<Datapaths.Value> All(Datapaths.Value value) =>
        value.Inputs.SelectMany(All).Prepend(value);

    private static List<Monomial> Single(Features f) =>
        [.. f.Operands.Concat(f.OperandSigns).Concat(f.State).Concat(f.StateSigns).Select(Monomial.Variable)];

    private static List<Monomial> Products(Features f)
    {
        var wide = f.State.Where(s => !f.Bits.Contains(s)).ToList();
        var bits = f.State.Where(f.Bits.Contains).ToList();
        var pairs = f
            .State.Concat(f.StateSigns)
            .SelectMany(s => f.Operands.Select(o => (s, o)))
            .Concat(wide.Select(s => (s, s)))
            .Concat(wide.SelectMany(s => f.StateSigns.Concat(bits).Select(b => (s, b))))
            .Concat(
                f.Operands.SelectMany(
                    (o, k) => f.Operands.Skip(k + 1).Concat(f.OperandSigns).Select(other => (o, other))
                )
            )
            .Concat(f.OperandSigns.SelectMany((o, k) => f.OperandSigns.Skip(k + 1).Select(other => (o, other))));
        return [.. pairs.Select(p => Monomial.Variable(p.Item1) * Monomial.Variable(p.Item2)).Distinct()];
    }

    /// <summary>Pieces that an equation says in terms of operands alone: bounds of them say nothing.</summary>
    private static HashSet<int> Plain(Features f, IReadOnlyList<Form> relations)
    {
        var plain = new HashSet<int>();
        foreach (var relation in relations.Where(r => r.Degree <= 1))
        {
            if (relation.Variables.Where(f.State.Contains).ToList() is [var only])
            {
                plain.Add(only);
            }
        }
        return plain;
    }

    /// <summary>The forms that are worth a bound: pieces, what an operand is multiplied with in an equation, sums of pieces.</summary>
    private static List<Form> Bounded(Features f, IReadOnlyList<Form> relations)
    {
        var plain = Plain(f, relations);
        var forms = f.State.Where(s => !f.Bits.Contains(s) && !plain.Contains(s)).Select(Form.Variable).ToList();
        foreach (var relation in relations)
        {
            foreach (var operand in f.Operands)
            {
                var products = relation.Parts.Where(p => p.Product.Degree == 2 && p.Product.Has(operand)).ToList();
                var beside = Sum(products.Select(p => Form.Of(p.Product.Without(operand), p.Factor)));
                if (
                    beside.Parts.Count < 2
                    && !(beside.Parts.Count == 1 && beside.Variables.Any(f.OperandSigns.Contains))
                )
                {
                    continue;
                }
                var lead = beside
                    .Products.Where(m => m.Variables.Any(f.Operands.Contains))
                    .Append(beside.Products.First())
                    .First();
                forms.Add(Scaled(beside, lead));
                var wide = Sum(
                    beside
                        .Parts.Where(p => !p.Product.Variables.Any(f.Bits.Contains))
                        .Select(p => Form.Of(p.Product, p.Factor))
                );
                if (wide.Parts.Count >= 2 && wide.Parts.Count < beside.Parts.Count)
                {
                    forms.Add(Scaled(wide, wide.Products.Contains(lead) ? lead : wide.Products.First()));
                }
            }
            var sum = Sum(
                relation
                    .Parts.Where(p => p.Product.Degree == 1 && f.State.Contains(p.Product.Variables.First()))
                    .Select(p => Form.Of(p.Product, p.Factor))
            );
            if (
                sum.Parts.Count >= 2
                && relation.Degree == 2
                && sum.Products.FirstOrDefault(m => !m.Variables.Any(f.Bits.Contains)) is { Factors: not 0 } first
            )
            {
                forms.Add(Scaled(sum, first));
            }
        }
        return [.. forms.Distinct()];
    }

    private static Form Sum(IEnumerable<Form> forms) => forms.Aggregate(Form.Zero, (a, b) => a + b);

    /// <summary>The same with the factor 1 at one of its products.</summary>
    private static Form Scaled(Form form, Monomial lead) =>
        form.Times(new Monomial(-lead.N, -lead.I, 0), 1 / form.FactorOf(lead));

    /// <summary>What the width of a piece says of it anyway.</summary>
    private static IEnumerable<Form> Said(Piece piece)
    {
        var own = Form.Variable(piece.Variable);
        if (piece.IsSigned)
        {
            var half = Form.Power(piece.Width - 1);
            return [own + half, half - Form.One - own, half - own];
        }
        var all = Form.Power(piece.Width);
        return [own, own + Form.One, all - own, all - Form.One - own];
    }
}
