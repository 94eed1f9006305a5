using System.Text;
using Reckoner.Datapaths;

namespace Reckoner.Tests;

/// <summary>
/// Random descriptions that keep every rule at n = 4, whatever they compute: each must be accepted, and each is work for
/// whatever runs descriptions.
/// </summary>
internal sealed class RandomMachines
{
    private const int Deepest = 3;

    private sealed record RegisterName(string Name, int Width, Reading Reading, IReadOnlyList<Readable> Parts);

    private readonly Random random;
    private readonly RandomValues values;
    private readonly StringBuilder text = new("machine random\n\nwidth n = 4 in 2..8\n\n");
    private readonly List<RegisterName> registers = [];
    private readonly List<Readable> wires = [];

    /// <summary>The registers written so far in this moment on this path.</summary>
    private HashSet<string> written = [];
    private int names;

    private RandomMachines(int seed)
    {
        random = new Random(seed);
        values = new RandomValues(random);
    }

    public static string Of(int seed)
    {
        var machine = new RandomMachines(seed);
        machine.Head();
        for (var segments = machine.random.Next(1, 4); segments > 0; segments--)
        {
            machine.Segment();
        }
        foreach (var register in machine.registers)
        {
            machine.text.Append($"\nresult of_{register.Name} = {register.Name}");
        }
        return machine.text.Append('\n').ToString();
    }

    private void Head()
    {
        var operands = new List<Readable>();
        for (var count = random.Next(1, 3); count > 0; count--)
        {
            operands.Add(new(NewName("o"), random.Next(1, 6), values.SomeReading()));
            text.Append($"operand {operands[^1].Name} : {Type(operands[^1].Width, operands[^1].Reading)}\n");
        }
        values.Readables = operands;
        for (var count = random.Next(2, 5); count > 0; count--)
        {
            Register();
        }
        if (Even())
        {
            Table();
        }
    }

    private void Register()
    {
        var (name, width, reading) = (NewName("r"), random.Next(1, 10), values.SomeReading());
        text.Append($"register {name} : {Type(width, reading)} loads {values.As(reading, width, 2)}\n");
        var parts = new List<Readable>();
        if (width > 1 && Even())
        {
            var low = random.Next(width);
            var high = random.Next(low, width);
            var part = new Readable(NewName("p"), high - low + 1, values.SomeReading());
            var slice = name + RandomValues.Places(high, low);
            text.Append($"part {part.Name} = {(part.Reading == Reading.Signed ? $"signed({slice})" : slice)}\n");
            parts.Add(part);
        }
        registers.Add(new(name, width, reading, parts));
    }

    private void Table()
    {
        var (name, width) = (NewName("t"), random.Next(1, 4));
        var first = random.Next(1, 4);
        text.Append(
            $"table {name}(i : 2, j : 1) : {width}\n  i = {first} and j = {random.Next(2)}: {random.Next(1 << width)}\n"
        );
        text.Append($"  i + 2 * j > {first}: {random.Next(1 << width)}\n  else: floor(i / 2)\nend\n");
        values.Tables.Add((width, name, [2, 1]));
    }

    private void Segment()
    {
        wires.Clear();
        switch (random.Next(4))
        {
            case 0:
                Step();
                break;
            case 1:
                text.Append($"repeat at most {random.Next(4)} while {InNewMoment(() => values.Value(1).Text)}\n");
                Moments(1);
                text.Append("end\n");
                break;
            case 2:
                text.Append($"repeat {random.Next(4)}\n");
                values.HasLast = true;
                Moments(1);
                values.HasLast = false;
                text.Append("end\n");
                break;
            default:
                text.Append($"repeat {random.Next(1, 3)}\n");
                values.HasLast = true;
                Step();
                Step();
                values.HasLast = false;
                text.Append("end\n");
                break;
        }
    }

    private void Step()
    {
        text.Append($"step {NewName("s")}\n");
        Moments(1);
    }

    private void Moments(int depth)
    {
        wires.Clear();
        for (var more = random.Next(1, 4); more > 0; more--)
        {
            InNewMoment(() => Block(depth));
            text.Append(more > 1 ? "then\n" : "");
        }
    }

    private string InNewMoment(Func<string> make)
    {
        written = [];
        Refresh();
        return make();
    }

    /// <summary>What may be read now: wires, and registers not written above in this moment, with their parts.</summary>
    private void Refresh() =>
        values.Readables = [
            .. wires,
            .. registers
                .Where(r => !written.Contains(r.Name))
                .SelectMany(r => r.Parts.Prepend(new Readable(r.Name, r.Width, r.Reading))),
        ];

    private string Block(int depth)
    {
        var outer = wires.Count;
        for (var count = random.Next(4); count > 0; count--)
        {
            Statement(depth);
            Refresh();
        }
        if (depth > 1)
        {
            wires.RemoveRange(outer, wires.Count - outer);
            Refresh();
        }
        return "";
    }

