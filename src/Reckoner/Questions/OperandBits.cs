using System.Numerics;
using Reckoner.Binding;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Questions;

/// <summary>From operands as they are asked for to the bits that a machine is given.</summary>
internal static class OperandBits
{
    /// <summary>
    /// The operands' bits in the order of the text; null with the reasons in the findings. Whether they satisfy "given" is not
    /// asked here.
    /// </summary>
    public static IReadOnlyList<BigInteger>? Of(Datapath datapath, IReadOnlyList<AskedOperand> asked, Findings found)
    {
        var operands = datapath.Operands;
        var values = new BigInteger?[operands.Count];
        var (place, isWrong) = (0, false);
        for (var i = 0; i < asked.Count; i++)
        {
            while (place < values.Length && values[place] is not null)
            {
                place++;
            }
            var index = asked[i].Name is { } name ? operands.ToList().FindIndex(o => o.Name == name) : place;
            if (index < 0)
            {
                AddUnknown(datapath, asked[i].Name!, i, found);
                isWrong = true;
            }
            else if (index >= operands.Count)
            {
                AddCount(datapath, asked.Count, i, found);
                return null;
            }
            else if (values[index] is not null)
            {
                found.Add(Id.OperandTwice, AskedPart.Operand, i, ("operand", operands[index].Name));
                isWrong = true;
            }
            else
            {
                var bits = Of(datapath, operands[index], asked[i], i, found);
                isWrong |= bits is null;
                values[index] = bits ?? BigInteger.Zero;
            }
        }
        if (isWrong)
        {
            return null;
        }
        if (Array.Exists(values, v => v is null))
        {
            AddCount(datapath, asked.Count, asked.Count - 1, found);
            return null;
        }
        return [.. values.Select(v => v!.Value)];
    }

    /// <summary>The same; also null, with the reason, where they do not satisfy "given".</summary>
    /// <param name="anyway">What asks for them nevertheless; null where nothing does.</param>
    public static IReadOnlyList<BigInteger>? Given(
        Datapath datapath,
        IReadOnlyList<AskedOperand> asked,
        Findings found,
        AskedWord? anyway = null
    )
    {
        var operands = Of(datapath, asked, found);
        if (operands is null || datapath.NotGiven(operands) is not { } given)
        {
            return operands;
        }
        found.Add(
            Id.OperandsOutsideGiven,
            AskedPart.Operands,
            0,
            ("machine", datapath.Machine.Name),
            ("given", given.Text),
            ("operands", Spoken(datapath, operands)),
            ("onward", anyway is { } word ? new Term("operands.anyway", ("anyway", word)) : "")
        );
        return null;
    }

    private static string Spoken(Datapath datapath, IReadOnlyList<BigInteger> operands) =>
        string.Join(", ", datapath.Operands.Zip(operands, (o, bits) => $"{o.Name} = {o.Number(bits)}"));

    private static BigInteger? Of(Datapath datapath, Operand operand, AskedOperand asked, int index, Findings found)
    {
        if (OperandReader.Number(asked.Text) is not { } number)
        {
            var value =
                asked.Text.Length > 0 ? asked.Text
                : asked.Name is null ? "\"\""
                : asked.ToString();
            found.Add(Id.OperandNotNumber, AskedPart.Operand, index, ("value", Texts.Excerpt.Of(value)));
            return null;
        }
        if (IsPattern(asked.Text, operand) || Bits.Fits(number, operand.Width, operand.IsSigned))
        {
            return Bits.Wrap(number, operand.Width);
        }
        var shown = number.GetBitLength() > 200 ? asked.Text[..20] + "…" : Bits.Text(number);
        if (number.Sign < 0 && !operand.IsSigned)
        {
            found.Add(Id.OperandNegative, AskedPart.Operand, index, ("operand", operand.Name), ("number", shown));
            return null;
        }
        var needed = Bits.Needed(number, operand.IsSigned);
        found.Add(
            Id.OperandTooWide,
            AskedPart.Operand,
            index,
            ("number", shown),
            ("needed", needed),
            ("operand", operand.Name),
            ("size", operand.Size.ToString()),
            ("advice", Wider(datapath, operand, needed)),
            ("low", operand.IsSigned ? -(BigInteger.One << (operand.Width - 1)) : BigInteger.Zero),
            ("high", (BigInteger.One << (operand.IsSigned ? operand.Width - 1 : operand.Width)) - 1)
        );
        return null;
    }

    /// <summary>Exactly as many binary digits as an operand has bits are those bits, whatever they mean as a number.</summary>
    private static bool IsPattern(string text, Operand operand) =>
        text.StartsWith("0b", StringComparison.OrdinalIgnoreCase)
        && text.Count(c => c is '0' or '1') - 1 == operand.Width;

    private static void AddUnknown(Datapath datapath, string name, int index, Findings found)
    {
        var names = datapath.Operands.Select(o => o.Name).ToList();
        found.Add(
            Id.UnknownOperand,
            AskedPart.Operand,
            index,
            ("machine", datapath.Machine.Name),
            ("operand", name),
            ("operands", names),
            ("near", NearNames.Of(name, names))
        );
    }

    /// <param name="index">The one too many, or the last; below 0 where there is none.</param>
    private static void AddCount(Datapath datapath, int count, int index, Findings found)
    {
        var names = datapath.Operands.Select(o => o.Name).ToList();
        found.Add(
            Id.OperandCount,
            index < 0 ? AskedPart.Whole : AskedPart.Operand,
            Math.Max(index, 0),
            ("machine", datapath.Machine.Name),
            ("count", names.Count),
            ("operands", names),
            ("found", count),
            ("usage", Advice.NameOperands(datapath.Machine.Name, names))
        );
    }

    /// <summary>The smallest main width at which the operand has enough bits; found by trying those that the machine has.</summary>
    private static Advice Wider(Datapath datapath, Operand operand, int needed)
    {
        var (main, now) = datapath.Widths[0];
        var names = datapath.Widths.Skip(1).ToDictionary(w => w.Name, w => w.Value);
        var numbers = names.ToDictionary(n => n.Key, n => (Rational)n.Value);
        var type = datapath.Machine.Description.Declarations.OfType<OperandLine>().ElementAt(operand.Index).Type;
        var most = FormulaBinding.Number(datapath.Machine.Widths.First().High, numbers) ?? now + needed;
        for (var width = now + 1; width <= most && width <= now + needed; width++)
        {
            numbers[main] = width;
            if (FormulaBinding.Number(type.Width, numbers) is { } size && size >= needed)
            {
                names[main] = width;
                return datapath.Machine.At(names).Datapath is null
                    ? new Advice(AdviceKind.OtherMachine)
                    : Advice.AtWidth(main, width);
            }
        }
        return new Advice(AdviceKind.OtherMachine);
    }
}
