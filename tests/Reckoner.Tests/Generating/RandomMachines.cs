using System.Text;
using Reckoner.Datapaths;

namespace Reckoner.Tests;

/// <summary>One random description that keeps every rule, whatever it computes.</summary>
internal sealed partial class RandomMachines
{
    private const int Deepest = 3;

    /// <summary>A register, with the names given to its bits.</summary>
    private sealed record RegisterName(Readable Itself, IReadOnlyList<Readable> Parts);

    private readonly Random random;
    private readonly RandomHead head;
    private readonly Sizes sizes;
    private readonly RandomPhrases phrases;
    private readonly RandomValues values;
    private readonly StringBuilder text = new();
    private readonly List<RegisterName> registers = [];
    private readonly List<Readable> constants = [];
    private readonly List<Readable> units = [];
    private readonly List<(string Name, WidthForm First, WidthForm Second)> multipliers = [];
    private readonly List<string> steps = [];
    private int names;

    public RandomMachines(Random random, RandomHead head)
    {
        this.random = random;
        this.head = head;
        sizes = head.Sizes;
        phrases = new RandomPhrases(random);
        values = new RandomValues(random, sizes);
    }

    public string Name { get; init; } = "drawn";

    /// <summary>Before its names, so that they differ from those of a machine around it.</summary>
    public string Letter { get; init; } = "";

    /// <summary>Whether it stands inside another machine.</summary>
    public bool IsCore { get; init; }

    public string? Follows { get; set; }

    public RandomMachines? Core { get; set; }

    /// <summary>The description; the registers of a core must have been made before.</summary>
    public string Text()
    {
        text.Append($"machine {Name}\n");
        Notes();
        text.Append(head.Text);
        Declarations();
        CoreMachine();
        for (
            var segments = head.IsBare ? random.Next(3) : random.Next(1, head.IsSmall ? 2 : 4);
            segments > 0;
            segments--
        )
        {
            Segment();
        }
        Meanings();
        Results();
        return text.Append('\n').ToString().Replace("\n\n\n", "\n\n", StringComparison.Ordinal);
    }

    private void Notes()
    {
        if (random.Next(3) == 0)
        {
            text.Append($"title {phrases.Quoted("A machine drawn by lot")}\n");
        }
        if (random.Next(8) == 0)
        {
            text.Append($"note {phrases.Quoted("nobody has thought of this one")}\n");
        }
        if (Follows is not null)
        {
            text.Append($"follows {Follows}\n");
        }
    }

    private void Declarations()
    {
        values.Readables = head.Operands;
        if (!IsCore && random.Next(4) == 0)
        {
            var constant = new Readable(NewName("K"), sizes.Some(sizes.Most / 2), values.SomeReading(), IsWhole: true);
            text.Append(
                $"constant {constant.Name} : {head.Type(constant)} = {values.Fitting(constant.Reading, constant.Width)}\n"
            );
            constants.Add(constant);
        }
        values.Readables = [.. head.Operands, .. constants];
        if (head.IsBare)
        {
            return;
        }
        if (!IsCore)
        {
            // Versions of one machine have a result in common.
            Register(new Readable("same", head.Operands[0].Width, head.Operands[0].Reading));
        }
        for (var count = random.Next(1, head.IsSmall ? 2 : 4); count > 0; count--)
        {
            Register(new Readable(NewName(random.Next(12) == 0 ? "größe" : "r"), SomeWidth(), values.SomeReading()));
        }
        for (var count = random.Next(3); count > 0; count--)
        {
            Table();
        }
        Units();
    }

    private WidthForm SomeWidth() => sizes.Some(sizes.Most);

    private void Register(Readable register)
    {
        var loads = values.For(register.Reading, register.Width, 2);
        text.Append(
            $"register {register.Name}{phrases.Maybe("a register")} : {head.Type(register)} loads {loads}{phrases.Comment()}\n"
        );
        var parts = new List<Readable>();
        if (Even() && sizes.Narrower(register.Width) is { } width)
        {
            var part = new Readable(NewName("p"), width, values.SomeReading());
            var slice = register.Name + sizes.Places(Even() ? register.Width - width : 0, width);
            var read = part.Reading == Reading.Signed ? $"signed({slice})" : slice;
            text.Append($"part {part.Name}{phrases.Maybe("a part")} = {read}\n");
            parts.Add(part);
        }
        registers.Add(new(register, parts));
    }

    private void Table()
    {
        var width = random.Next(2, 4);
        var gives = new Readable(NewName("t"), width, values.SomeReading());
        var isSigned = Even();
        List<Readable> indices = [new("i", 2, isSigned ? Reading.Signed : Reading.Unsigned)];
        if (Even())
        {
            indices.Add(new("j", 1, Reading.Unsigned));
        }
        string Cell() => values.Fitting(gives.Reading, width);
        var first = isSigned ? random.Next(-2, 2) : random.Next(4);
        var condition = indices.Count > 1 ? $"i = {first} and j = {random.Next(2)}" : $"i = {first}";
        text.Append($"table {gives.Name}({string.Join(", ", indices.Select(i => $"{i.Name} : {head.Type(i)}"))}) ");
        text.Append($": {head.Type(gives)}\n  {condition}: {Cell()}\n");
        text.Append($"  i >= {(isSigned ? 0 : 2)}: {Cell()}\n  else: floor(abs(i) / 2)\nend\n");
        values.Tables.Add((gives, indices));
    }

    private void Units()
    {
        if (random.Next(4) == 0)
        {
            units.Add(new(NewName("alu"), SomeWidth(), Reading.Bare));
            text.Append($"unit {units[^1].Name} : adder {sizes.Text(units[^1].Width)}\n");
        }
        if (random.Next(4) == 0 && !sizes.IsWide && sizes.Some(sizes.Most / 2) is var product)
        {
            var first = sizes.Narrower(product) ?? WidthForm.One;
            var second = sizes.Fits(first + 1, product) ? product - first : first;
            var sides = first == second && Even() ? sizes.Text(first) : $"{sizes.Text(first)} by {sizes.Text(second)}";
            multipliers.Add((NewName("mul"), first, second));
            text.Append($"unit {multipliers[^1].Name} : multiplier {sides}\n");
        }
    }

    /// <summary>A core comes before every step, with values over our operands.</summary>
    private void CoreMachine()
    {
        if (Core is null)
        {
            return;
        }
        text.Append($"core {Core.Name}\n");
        foreach (var operand in Core.head.Operands)
        {
            text.Append($"  {operand.Name} = {values.As(operand.Reading, operand.Width, 2)}\n");
        }
        text.Append("end\n");
        registers.AddRange(Core.registers);
    }

    private string NewName(string kind) => $"{Letter}{kind}{++names}";

    private bool Even() => random.Next(2) == 0;
}
