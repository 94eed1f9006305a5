using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Words;

namespace Reckoner.Reporting;

internal sealed partial class WalkText
{
    private void Head()
    {
        var machine = Datapath.Machine;
        Filled(Names.Of(Datapath, words), 0);
        if (machine.Title is { } title)
        {
            Filled(title.In(words.Language), 0);
        }
        Line();
        var nameWidth = Datapath.Operands.Select(o => o.In(words.Language).Length).DefaultIfEmpty(0).Max();
        foreach (var operand in Datapath.Operands)
        {
            var bits = walk.Operands[operand.Index];
            Number(
                operand.In(words.Language).PadRight(nameWidth),
                operand.Number(bits),
                Bits.Text(bits, operand.Width)
            );
        }
        if (!walk.IsGiven)
        {
            var given = Datapath.NotGiven(walk.Operands)!;
            Filled(words.Say("walk.outside", ("given", ClaimText.Of(given, Datapath, words))), 3, "   ");
        }
        Line();
        Legend();
    }

    /// <summary>What the short names of registers, parts and steps stand for.</summary>
    private void Legend()
    {
        var rows = new List<(string Name, string Said)>();
        foreach (var register in Registers)
        {
            rows.Add((register.Name, register.Phrase?.In(words.Language) ?? ""));
            rows.AddRange(
                register.Parts.Select(p =>
                    ($"{register.Name}[{p.High}..{p.Low}]", Both(p.Name, p.Phrase?.In(words.Language)))
                )
            );
        }
        rows.AddRange(Datapath.Meanings.Select(m => (m.Name, StandsFor(m, words))));
        Legend(rows);
        Legend(EveryCycle.WithPhrases(walk, speech).Select(e => ($"{e.Name}", $"{e.Said}")));
        if (walk.Holding is { } holding)
        {
            Holding(words.Say("walk.invariant"), holding.Formulas);
            Holding(words.Say("prove.exit"), holding.Ends);
        }
    }

    /// <summary>What holds in every round, with names; the rows have its numbers.</summary>
    private void Holding(string lead, IReadOnlyList<string> formulas)
    {
        Filled(lead, 3, "   ");
        foreach (var formula in formulas)
        {
            Filled(formula, 6, "      ");
        }
        Line();
    }

    internal static string StandsFor(Meaning meaning, Vocabulary words)
    {
        var value = meaning.Point is { } point
            ? words.Say("walk.stands-for-fraction", ("value", meaning.Text), ("count", point))
            : meaning.Text;
        return meaning.Phrase is { } phrase
            ? words.Say("walk.stands-for", ("phrase", phrase.In(words.Language)), ("value", value))
            : value;
    }

    private void Legend(IEnumerable<(string Name, string Said)> rows)
    {
        var known = rows.Where(r => r.Said.Length > 0).ToList();
        var width = known.Select(r => r.Name.Length).DefaultIfEmpty(0).Max() + Gap + 3;
        foreach (var (name, said) in known)
        {
            Filled(said, width, "   " + name);
        }
        if (known.Count > 0)
        {
            Line();
        }
    }

    internal static string Both(string name, string? phrase) =>
        phrase is null || phrase == name ? name : $"{name}, {phrase}";
}
