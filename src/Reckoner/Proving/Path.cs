namespace Reckoner.Proving;

/// <summary>
/// One way through a stretch of the schedule: what is known on it, and how every question on the way was answered. Whoever walks it
/// again in the same way meets the same questions, variables and facts in the same order; a certificate relies on that.
/// </summary>
internal sealed class Path
{
    private readonly Exploration exploration;
    private readonly Dictionary<int, Form> fixedTo = [];
    private readonly Dictionary<Asked, int> answers = [];
    private readonly Dictionary<Asked, Made> made = [];
    private List<Instance> instances;
    private Knowledge? knowledge;
    private Case at;
    private int asked;
    private int fresh;

    public Path(Exploration exploration, Case root, IReadOnlyList<int> script, IEnumerable<Instance> instances)
    {
        this.exploration = exploration;
        at = root;
        Script = [.. script];
        this.instances = [.. instances];
        foreach (var limit in exploration.Region.Limits)
        {
            Facts.Add(Fact.NotNegative(Form.Power(limit) - Form.One));
        }
    }

    public Region Region => exploration.Region;

    public Variables Variables => exploration.Variables;

    public List<Fact> Facts { get; } = [];

    /// <summary>Where in the tree of cases the path has come to.</summary>
    public Case Case => at;

    public List<int> Script { get; }

    /// <summary>States that were met and take this way.</summary>
    public IReadOnlyList<Instance> Instances => instances;

    /// <summary>What is known, as it is reasoned with.</summary>
    public Knowledge Knowledge
    {
        get
        {
            exploration.Spend();
            return knowledge is not null && knowledge.Count == Facts.Count
                ? knowledge
                : knowledge = new Knowledge(Facts, Variables);
        }
    }

    // ---- facts and variables

    public void Know(Fact fact)
    {
        fact = fact with { Form = Plain(fact.Form) };
        Facts.Add(fact);
        if (fact.IsEquation && Only(fact.Form) is var (variable, value))
        {
            foreach (var (other, form) in fixedTo.ToList())
            {
                fixedTo[other] = form.With(variable, value);
            }
            fixedTo[variable] = value;
        }
    }

    /// <summary>Something of a numbered list is known; what is plainly so adds nothing.</summary>
    /// <exception cref="ImpossibleException">It is plainly not so.</exception>
    public void KnowOf(int number, Fact fact)
    {
        fact = fact with { Form = Plain(fact.Form) };
        var isShown = ShownFrom <= Facts.Count;
        if (fact.Plain == false || SaysNumber(fact))
        {
            (isShown ? Decisive : exploration.Decisive).Add(number);
        }
        if (fact.Plain == false)
        {
            throw new ImpossibleException();
        }
        if (fact.Plain is null)
        {
            KnownOf[Facts.Count] = number;
            Know(fact);
        }
    }

    /// <summary>From here on facts are goals that were shown.</summary>
    public int ShownFrom { get; set; } = int.MaxValue;

    /// <summary>For facts that stand in a list (what holds at the beginning, then what was shown), their numbers in it.</summary>
    public Dictionary<int, int> KnownOf { get; } = [];

    /// <summary>Of the goals that were shown, the numbers of those that say which number a variable is.</summary>
    public HashSet<int> Decisive { get; } = [];

    /// <summary>Whether it says of one variable which number it is.</summary>
    private static bool SaysNumber(Fact fact) => fact.IsEquation && Only(fact.Form) is not null;

    /// <summary>Where an equation without powers is about one variable alone, the number that it is.</summary>
    private static (int Variable, Form Value)? Only(Form form)
    {
        var variables = form.Variables.Take(2).ToList();
        if (variables.Count != 1 || form.Products.Any(m => m.Degree > 1 || m.N != 0 || m.I != 0))
        {
            return null;
        }
        var factor = form.FactorOf(Monomial.Variable(variables[0]));
        return (variables[0], Form.Of(-form.Constant / factor));
    }

    /// <summary>The same with numbers for variables that are known to be numbers.</summary>
    public Form Plain(Form form) => form.With(fixedTo);

    /// <summary>A variable for bits of this width without sign.</summary>
    public Form Unsigned(int variable, Extent width)
    {
        var form = Form.Variable(variable);
        Know(Fact.NotNegative(form));
        Know(Fact.NotNegative(Form.Power(width) - Form.One - form));
        return form;
    }

    /// <summary>A variable for bits of this width in two's complement.</summary>
    public Form Signed(int variable, Extent width)
    {
        var form = Form.Variable(variable);
        Know(Fact.NotNegative(form + Form.Power(width - 1)));
        Know(Fact.NotNegative(Form.Power(width - 1) - Form.One - form));
        return form;
    }

