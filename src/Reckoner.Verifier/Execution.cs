namespace Reckoner.Verifier;

/// <summary>
/// Statements of a description executed on one path: every width a formula, every question put to the path. What a line names is
/// computed when it is needed, on the registers as they were at that line.
/// </summary>
internal sealed partial class Execution(Machine machine, Path path, bool? isLast)
{
    /// <summary>A named value: its width and reading are known before it is computed.</summary>
    private sealed record Wire(Size Width, Reading Reading, Lazy<Word> Word);

    /// <summary>What names stand for where a value is computed.</summary>
    private sealed record Scope(IReadOnlyDictionary<string, Word> Registers, IReadOnlyDictionary<string, Wire> Wires);

    private Dictionary<string, Wire> wires = new(StringComparer.Ordinal);

    public Dictionary<string, Word> Registers { get; private set; } = new(StringComparer.Ordinal);

    private Scope Now => new(Registers, wires);

    /// <summary>Operands are there at the load only.</summary>
    public void Load(IReadOnlyDictionary<string, Word> operands)
    {
        var loaded = new Dictionary<string, Word>(StringComparer.Ordinal);
        var at = new Dictionary<string, Wire>(StringComparer.Ordinal);
        foreach (var operand in machine.Operands)
        {
            at[operand.Name] = new(operand.Width, operand.Reading, new(operands[operand.Name]));
        }
        foreach (var register in machine.Registers)
        {
            var word = Value(register.Loads!, register.Width, new(Registers, at));
            loaded[register.Name] = Fitting(word, register.Width);
        }
        Registers = loaded;
    }

    /// <summary>The number of a result, by its reading.</summary>
    public Poly Result(Tree value)
    {
        wires = new(StringComparer.Ordinal);
        var word = Value(value, null, Now);
        return ReadingOf(value, Now) == Reading.Signed ? word.AsSigned(path) : word.Number(path);
    }

    /// <summary>One clock edge: its moments one after the other.</summary>
    public void Take(Tree step)
    {
        wires = new(StringComparer.Ordinal);
        foreach (var moment in step.Of("moment"))
        {
            foreach (var statement in moment.Inside)
            {
                Take(statement.Kind, statement);
            }
        }
    }

    private void Take(string kind, Tree statement)
    {
        switch (kind)
        {
            case "let":
                Let(statement);
                break;
            case "set":
                Set(statement);
                break;
            case "if":
                var way = IsOne(statement[0], Now) ? 1 : 2;
                Block(statement[way].Inside);
                break;
            case "case":
                var arms = statement.Of("arm").ToList();
                Block(arms[Arm(Lazily(statement[0], Now), statement[0], arms)].Inside[^1].Inside);
                break;
            default:
                throw new RefusedException(Refusal.NotKnown, kind);
        }
    }

    private void Block(IReadOnlyList<Tree> statements)
    {
        var outer = wires;
        wires = new(wires, StringComparer.Ordinal);
        foreach (var statement in statements)
        {
            Take(statement.Kind, statement);
        }
        wires = outer;
    }

    private void Let(Tree let)
    {
        var scope = new Scope(new Dictionary<string, Word>(Registers), new Dictionary<string, Wire>(wires));
        var value = let[0];
        if (value.Kind == "choose")
        {
            var arms = value.Of("arm").ToList();
            var bodies = arms.ConvertAll(a => a.Inside[^1]);
            var own = bodies.Select(b => WidthOf(b, scope)).FirstOrDefault(w => w is not null);
            var subject = new Lazy<Word>(() => Value(value[0], null, scope));
            Name(
                let[1].Text,
                own,
                Common(bodies, scope),
                () => Value(bodies[Arm(subject, value[0], arms)], own, scope)
            );
            return;
        }
        if (value is { Kind: "call", Text: "csa" } && let.Inside.Count > 2)
        {
            var width = Known(value.Inside.Select(w => WidthOf(w, scope)).FirstOrDefault(w => w is not null), value);
            Name(let[1].Text, width, Common(value.Inside, scope), () => Word.Of(Saved(value, width, scope).Sum, width));
            Name(let[2].Text, width, Reading.Bare, () => Word.Of(Saved(value, width, scope).Carry, width));
            return;
        }
        Name(let[1].Text, WidthOf(value, scope), ReadingOf(value, scope), () => Value(value, null, scope));
        if (let.Inside.Count > 2)
        {
            Name(let[2].Text, 1, Reading.Bare, () => Word.Bit(Turns(value, scope) != 0));
        }
    }

