using System.Globalization;
using System.Numerics;
using System.Text;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// A walk as text: time runs down, bits stand in columns, parts of a register apart. The reasons stand beside the rows where
/// there is room, else under them; registers too wide for the page stand under each other.
/// </summary>
public sealed class WalkText
{
    private const int Gap = 2;

    /// <summary>Reasons stand beside the rows only when they have this many columns.</summary>
    private const int RoomBeside = 48;

    private readonly Walk walk;
    private readonly Vocabulary words;
    private readonly int columns;
    private readonly StringBuilder text = new();
    private readonly bool hasRounds;
    private readonly bool hasSteps;
    private readonly int labelWidth;

    /// <summary>What stands in columns: registers, then what they stand for.</summary>
    private readonly IReadOnlyList<(string Heading, int Width)> fields;

    private WalkText(Walk walk, Vocabulary words, int columns)
    {
        this.walk = walk;
        this.words = words;
        this.columns = columns;
        var loops = walk.Datapath.Schedule.Where(s => s.IsLoop).ToList();
        hasRounds = loops.Count > 1 || loops.Exists(s => s.Steps.Count > 1);
        hasSteps = walk.Datapath.Steps.Any(s => s.Name is not null);
        labelWidth = walk.Rows.Select(Label).Append(Heading()).Max(Wrapping.Columns);
        var said = walk.Rows.Select(Said).ToList();
        fields =
        [
            .. Registers.Select(r => (r.Name, Math.Max(Columns.Width(r), r.Name.Length))),
            .. Datapath.Meanings.Select(
                (m, i) => (m.Name, said.Select(s => s[i]).Append(m.Name).Max(Wrapping.Columns))
            ),
        ];
    }

    private Datapath Datapath => walk.Datapath;

    private IReadOnlyList<Register> Registers => Datapath.Registers;

    /// <summary>The whole text, lines ended by line feeds and at most <paramref name="columns"/> wide where words can break.</summary>
    public static string Of(Walk walk, Vocabulary words, int columns)
    {
        var report = new WalkText(walk, words, columns);
        report.Head();
        report.Table();
        report.Foot();
        return report.text.ToString();
    }

    private void Line(string line = "") => text.Append(line.TrimEnd()).Append('\n');

    private void Filled(string words, int indent, string lead = "")
    {
        foreach (var line in Wrapping.Folded(words, columns - indent))
        {
            Line(Wrapping.Padded(lead, indent) + line);
            lead = "";
        }
    }

    /// <summary>A number and its bits on one line, or the bits below it, both folded.</summary>
    private void Number(string name, BigInteger number, string bits)
    {
        var lead = $"   {name} = ";
        var line = $"{lead}{Bits.Text(number)} = {bits}";
        if (line.Length <= columns)
        {
            Line(line);
            return;
        }
        Filled(Bits.Text(number), lead.Length, lead);
        Filled(bits, lead.Length, "= ".PadLeft(lead.Length));
    }

    // ---- above the table

