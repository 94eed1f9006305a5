using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Structure;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>What wires of a state are called: by the names of the description where it gives them, else as it would write them.</summary>
internal sealed class NetNames(MachineStructure structure, State state, Vocabulary words)
{
    public string Of(Bundle word) =>
        Given(word)
        ?? (
            word.Stretches.Count == 1
                ? Of(word.Stretches[0])
                : string.Join(":", word.Stretches.Select(s => Bracketed(Of(s))))
        );

    /// <summary>The name that the description gives just these wires; null for none.</summary>
    public string? Given(Bundle word) =>
        state.Named.FirstOrDefault(n => n.Word.Equals(word)) is { } named
            ? named.Wire.In(words.Language)
            : state.Amid.FirstOrDefault(a => a.Word.Equals(word))?.Register.Name;

    /// <summary>
    /// What is asked, as the description asks it; where that has no name of its own, in the words of the branch that looks at it.
    /// </summary>
    public string Asked(Bundle word) =>
        Given(word)
        ?? (
            state.Doings.SelectMany(d => d.When).FirstOrDefault(g => g.Arms.Count == 0 && g.Word.Equals(word))
                is { Value.Written: not null } guard
                ? WrittenText.Of(guard.Value, words)
                : Of(word)
        );

    /// <summary>The labels of the arm of a case that acts for a constant; null where no case asks for it.</summary>
    /// <param name="choice">What is chosen by it.</param>
    public string? Label(Net choice, Bundle subject, Bundle constant)
    {
        var arms = choice.Origin.Value is { Arms.Count: > 0 } value
            ? value.Arms
            : state
                .Doings.SelectMany(d => d.When)
                .FirstOrDefault(g => g.Arms.Count > 0 && g.Word.Equals(subject))
                ?.Arms;
        return constant.Stretches is [{ Net: null } bits] && arms is not null
            ? arms[ArmPatterns.Acting(arms, bits.Bits)].Written.Replace("0b", "", StringComparison.Ordinal)
            : null;
    }

    /// <summary>The same of what is added or compared: zeros in front of it do not change it.</summary>
    public string OfNumber(Bundle word) =>
        word.Stretches is [{ Net: null } only] ? Bits.Text(only.Bits)
        : word.Stretches is [{ Net: null, Bits.IsZero: true }, _, ..] ? Of(new Bundle(word.Stretches.Skip(1)))
        : word.Stretches is [{ Net: { } top } sign, var next, ..] && IsSignOf(sign, top, next)
            ? Of(new Bundle(word.Stretches.Skip(1)))
        : Of(word);

    private static bool IsSignOf(Stretch sign, Net top, Stretch next) =>
        top == next.Net && sign.High == sign.Low && sign.Low == next.High && next.Times == 1;

    public string Of(Stretch stretch)
    {
        if (stretch.Net is not { } net)
        {
            return Digits(stretch.Bits, stretch.Width);
        }
        if (net.Register is { } register)
        {
            return OfPlace(register, stretch.High, stretch.Low);
        }
        var name = Of(net);
        return (stretch.High, stretch.Low) == (net.Width - 1, 0)
            ? name
            : Named(net, stretch) ?? $"{Bracketed(name)}[{Range(stretch.High, stretch.Low)}]";
    }

    private string? Named(Net net, Stretch stretch) =>
        state
            .Named.FirstOrDefault(n => n.Word.Equals(new Bundle([Stretch.Of(net, stretch.High, stretch.Low)])))
            ?.Wire.In(words.Language);

    /// <summary>A run of equal digits is said once.</summary>
    private static string Digits(BigInteger bits, int width) =>
        bits.IsZero ? "0"
        : width > 4 && bits == Bits.Mask(width) ? "1..1"
        : Bits.Text(bits, width);

    public static string OfPlace(Register register, int high, int low) =>
        high - low + 1 == register.Width ? register.Name
        : register.Parts.FirstOrDefault(p => (p.High, p.Low) == (high, low)) is { } part ? part.Name
        : $"{register.Name}[{Range(high, low)}]";

    private static string Range(int high, int low) => high == low ? $"{high}" : $"{high}..{low}";

    private static string Bracketed(string name) => name.Contains(' ', StringComparison.Ordinal) ? $"({name})" : name;

    public string Of(Net net)
    {
        if (state.Named.FirstOrDefault(n => n.Word.Equals(net.Word)) is { } named)
        {
            return named.Wire.In(words.Language);
        }
        return net.Kind switch
        {
            NetKind.Operand => net.Operand!.In(words.Language),
            NetKind.Register => net.Register!.Name,
            NetKind.Last => Operations.Row(Operation.Last).Written,
            NetKind.Unit => OfUnit(net),
            NetKind.And => Between(net, "and"),
            NetKind.Or => Between(net, "or"),
            NetKind.Xor => Between(net, "xor"),
            NetKind.Not => Turned(net.Inputs[0]),
            NetKind.Equal when net.Origin.Value is { Operation: Operation.Equal, Written: not null } asked =>
                WrittenText.Of(asked, words),
            NetKind.Equal => Between(net.Inputs, "="),
            NetKind.Choice => OfChoice(net),
            NetKind.Lookup => net.Table!.Name,
        };
    }