    private void Statement(int depth)
    {
        switch (random.Next(depth < Deepest ? 9 : 6))
        {
            case 0:
                Let();
                break;
            case 1:
                TwoNames();
                break;
            case 2:
                LetCase();
                break;
            case 6:
                var condition = values.Value(1).Text;
                text.Append($"if {condition}\n");
                Branches(depth, Even() ? ["", "else\n"] : [""]);
                break;
            case 7:
                var (subject, width) = Subject();
                text.Append($"case {subject}\n");
                Branches(depth, Arms(width).Select(a => a + ": \n").ToList());
                break;
            case 8:
                text.Append(Even() ? "hold\n" : "note \"so\"\n");
                break;
            default:
                Transfer();
                break;
        }
    }

    private void Branches(int depth, IReadOnlyList<string> heads)
    {
        var before = written;
        var after = new HashSet<string>(before);
        foreach (var head in heads)
        {
            text.Append(head);
            written = [.. before];
            Refresh();
            Block(depth + 1);
            after.UnionWith(written);
        }
        written = after;
        text.Append("end\n");
    }

    private void Let()
    {
        var width = random.Next(1, 8);
        var value = values.Value(width);
        var says = width == 1 ? " says \"it is\" else \"it is not\"" : " says \"it is {}\"";
        Wire($"let {{0}} = {value.Text}{(Even() ? says : "")}\n", new Readable(NewName("w"), width, value.Reading));
    }

    private void TwoNames()
    {
        var (width, reading) = (random.Next(1, 8), values.SomeReading());
        var (first, second) = (NewName("w"), NewName("w"));
        if (Even())
        {
            var unsigned = () => values.As(Reading.Unsigned, width);
            text.Append($"let {first}, {second} = {unsigned()} {(Even() ? "+" : "-")} {unsigned()}\n");
            wires.Add(new(first, width, Reading.Unsigned));
            wires.Add(new(second, 1, Reading.Bare));
            return;
        }
        var sides = Enumerable.Range(0, 3).Select(_ => values.As(reading, width));
        text.Append($"let {first}, {second} = csa({string.Join(", ", sides)})\n");
        wires.Add(new(first, width, reading));
        wires.Add(new(second, width, Reading.Bare));
    }

    private void LetCase()
    {
        var (subject, subjectWidth) = Subject();
        var (width, reading) = (random.Next(1, 6), values.SomeReading());
        var arms = Arms(subjectWidth).Select(a => $"{a}: {values.As(reading, width)}\n");
        Wire($"let {{0}} = case {subject}\n{string.Concat(arms)}end\n", new Readable(NewName("w"), width, reading));
    }

    private void Wire(string line, Readable wire)
    {
        text.Append(line.Replace("{0}", wire.Name));
        wires.Add(wire);
    }

    private (string Text, int Width) Subject()
    {
        var width = random.Next(1, 4);
        return (values.As(Reading.Unsigned, width), width);
    }

    /// <summary>Labels that exclude each other and cover every value, or end in "else".</summary>
    private List<string> Arms(int width)
    {
        var labels = Even()
            ? Patterns(width).Select(p => "0b" + p).ToList()
            : Enumerable.Range(0, 1 << width).Select(i => i.ToString()).ToList();
        var arms = new List<string>();
        for (var i = 0; i < labels.Count; i++)
        {
            var joins = arms.Count > 0 && random.Next(3) == 0;
            arms.Add(joins ? $"{arms[^1]}, {labels[i]}" : labels[i]);
            if (joins)
            {
                arms.RemoveAt(arms.Count - 2);
            }
        }
        if (arms.Count > 1 && Even())
        {
            arms[^1] = "else";
        }
        return arms;
    }

    private IEnumerable<string> Patterns(int width) =>
        width == 0 ? [""]
        : random.Next(3) == 0 ? Patterns(width - 1).Select(p => "x" + p)
        : Patterns(width - 1).Select(p => "0" + p).Concat(Patterns(width - 1).Select(p => "1" + p));

    private void Transfer()
    {
        var free = registers.Where(r => !written.Contains(r.Name)).OrderBy(_ => random.Next()).ToList();
        if (free.Count == 0)
        {
            text.Append("hold\n");
            return;
        }
        var target = free[0];
        var (name, width, reading) = (target.Name, target.Width, target.Reading);
        if (free.Count > 1 && random.Next(4) == 0)
        {
            (name, width, reading) = ($"{name}:{free[1].Name}", width + free[1].Width, Reading.Bare);
            written.Add(free[1].Name);
        }
        else if (target.Parts.Count > 0 && Even())
        {
            (name, width, reading) = target.Parts[0];
        }
        else if (random.Next(3) == 0)
        {
            var low = random.Next(width);
            width = random.Next(1, width - low + 1);
            (name, reading) = (name + RandomValues.Places(low + width - 1, low), Reading.Bare);
        }
        var value = reading == Reading.Bare ? values.Value(width).Text : values.As(reading, width, 3);
        written.Add(target.Name);
        text.Append($"{name} <- {value}\n");
    }

    private static string Type(int width, Reading reading) =>
        (reading == Reading.Signed ? "signed " : "") + Size(width);

    private static string Size(int width) =>
        width switch
        {
            4 => "n",
            5 => "n + 1",
            8 => "2n",
            _ => width.ToString(),
        };

    private string NewName(string kind) => kind + ++names;

    private bool Even() => random.Next(2) == 0;
}