    private void Head()
    {
        var machine = Datapath.Machine;
        Filled(Names.Of(Datapath, words), 0);
        if (machine.Title is { } title)
        {
            Filled(title.In(words.Language), 0);
        }
        Line();
        var nameWidth = Datapath.Operands.Select(o => o.Name.Length).DefaultIfEmpty(0).Max();
        foreach (var operand in Datapath.Operands)
        {
            var bits = walk.Operands[operand.Index];
            Number(operand.Name.PadRight(nameWidth), Evaluator.Number(operand, bits), Bits.Text(bits, operand.Width));
        }
        if (!walk.IsGiven)
        {
            var given = Datapath.NotGiven(walk.Operands)!;
            Filled(words.Say("walk.outside", ("given", given.Text)), 3, "   ");
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
        Legend(
            Datapath
                .Steps.Where(s => s is { Name: not null, Phrase: not null })
                .Select(s => (s.Name!, s.Phrase!.In(words.Language)))
        );
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

    // ---- the table

    private string Heading() =>
        string.Join(
            ' ',
            new[]
            {
                words.Say("walk.cycle"),
                hasRounds ? words.Say("walk.round") : "",
                hasSteps ? words.Say("walk.step") : "",
            }.Where(w => w.Length > 0)
        );

    private string Label(Row row)
    {
        var cycle = row.Cycle == 0 ? words.Say("walk.load") : row.Cycle.ToString(CultureInfo.InvariantCulture);
        var label = cycle.PadLeft(words.Say("walk.cycle").Length);
        if (hasRounds)
        {
            var round = row.Round == 0 ? "" : row.Round.ToString(CultureInfo.InvariantCulture);
            label += " " + round.PadLeft(words.Say("walk.round").Length);
        }
        return hasSteps ? $"{label} {row.Step?.Name}" : label;
    }

    private int TableWidth => labelWidth + fields.Sum(f => Gap + f.Width);

    private void Table()
    {
        var together = TableWidth <= columns;
        var beside = columns - TableWidth - 2 * Gap;
        if (together)
        {
            Line(Cells(Heading(), fields.Select(f => f.Heading)));
        }
        foreach (var row in walk.Rows)
        {
            var reasons = Reasons(row).ToList();
            if (!together)
            {
                Stacked(row, reasons);
            }
            else if (beside >= RoomBeside)
            {
                Beside(row, [.. reasons.SelectMany(r => Wrapping.Folded(r, beside))]);
            }
            else
            {
                Line(Cells(Label(row), Texts(row)));
                foreach (var reason in reasons)
                {
                    Filled(reason, labelWidth + Gap);
                }
            }
        }
        Line();
    }

    private IEnumerable<string> Texts(Row row) =>
        Registers.Select(r => Columns.Text(r, row.Registers[r.Index])).Concat(Said(row));

    /// <summary>What the registers of a row stand for.</summary>
    private List<string> Said(Row row)
    {
        var registers = NumberWords.Over(row.Registers);
        return [.. Datapath.Meanings.Select(m => m.IsSoAfter(row.Step) ? m.Say(registers) : "")];
    }

    private string Cells(string label, IEnumerable<string> cells)
    {
        var line = Wrapping.Padded(label, labelWidth);
        foreach (var (field, cell) in fields.Zip(cells))
        {
            line += new string(' ', Gap) + Wrapping.Padded(cell, field.Width);
        }
        return line;
    }

    private void Beside(Row row, List<string> reasons)
    {
        var lead = Cells(Label(row), Texts(row));
        foreach (var reason in reasons.DefaultIfEmpty(""))
        {
            Line(Wrapping.Padded(lead, TableWidth + 2 * Gap) + reason);
            lead = "";
        }
    }

    /// <summary>"cycle 3, round 1, seed": a row's place where no column heading stands above it.</summary>
    private string Spoken(Row row)
    {
        if (row.Cycle == 0)
        {
            return words.Say("walk.load");
        }
        var places = new List<string> { $"{words.Say("walk.cycle")} {row.Cycle}" };
        if (hasRounds && row.Round > 0)
        {
            places.Add($"{words.Say("walk.round")} {row.Round}");
        }
        if (row.Step?.Name is { } name)
        {
            places.Add(name);
        }
        return string.Join(words.Say("walk.between-names"), places);
    }

    /// <summary>Registers under each other, long ones folded from the right so that places stand under places.</summary>
    private void Stacked(Row row, List<string> reasons)
    {
        Line(Spoken(row));
        var nameWidth = fields.Max(f => f.Heading.Length);
        foreach (var register in Registers)
        {
            var lead = $"   {register.Name.PadRight(nameWidth)}  ";
            foreach (var piece in Columns.Pieces(register, row.Registers[register.Index]))
            {
                foreach (var fold in Wrapping.Folds(piece, Math.Max(8, columns - lead.Length)))
                {
                    Line(lead + fold);
                    lead = new string(' ', lead.Length);
                }
            }
        }
        foreach (var (meaning, said) in Datapath.Meanings.Zip(Said(row)).Where(m => m.Second.Length > 0))
        {
            Filled(said, nameWidth + 5, $"   {meaning.Name}");
        }
        foreach (var reason in reasons)
        {
            Filled(reason, 3, "   ");
        }
    }

    /// <summary>A sentence for every moment in which something is said; a cycle that says and changes nothing says that.</summary>
    private IEnumerable<string> Reasons(Row row)
    {
        var said = row.Moments.Select(m => Sentences.Of(m.Happenings, words)).ToList();
        if (row.Cycle > 0 && said.TrueForAll(s => s.Length == 0))
        {
            return [words.Say("walk.nothing")];
        }
        var first = said.FindIndex(s => s.Length > 0);
        return said.Select((s, i) => s.Length > 0 && i > first ? words.Say("walk.then", ("sentence", s)) : s)
            .Where(s => s.Length > 0);
    }

    // ---- below it

    private void Foot()
    {
        var count = words.Say(
            Datapath.MayStopEarly ? "walk.cycles-early" : "walk.cycles",
            ("count", walk.Cycles),
            ("most", Datapath.MostCycles)
        );
        Line(count);
        Line();
        var numbers = Datapath.Widths.ToDictionary(w => w.Name, w => w.Value);
        foreach (var operand in Datapath.Operands)
        {
            numbers[operand.Name] = Evaluator.Number(operand, walk.Operands[operand.Index]);
        }
        var nameWidth = Datapath.Results.Select(r => r.Name.Length).DefaultIfEmpty(0).Max();
        foreach (var (result, bits) in Datapath.Results.Zip(walk.Results))
        {
            numbers[result.Name] = result.Number(bits);
            Number(result.Name.PadRight(nameWidth), result.Number(bits), Bits.Text(bits, result.Width));
        }
        Line();
        Claims(numbers);
    }

    private void Claims(Dictionary<string, BigInteger> numbers)
    {
        if (walk.Claims.Count == 0)
        {
            Filled(words.Say(walk.IsGiven ? "walk.no-laws" : "walk.outside-unstated"), 3, "   ");
            return;
        }
        if (!walk.IsGiven)
        {
            Line("   " + words.Say("walk.outside-stated"));
        }
        var width = walk.Claims.Max(c => Verdict(c).Length) + 3 + Gap;
        foreach (var claim in walk.Claims)
        {
            Filled($"{claim.Claim.Text}", width, "   " + Verdict(claim));
            var applied = FormulaText.WithNumbers(claim.Claim, numbers);
            if (claim.Applies && applied != claim.Claim.Text)
            {
                Filled(applied, width);
            }
        }
    }

    private string Verdict(JudgedClaim claim) => words.Say(VerdictKey(claim));

    internal static string VerdictKey(JudgedClaim claim) =>
        claim switch
        {
            { Applies: false } => "walk.applies-not",
            { Holds: true } => "walk.holds",
            _ => "walk.broken",
        };
}
