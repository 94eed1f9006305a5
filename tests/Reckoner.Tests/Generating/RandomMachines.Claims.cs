using Reckoner.Datapaths;

namespace Reckoner.Tests;

/// <summary>What registers stand for, results, and what is claimed of them.</summary>
internal sealed partial class RandomMachines
{
    private void Meanings()
    {
        foreach (var register in registers.Where(_ => random.Next(8) == 0).ToList())
        {
            var (name, width, reading, _) = register.Itself;
            var value = random.Next(4) switch
            {
                0 => $"digits({name}, {name})",
                1 =>
                    $"{name} + {(reading == Reading.Signed ? "signed" : "unsigned")}(copies({name}[0], {sizes.Text(width)}))",
                2 => $"signed({name})",
                _ => name,
            };
            var point = Even() ? $" point {random.Next(sizes.Least(width) + 1)}" : "";
            var until = steps.Count > 0 && !IsCore && Even() ? $" until {steps[random.Next(steps.Count)]}" : "";
            text.Append($"meaning {NewName("means")}{phrases.Maybe("what it stands for")} = {value}{point}{until}\n");
        }
    }

    private void Results()
    {
        text.Append('\n');
        var results = new List<string>();
        foreach (var register in registers.Where(r => r.Itself.Name == "same" || random.Next(3) > 0))
        {
            var (name, width, reading, _) = register.Itself;
            var value =
                name == "same" || Even() ? name
                : sizes.Narrower(width) is { } narrow && Even() ? name + sizes.Places(width - narrow, narrow)
                : reading == Reading.Signed ? $"unsigned({name})"
                : $"signed({name})";
            results.Add(name == "same" ? "same_result" : NewName("of"));
            text.Append($"result {results[^1]} = {value}\n");
        }
        var parts = OperandParts();
        var (numbers, truths) = Formulas([.. head.Operands.Select(o => o.Name), .. results]);
        var formulas = new RandomFormulas(random, head.Names)
        {
            Names = [.. head.Operands.Select(o => o.Name), .. results, .. parts],
            Applied = numbers,
            AppliedTruths = truths,
        };
        for (var count = random.Next(4); count > 0; count--)
        {
            var when = random.Next(4) switch
            {
                0 => $" when {formulas.Truth()}",
                1 => $"\n  exactly when {formulas.Truth()}",
                _ => "",
            };
            text.Append($"{(random.Next(4) == 0 ? "outside" : "law")} {formulas.Truth()}{when}\n");
        }
        if (results.Contains("same_result") && random.Next(3) == 0)
        {
            // A shape that figures and checks know, whether it holds or not.
            var factor = head.Operands.Count > 1 ? $" * {head.Operands[1].Name}" : "";
            text.Append($"law same_result = {head.Operands[0].Name}{factor}\n");
        }
    }

    /// <summary>Names for bits of operands.</summary>
    private List<string> OperandParts()
    {
        var parts = new List<string>();
        foreach (var operand in head.Operands.Where(_ => !IsCore && random.Next(6) == 0))
        {
            parts.Add(NewName("bits"));
            var places = $"{operand.Name}[{sizes.Text(operand.Width - 1)}..0]";
            text.Append($"part {parts[^1]} = {(Even() ? $"signed({places})" : places)}\n");
        }
        return parts;
    }

    /// <summary>Formulas of one parameter; each may name those before it.</summary>
    private (List<string> Numbers, List<string> Truths) Formulas(IReadOnlyList<string> names)
    {
        var (numbers, truths) = (new List<string>(), new List<string>());
        for (var count = IsCore ? 0 : random.Next(3); count > 0; count--)
        {
            var inside = new RandomFormulas(random, head.Names)
            {
                Names = ["x", .. names],
                Applied = [.. numbers],
                AppliedTruths = [.. truths],
            };
            var isTruth = Even();
            var body = isTruth ? inside.Truth() : inside.Number();
            var name = NewName(isTruth ? "is" : "gives");
            text.Append($"formula {name}(x) = {body}\n");
            (isTruth ? truths : numbers).Add(name);
        }
        return (numbers, truths);
    }
}
