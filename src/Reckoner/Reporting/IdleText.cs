using System.Globalization;
using System.Text;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// Idle bits as a picture in text: a row per cycle, a column per register bit. # carries something, 0 and 1 are the same for all
/// operands, - is not looked at any more. Registers too wide for the page are told in stretches of places.
/// </summary>
public sealed class IdleText
{
    private const string Indent = "   ";

    private readonly IdleStudy study;
    private readonly Vocabulary words;
    private readonly int columns;
    private readonly StringBuilder text = new();

    private IdleText(IdleStudy study, Vocabulary words, int columns)
    {
        this.study = study;
        this.words = words;
        this.columns = columns;
    }

    public static string Of(IdleStudy study, Vocabulary words, int columns)
    {
        var report = new IdleText(study, words, columns);
        report.Head();
        report.Table();
        report.Sharable();
        return report.text.ToString();
    }

    private IReadOnlyList<Register> Registers => study.Datapath.Registers;

    private void Head()
    {
        Filled(Names.Of(study.Datapath, words), "");
        Filled(
            study.IsExhaustive
                ? words.Say("idle.over-all", ("cases", study.Rows[0].Cases!.Value))
                : words.Say("idle.by-structure"),
            ""
        );
        text.Append('\n');
        Filled(words.Say(study.IsExhaustive ? "idle.legend" : "idle.legend-structure"), Indent);
        text.Append('\n');
    }

    private void Filled(string said, string indent)
    {
        foreach (var line in Wrapping.Lines(said, columns - indent.Length))
        {
            text.Append(indent).Append(line).Append('\n');
        }
    }

    /// <summary>Pictures side by side where the page has room, else stretches side by side, else stretches one below another.</summary>
    private void Table()
    {
        var labels = study.Rows.Select(Label).ToList();
        var reached = study.Rows.Select(Reached).ToList();
        var cells = Registers.Select(r => study.Rows.Select(row => Picture(row, r)).ToList()).ToList();
        if (Width(labels, cells, reached) > columns)
        {
            cells = [.. Registers.Select(r => study.Rows.Select(row => Stretches(row, r)).ToList())];
        }
        if (Width(labels, cells, reached) > columns)
        {
            Below(labels, cells, reached);
            return;
        }
        var widths = Registers.Zip(cells, (r, told) => CellWidth(r, told)).ToList();
        Line(Head(labels), [.. Registers.Select(r => r.Name)], "");
        for (var row = 0; row < labels.Count; row++)
        {
            Line(labels[row], [.. cells.Select(told => told[row])], reached[row]);
        }

        void Line(string label, IReadOnlyList<string> line, string end)
        {
            var padded = line.Zip(widths, (cell, width) => "  " + Wrapping.Padded(cell, width));
            var lead = label.PadLeft(Head(labels).Length);
            text.Append($"{lead}{string.Concat(padded)}{(end.Length > 0 ? "  " + end : "")}".TrimEnd()).Append('\n');
        }
    }

    private void Below(List<string> labels, List<List<string>> cells, List<string> reached)
    {
        var width = Registers.Max(r => Wrapping.Columns(r.Name)) + 2;
        for (var row = 0; row < labels.Count; row++)
        {
            var label = row == 0 ? labels[row] : $"{words.Say("walk.cycle")} {labels[row]}";
            text.Append(label).Append(reached[row].Length > 0 ? $", {reached[row]}" : "").Append('\n');
            foreach (var register in Registers)
            {
                var lead = Indent + Wrapping.Padded(register.Name, width);
                foreach (var line in Wrapping.Lines(cells[register.Index][row], columns - lead.Length))
                {
                    text.Append(lead).Append(line).Append('\n');
                    lead = new string(' ', lead.Length);
                }
            }
        }
    }

    private string Head(List<string> labels) => words.Say("walk.cycle").PadLeft(labels.Max(l => l.Length));

    private int Width(List<string> labels, List<List<string>> cells, List<string> reached)
    {
        var end = reached.Max(r => r.Length);
        return Head(labels).Length
            + Registers.Zip(cells, (r, told) => 2 + CellWidth(r, told)).Sum()
            + (end > 0 ? 2 + end : 0);
    }

    private static int CellWidth(Register register, List<string> told) =>
        Math.Max(Wrapping.Columns(register.Name), told.Max(c => c.Length));

    private string Label(IdleRow row) =>
        row.Cycle == 0 ? words.Say("walk.load") : row.Cycle.ToString(CultureInfo.InvariantCulture);

    /// <summary>How many operands reach a cycle, in machines where not all of them do.</summary>
    private string Reached(IdleRow row) =>
        study.Rows.All(r => r.IsForAll) ? ""
        : row.Cases is { } cases ? words.Say("idle.cases", ("cases", cases))
        : row.IsForAll ? ""
        : words.Say("idle.not-all");

    private static char Mark(Carried carried) =>
        carried switch
        {
            Carried.Something => '#',
            Carried.AlwaysZero => '0',
            Carried.AlwaysOne => '1',
            Carried.Unread => '-',
        };

    /// <summary>A mark per bit of a register, the most significant first.</summary>
    public static string Marks(IdleRow row, Register register) =>
        string.Concat(row.Bits[register.Index].Reverse().Select(Mark));

    /// <summary>The same, cut where the register's parts end.</summary>
    private static string Picture(IdleRow row, Register register)
    {
        var marks = Marks(row, register);
        var ends = Columns.Cuts(register).Select(low => register.Width - low).Prepend(0).ToList();
        return string.Join(' ', ends.Zip(ends.Skip(1), (from, to) => marks[from..to]));
    }

    /// <summary>Places that carry alike, as in "127..64=0, 63..0=#".</summary>
    private static string Stretches(IdleRow row, Register register)
    {
        var marks = Marks(row, register);
        var stretches = new List<string>();
        for (var from = 0; from < marks.Length; )
        {
            var to = from;
            while (to + 1 < marks.Length && marks[to + 1] == marks[from])
            {
                to++;
            }
            var (high, low) = (register.Width - 1 - from, register.Width - 1 - to);
            stretches.Add(high == low ? $"{high}={marks[from]}" : $"{high}..{low}={marks[from]}");
            from = to + 1;
        }
        return string.Join(", ", stretches);
    }

    private void Sharable()
    {
        var sentences = Sharable(study, words).ToList();
        if (sentences.Count > 0)
        {
            text.Append('\n');
        }
        foreach (var sentence in sentences)
        {
            Filled(sentence, Indent);
        }
    }

    /// <summary>A sentence for each pair of registers that could share one.</summary>
    public static IEnumerable<string> Sharable(IdleStudy study, Vocabulary words) =>
        study
            .Sharable()
            .Select(pair =>
            {
                var (first, second, most) = pair;
                var wider = first.Width >= second.Width ? first : second;
                return words.Say(
                    "idle.sharable",
                    ("first", first.Name),
                    ("second", second.Name),
                    ("most", most),
                    ("wider", wider.Name),
                    ("width", wider.Width)
                );
            });
}