    private string Turned(Bundle word) =>
        word.Stretches is [{ Net: { Kind: NetKind.Equal } equal }] ? Between(equal.Inputs, "<>") : Turned(Of(word));

    private static string Turned(string said) =>
        said.StartsWith("not (", StringComparison.Ordinal) && said.EndsWith(')')
            ? said[5..^1]
            : $"not {Bracketed(said)}";

    /// <summary>A comparison, a constant behind its sign.</summary>
    private string Between(IReadOnlyList<Bundle> words, string sign) =>
        words[0].Nets.Any() ? $"{Of(words[0])} {sign} {Of(words[1])}" : $"{Of(words[1])} {sign} {Of(words[0])}";

    private string Between(Net net, string word) =>
        $"{Bracketed(Of(net.Inputs[0]))} {word} {Bracketed(Of(net.Inputs[1]))}";

    private string OfUnit(Net net)
    {
        var settings = Settings(net.Unit!).ToList();
        var said = Said(settings);
        return net.Output switch
        {
            UnitOutput.Result => said,
            UnitOutput.Carry => words.Say("blocks.carry"),
            UnitOutput.Borrow => words.Say("blocks.borrow"),
            UnitOutput.CarryWord => words.Say("blocks.carries"),
            UnitOutput.Less or UnitOutput.Equal => settings.Select(Compared).FirstOrDefault() ?? said,
        };
    }

    /// <summary>What a unit is told, a sum and a difference of the same words as one.</summary>
    public string Said(IReadOnlyList<UnitSetting> settings)
    {
        if (settings.Count < 2)
        {
            return settings.Count == 0 ? "" : Said(settings[0]);
        }
        var functions = settings.Select(s => s.Function).Distinct().Order().ToList();
        var first = settings.Select(s => OfNumber(s.Operands[0])).Distinct().ToList();
        var second = settings.Select(s => s.Operands.Count > 1 ? OfNumber(s.Operands[1]) : "").Distinct().ToList();
        return functions is [UnitFunction.Add, UnitFunction.Subtract] && first.Count == 1 && second.Count == 1
            ? $"{Bracketed(first[0])} ± {Bracketed(second[0])}"
            : string.Join(" / ", settings.Select(Said).Distinct());
    }

    /// <summary>A comparison as it is written; what the unit gives may be the reverse of it.</summary>
    private string Compared(UnitSetting setting)
    {
        var written = setting.Value.Written is not null ? WrittenText.Of(setting.Value, words) : Said(setting);
        return setting.Value.Operation is Operation.GreaterOrEqual or Operation.LessOrEqual or Operation.Unequal
            ? Turned(written)
            : written;
    }

    /// <summary>What a unit is told in this state, or before the loop that begins with it.</summary>
    public IEnumerable<UnitSetting> Settings(Unit unit) =>
        state
            .Settings.Concat(structure.EarlyStops.Where(IsHere).SelectMany(s => s.Settings))
            .Where(s => s.Unit == unit)
            .DistinctBy(s => (s.Function, string.Join(",", s.Operands.Select(Of))));

    private bool IsHere(EarlyStop stop) => state.Step is { } step && stop.Loop.Steps[0] == step;

    /// <summary>An operation with its words: what it adds to what.</summary>
    public string Said(UnitSetting setting)
    {
        var sign = setting.Function switch
        {
            UnitFunction.Add or UnitFunction.CarrySave => "+",
            UnitFunction.Subtract => "-",
            UnitFunction.Multiply or UnitFunction.MultiplySigned => "*",
            UnitFunction.Less => "<",
            UnitFunction.Equal => "=",
        };
        var written = setting.Value.Written is not null ? WrittenText.Of(setting.Value, words) : null;
        if (setting.Function is UnitFunction.Less or UnitFunction.Equal && written is not null)
        {
            return written;
        }
        var operands = setting.Operands.Select(OfNumber).ToList();
        var said =
            setting.Function == UnitFunction.Subtract && setting.Operands[0].IsConstant(BigInteger.Zero)
                ? $"-{Bracketed(operands[1])}"
                : string.Join($" {sign} ", operands.Select(Bracketed));
        // Wires that have no name of their own are said at length; the description has a shorter way.
        return written is not null && written.Length < said.Length ? written : said;
    }

    /// <summary>A choice without a name is called by the place that it may leave as it is.</summary>
    private string OfChoice(Net net) =>
        Left(net)
        ?? (
            net.Origin.Value is { Written: not null } value ? WrittenText.Of(value, words) : words.Say("figure.choice")
        );

    private static string? Left(Net net) =>
        net
            .Inputs.Skip(1)
            .Select(arm =>
                arm.Stretches is not [{ Net: { } only, Times: 1 } stretch] ? null
                : only.Register is { } register ? OfPlace(register, stretch.High, stretch.Low)
                : only.Kind == NetKind.Choice ? Left(only)
                : null
            )
            .FirstOrDefault(name => name is not null);
}