    /// <param name="value">What it is in a state that was met.</param>
    public Form Fresh(Extent width, Func<Instance, double> value)
    {
        var variable = Variables.Fresh(++fresh);
        foreach (var instance in instances)
        {
            instance[variable] = value(instance);
        }
        return Unsigned(variable, width);
    }

    /// <summary>A variable stands for a form from now on.</summary>
    public void Define(int variable, Form form) => fixedTo[variable] = form;

    // ---- questions

    private enum Question
    {
        Zero,
        Negative,
        One,
        Lost,
        Wrapped,
        WrappedSigned,
        Halves,
        QuotientDown,
        QuotientToZero,
        Saved,
    }

    /// <summary>What was asked, or made, of which forms: the same question is answered once.</summary>
    private sealed record Asked(Question Question, Form Form, Extent? Width, Form? Second = null, Form? Third = null);

    /// <summary>New variables, as many as the question makes.</summary>
    private sealed record Made(Form First, Form? Second = null)
    {
        /// <summary>Where bits came apart; null where they did not.</summary>
        public Extent? Place { get; init; }
    }

    /// <summary>An answer, and what is so then.</summary>
    private sealed record Way(int Answer, params Fact[] Facts);

    /// <summary>
    /// Takes one of several ways; in every state exactly one of them is so. A way that is plainly impossible is not counted.
    /// </summary>
    /// <exception cref="ImpossibleException">None of them is possible.</exception>
    private int Choose(IEnumerable<Way> ways)
    {
        var open = ways.Where(w => w.Facts.All(f => (f with { Form = Plain(f.Form) }).Plain != false)).ToList();
        if (open.Count == 0)
        {
            throw new ImpossibleException();
        }
        var way = open[open.Count == 1 ? 0 : Ask(open)];
        foreach (var fact in way.Facts)
        {
            if ((fact with { Form = Plain(fact.Form) }).Plain is null)
            {
                Know(fact);
            }
        }
        instances.RemoveAll(i => !Array.TrueForAll(way.Facts, f => f.IsSoIn(i)));
        return way.Answer;
    }

    private int Answered(Asked asked, Func<Form, IEnumerable<Way>> ways)
    {
        if (!answers.TryGetValue(asked, out var answer))
        {
            answer = answers[asked] = Choose(ways(asked.Form));
        }
        return answer;
    }

    private int Ask(List<Way> ways)
    {
        if (asked == Script.Count)
        {
            at.Split([.. ways.Select(w => Impossible(w.Facts))]);
            var possible = Enumerable.Range(0, ways.Count).Where(w => at.Ways[w] is not null).ToList();
            if (possible.Count == 0)
            {
                throw new ImpossibleException();
            }
            foreach (var other in possible.Skip(1))
            {
                exploration.Later([.. Script, other]);
            }
            Script.Add(possible[0]);
        }
        var way = Script[asked++];
        at = at.Ways[way]!;
        return way;
    }

    private Refutation? Impossible(Fact[] way)
    {
        if (instances.Exists(i => Array.TrueForAll(way, f => f.IsSoIn(i))))
        {
            return null;
        }
        var assumed = way.Select(f => f with { Form = Plain(f.Form) }).Where(f => f.Plain is null).ToList();
        return assumed.Exists(f => f.IsEquation)
            ? new Knowledge([.. Facts, .. assumed], Variables).Refuted([], Effort.Choice)
            : Knowledge.Refuted(assumed, Effort.Choice);
    }

    public bool IsZero(Form form) =>
        IsSo(
            Question.Zero,
            form,
            f => [new(1, Fact.Zero(f)), new(0, Fact.NotNegative(f - Form.One)), new(0, Fact.Negative(f))]
        );

    public bool IsNegative(Form form) =>
        IsSo(Question.Negative, form, f => [new(0, Fact.NotNegative(f)), new(1, Fact.Negative(f))]);

    /// <summary>One bit.</summary>
    public bool IsOne(Form bit) =>
        IsSo(Question.One, bit, f => [new(0, Fact.Zero(f)), new(1, Fact.Zero(f - Form.One))]);

    /// <summary>Whether bits that leave a word are not all 0; a single one is then known to be 1.</summary>
    public bool IsLost(Form form, Extent width) =>
        width == 1
            ? IsOne(form)
            : IsSo(Question.Lost, form, f => [new(0, Fact.Zero(f)), new(1, Fact.NotNegative(f - Form.One))]);

