using Reckoner.Datapaths;

namespace Reckoner.Tests;

/// <summary>Steps, loops and moments.</summary>
internal sealed partial class RandomMachines
{
    private readonly List<Readable> wires = [];

    /// <summary>The registers written so far in this moment on this path.</summary>
    private HashSet<string> written = [];

    /// <summary>Named units that have done something in this step.</summary>
    private readonly HashSet<string> busy = [];

    private void Segment()
    {
        text.Append('\n');
        switch (random.Next(5))
        {
            case 0 or 1:
                Step();
                break;
            case 2:
                text.Append($"repeat at most {Count()} while {While()}\n");
                Round(hasLast: false);
                break;
            default:
                text.Append($"repeat {Count()}\n");
                Round(hasLast: true);
                break;
        }
    }

    private void Round(bool hasLast)
    {
        values.HasLast = hasLast;
        if (random.Next(3) > 0)
        {
            Moments();
        }
        else
        {
            for (var count = random.Next(1, 3); count > 0; count--)
            {
                Step();
            }
        }
        values.HasLast = false;
        text.Append("end\n");
    }

    private string Count() =>
        random.Next(6) switch
        {
            0 when head.HasTimes => "k",
            1 when !sizes.IsWide => "n",
            2 when !sizes.IsWide => "ceil(n / 2)",
            3 => "0",
            _ => $"{random.Next(1, 4)}",
        };

    private string While()
    {
        wires.Clear();
        written = [];
        Refresh();
        return values.Value(WidthForm.One).Text;
    }

    private void Step()
    {
        steps.Add(NewName("s"));
        text.Append($"step {steps[^1]}{phrases.Maybe("something is done")}\n");
        Moments();
    }

    private void Moments()
    {
        wires.Clear();
        busy.Clear();
        var isLong = random.Next(30) == 0 && !head.IsSmall;
        for (var count = isLong ? random.Next(11, 30) : random.Next(1, head.IsSmall ? 3 : 4); count > 0; count--)
        {
            written = [];
            Refresh();
            Block(1, isLong || head.IsSmall ? 1 : 3);
            text.Append(count > 1 ? "then\n" : "");
        }
    }

    /// <summary>What may be read now: wires, constants, and registers not written above in this moment, with their parts.</summary>
    private void Refresh() =>
        values.Readables = [
            .. wires,
            .. constants,
            .. registers.Where(r => !written.Contains(r.Itself.Name)).SelectMany(r => r.Parts.Prepend(r.Itself)),
        ];

    private void Block(int depth, int most)
    {
        var outer = wires.Count;
        for (var count = random.Next(most + 1); count > 0; count--)
        {
            Statement(depth);
            Refresh();
        }
        if (depth > 1)
        {
            wires.RemoveRange(outer, wires.Count - outer);
            Refresh();
        }
    }

    private void Statement(int depth)
    {
        switch (random.Next(depth < (head.IsSmall ? Deepest - 1 : Deepest) ? 9 : 6))
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
                If(depth);
                break;
            case 7:
                Case(depth);
                break;
            case 8:
                text.Append(Even() ? "hold\n" : $"note {phrases.Quoted("so it is")}\n");
                break;
            default:
                Transfer();
                break;
        }
    }

    private void If(int depth)
    {
        var heads = new List<string> { $"if {values.Value(WidthForm.One).Text}{Said()}\n" };
        while (random.Next(3) == 0)
        {
            heads.Add($"else if {values.Value(WidthForm.One).Text}\n");
        }
        Branches(depth, Even() ? [.. heads, "else\n"] : heads);
    }

    private void Case(int depth)
    {
        var (subject, arms) = Chosen();
        text.Append($"case {subject}\n");
        Branches(depth, [.. arms.Select(arm => $"{arm}{Said("as it is")}:{(Even() ? "\n" : " ")}")]);
    }

    /// <summary>Words for a decision, or none; nothing is drawn for them, so the machines stay the same.</summary>
    private string Said(string one = "it is so\" de \"so ist es\" else \"it is otherwise") =>
        text.Length % 3 == 0 ? $" says \"{one}\"" : "";

    private void Branches(int depth, IReadOnlyList<string> heads)
    {
        var before = written;
        var after = new HashSet<string>(before);
        foreach (var head in heads)
        {
            text.Append(head);
            written = [.. before];
            Refresh();
            var from = text.Length;
            Block(depth + 1, 2);
            if (head[^1] == ' ' && text.Length == from)
            {
                text.Append("hold\n");
            }
            after.UnionWith(written);
        }
        written = after;
        text.Append("end\n");
    }

    private void Let()
    {
        var width = sizes.Some(sizes.Most / 2);
        var wire = NewName("w");
        var says =
            !Even() || (width != WidthForm.One && sizes.Least(width) == 1) ? ""
            : width == WidthForm.One ? $" says {phrases.Quoted("it is")} else {phrases.Quoted("it is not")}"
            : $" says {phrases.Quoted("it is {}")}";
        if (Unit(width) is { } unit)
        {
            text.Append($"let {wire} = {Leaf(width)} {(Even() ? "+" : "-")} {Leaf(width)} via {unit}{says}\n");
            wires.Add(new(wire, width, Reading.Unsigned));
            return;
        }
        if (Product(width) is { } product)
        {
            text.Append($"let {wire} = {product}{says}\n");
            wires.Add(new(wire, width, Reading.Unsigned));
            return;
        }
        var value = values.Value(width);
        text.Append($"let {wire} = {value.Text}{says}\n");
        wires.Add(new(wire, width, value.Reading));
    }

    private string Leaf(WidthForm width) => values.As(Reading.Unsigned, width, 0);

    /// <summary>A named unit of this width that is free in this step.</summary>
    private string? Unit(WidthForm width) =>
        units.Find(u => u.Width == width && random.Next(3) > 0 && busy.Add(u.Name))?.Name;

    /// <summary>A product of this width by a multiplier that is free in this step.</summary>
    private string? Product(WidthForm width) =>
        multipliers.Find(m => m.First + m.Second == width && random.Next(3) > 0 && busy.Add(m.Name))
            is { Name: { } name } mul
            ? $"{Leaf(mul.First)} * {Leaf(mul.Second)} via {name}"
            : null;

    private void TwoNames()
    {
        var (width, reading) = (sizes.Some(sizes.Most / 2), values.SomeReading());
        var (first, second) = (NewName("w"), NewName("w"));
        if (Even())
        {
            var via = Unit(width) is { } unit ? $" via {unit}" : "";
            string Side() => values.As(Reading.Unsigned, width, via.Length > 0 ? 0 : 1);
            text.Append($"let {first}, {second} = {Side()} {(Even() ? "+" : "-")} {Side()}{via}\n");
            wires.Add(new(first, width, Reading.Unsigned));
            wires.Add(new(second, WidthForm.One, Reading.Bare));
            return;
        }
        var sides = Enumerable.Range(0, 3).Select(_ => values.As(reading, width));
        text.Append($"let {first}, {second} = csa({string.Join(", ", sides)})\n");
        wires.Add(new(first, width, reading));
        wires.Add(new(second, width, Reading.Bare));
    }

    private void LetCase()
    {
        var (subject, arms) = Chosen();
        var (width, reading) = (sizes.Some(sizes.Most / 2), values.SomeReading());
        var rows = arms.Select(arm => $"{arm}{Said("so much")}: {values.As(reading, width)}\n");
        var wire = NewName("w");
        text.Append($"let {wire} = case {subject}\n{string.Concat(rows)}end\n");
        wires.Add(new(wire, width, reading));
    }
}