    private (Poly Sum, Poly Carry) Saved(Tree csa, Size width, Scope scope)
    {
        var a = Number(csa[0], width, Reading.Unsigned, scope);
        var b = Number(csa[1], width, Reading.Unsigned, scope);
        return path.Saved(a, b, Number(csa[2], width, Reading.Unsigned, scope), width);
    }

    private void Name(string name, Size? width, Reading reading, Func<Word> word) =>
        wires[name] = new(width ?? throw new RefusedException(Refusal.NotKnown, name), reading, new(word));

    private static Size Known(Size? width, Tree value) =>
        width ?? throw new RefusedException(Refusal.NotKnown, value.Kind);

    /// <summary>Whether a sum carries or a difference borrows.</summary>
    private int Turns(Tree value, Scope scope)
    {
        if (value.Kind is not ("+" or "-") || Common(value.Inside, scope) == Reading.Signed)
        {
            throw new RefusedException(Refusal.NotKnown, value.Kind);
        }
        var (sum, width, turn) = Unwrapped(value, null, Reading.Unsigned, scope);
        return path.Wrapped(sum, width, isSigned: false, 0, turn).Turns;
    }

    // ---- transfers

    private void Set(Tree set)
    {
        var places = set.Inside.SkipLast(1).Select(Place).ToList();
        var width = places.Aggregate((Size)0, (sum, p) => sum + p.High - p.Low + 1);
        var word = Fitting(Value(set.Inside[^1], width, Now), width);
        var offset = width;
        var stored = new Dictionary<string, Word>(Registers);
        foreach (var (name, high, low) in places)
        {
            var own = high - low + 1;
            offset -= own;
            var all = machine.Register(name)!.Width;
            if (own == all && own == width)
            {
                stored[name] = word;
                continue;
            }
            var stretches = word.Slice(path, offset + own - 1, offset).Stretches(path).ToList();
            if (high != all - 1)
            {
                stretches.InsertRange(0, stored[name].Slice(path, all - 1, high + 1).Stretches(path));
            }
            if (low != 0)
            {
                stretches.AddRange(stored[name].Slice(path, low - 1, 0).Stretches(path));
            }
            stored[name] = Fitting(Word.Of(stretches), all);
        }
        Registers = stored;
    }

    private (string Register, Size High, Size Low) Place(Tree target)
    {
        if (target.Kind == "slice")
        {
            var (register, _, low) = Place(target[0]);
            return (register, low + machine.Size(target[1]), low + machine.Size(target[2]));
        }
        return machine.Parts.TryGetValue(target.Text, out var part) ? (part.Register, part.High, part.Low)
            : machine.Register(target.Text) is { } whole ? (whole.Name, whole.Width - 1, 0)
            : throw new RefusedException(Refusal.NotKnown, target.Text);
    }

    private static Word Fitting(Word word, Size width) =>
        word.Width == width ? word : throw new RefusedException(Refusal.NotKnown, "width");

    // ---- arms

    private Lazy<Word> Lazily(Tree value, Scope scope) => new(() => Value(value, null, scope));

    /// <summary>The first arm that matches; every value has one.</summary>
    private int Arm(Lazy<Word> subject, Tree written, IReadOnlyList<Tree> arms)
    {
        for (var arm = 0; arm < arms.Count; arm++)
        {
            var labels = arms[arm].Inside.SkipLast(1).ToList();
            if (labels.Exists(l => l.Kind == "else") || labels.Exists(l => IsMatched(subject.Value, written, l)))
            {
                return arm;
            }
        }
        throw new ImpossibleException();
    }

    private bool IsMatched(Word word, Tree written, Tree label)
    {
        if (!word.Width.IsNumber || word.Width.K > 64)
        {
            throw new RefusedException(Refusal.NotKnown, written.Kind);
        }
        var width = word.Width.K;
        var digits = label.Kind == "bits" ? label.Text : Digits(label, width);
        for (var place = width - 1; place >= 0; place--)
        {
            var digit = digits[width - 1 - place];
            if (digit != 'x' && path.IsOne(word.Slice(path, place, place).Number(path)) != (digit == '1'))
            {
                return false;
            }
        }
        return digits.Length == width ? true : throw new RefusedException(Refusal.NotKnown, label.Text);
    }

    private static string Digits(Tree label, int width)
    {
        var number = label.Kind == "neg" ? -Machine.Whole(label[0]) : Machine.Whole(label);
        return string.Concat(Enumerable.Range(0, width).Reverse().Select(p => (number >> p).IsEven ? '0' : '1'));
    }
}