    private bool IsSo(Question question, Form form, Func<Form, IEnumerable<Way>> ways)
    {
        form = Plain(form);
        if (form.IsConstant)
        {
            return question == Question.Zero ? form.IsZero
                : question == Question.Negative ? form.Constant.Sign < 0
                : !form.IsZero;
        }
        return Answered(new(question, form, null), ways) != 0;
    }

    /// <summary>A number taken into the range of a word, and how often 2^width was taken from it.</summary>
    /// <param name="turns">How often that may be.</param>
    public (Form Form, int Turns) Wrapped(Form form, Extent width, bool isSigned, params IReadOnlyList<int> turns)
    {
        form = Plain(form);
        var turn = Answered(
            new(isSigned ? Question.WrappedSigned : Question.Wrapped, form, width),
            _ => turns.Select(Ranged)
        );
        return (Taken(turn), turn);

        Form Taken(int turn) => form - Form.Power(width).Times(turn);

        Way Ranged(int turn)
        {
            var half = isSigned ? Form.Power(width - 1) : Form.Zero;
            return new(
                turn,
                Fact.NotNegative(Taken(turn) + half),
                Fact.NotNegative(Form.Power(width) - Form.One - half - Taken(turn))
            );
        }
    }

    /// <summary>
    /// The rounded quotient of two whole numbers, the divisor not 0: what is left of the dividend has the sign of the divisor
    /// (rounded down) or of the dividend (toward zero), and is smaller than the divisor.
    /// </summary>
    public Form Quotient(Form dividend, Form divisor, bool isDown)
    {
        var isNegative = IsNegative(divisor);
        var size = isNegative ? -divisor : divisor;
        var isLeftNegative = isDown ? isNegative : IsNegative(dividend);
        var asked = new Asked(isDown ? Question.QuotientDown : Question.QuotientToZero, dividend, null, divisor);
        if (!made.TryGetValue(asked, out var quotient))
        {
            var variable = Variables.Fresh(++fresh);
            foreach (var instance in instances)
            {
                var ratio = dividend.At(instance) / divisor.At(instance);
                instance[variable] = isDown ? Math.Floor(ratio) : Math.Truncate(ratio);
            }
            quotient = made[asked] = new(Form.Variable(variable));
            var left = (dividend - quotient.First * divisor).Times(isLeftNegative ? -1 : 1);
            Know(Fact.NotNegative(left));
            Know(Fact.NotNegative(size - Form.One - left));
        }
        return quotient.First;
    }

    /// <summary>The sum word and the carry word of three words of a width.</summary>
    public (Form Sum, Form Carry) Saved(Form a, Form b, Form c, Extent width)
    {
        (a, b, c) = (Plain(a), Plain(b), Plain(c));
        var asked = new Asked(Question.Saved, a, null, b, c);
        if (!made.TryGetValue(asked, out var pair))
        {
            long Number(Form form, Instance i) => (long)form.At(i);
            var sum = Fresh(width, i => Number(a, i) ^ Number(b, i) ^ Number(c, i));
            var carry = Fresh(
                width,
                i => (Number(a, i) & Number(b, i)) | (Number(a, i) & Number(c, i)) | (Number(b, i) & Number(c, i))
            );
            Know(Fact.Zero(a + b + c - sum - carry.Times(2)));
            pair = made[asked] = new(sum, carry);
        }
        return (pair.First, pair.Second!);
    }

    /// <summary>1 where a place is higher than another, -1 where it is lower, 0 where they are the same, always.</summary>
    public int Compare(Extent a, Extent b) =>
        Region.NeverNegative(a - b)
            ? Region.NeverNegative(b - a)
                ? 0
                : 1
            : Region.NeverNegative(b - a)
                ? -1
                : throw new NotReachedException(Obstacle.Places, $"{a}, {b}");

    /// <summary>The two parts into which bits come apart at a place that lies inside them.</summary>
    public (Stretch High, Stretch Low) Halves(Stretch stretch, Extent place)
    {
        var form = Plain(stretch.Form);
        var asked = new Asked(Question.Halves, form, stretch.Width);
        if (!made.TryGetValue(asked, out var halves))
        {
            double Power(Instance i) => Math.ScaleB(1, place.At(i.N, i.I));
            var low = Fresh(place, i => form.At(i) - Math.Floor(form.At(i) / Power(i)) * Power(i));
            var high = Fresh(stretch.Width - place, i => Math.Floor(form.At(i) / Power(i)));
            Know(Fact.Zero(form - high * Form.Power(place) - low));
            halves = made[asked] = new(high, low) { Place = place };
        }
        return (new(halves.First, stretch.Width - halves.Place!), new(halves.Second!, halves.Place!));
    }
}

/// <summary>No state takes this way.</summary>
internal sealed class ImpossibleException : Exception;
