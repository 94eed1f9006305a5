using Reckoner.Datapaths;

namespace Reckoner.Tests;

/// <summary>Labels, and what is written where.</summary>
internal sealed partial class RandomMachines
{
    /// <summary>A value that is chosen by, and labels that exclude each other and cover each of its values, or end in "else".</summary>
    private (string Subject, List<string> Arms) Chosen()
    {
        var width = random.Next(1, 4);
        var reading = values.SomeReading();
        var labels =
            Even() ? Patterns(width).Select(p => "0b" + p).ToList()
            : reading == Reading.Unsigned ? Numbers(0, 1 << width)
            : Numbers(-(1 << (width - 1)), 1 << width);
        var arms = new List<string>();
        foreach (var label in labels)
        {
            if (arms.Count > 0 && random.Next(3) == 0)
            {
                arms[^1] = $"{arms[^1]}, {label}";
            }
            else
            {
                arms.Add(label);
            }
        }
        if (arms.Count > 1 && Even())
        {
            arms[^1] = "else";
        }
        return (values.As(reading, width), arms);
    }

    private static List<string> Numbers(int first, int count) =>
        [.. Enumerable.Range(first, count).Select(i => $"{i}")];

    private IEnumerable<string> Patterns(int width) =>
        width == 0 ? [""]
        : random.Next(3) == 0 ? Patterns(width - 1).Select(p => "x" + p)
        : Patterns(width - 1).Select(p => "0" + p).Concat(Patterns(width - 1).Select(p => "1" + p));

    private void Transfer()
    {
        var free = registers.Where(r => !written.Contains(r.Itself.Name)).OrderBy(_ => random.Next()).ToList();
        if (free.Count == 0)
        {
            text.Append("hold\n");
            return;
        }
        var target = Target(free[0]);
        if (free.Count > 1 && random.Next(4) == 0)
        {
            var second = Target(free[1]);
            target = new Readable($"{target.Name}:{second.Name}", target.Width + second.Width, Reading.Bare);
            written.Add(free[1].Itself.Name);
        }
        var value =
            target.Reading != Reading.Signed && Unit(target.Width) is { } unit
                ? $"{Leaf(target.Width)} {(Even() ? "+" : "-")} {Leaf(target.Width)} via {unit}"
                : values.For(target.Reading, target.Width, 3);
        written.Add(free[0].Itself.Name);
        text.Append($"{target.Name} <- {value}{phrases.Comment()}\n");
    }

    /// <summary>A register, a part of it, or some of its bits.</summary>
    private Readable Target(RegisterName register)
    {
        var whole = register.Itself;
        if (register.Parts.Count > 0 && Even())
        {
            return register.Parts[0];
        }
        if (random.Next(3) > 0 || sizes.Narrower(whole.Width) is not { } width)
        {
            return whole;
        }
        var low = Even() ? whole.Width - width : 0;
        return new Readable(whole.Name + sizes.Places(low, width), width, Reading.Bare);
    }
}
