using System.Globalization;
using System.Text;
using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// Chosen operands in rows: operands, results, cycles where they differ, and what was decided cycle by cycle; where that does not
/// fit beside them it stands below each row.
/// </summary>
internal static class OperandsTable
{
    private const string Indent = "   ";
    private const string Gap = "  ";

    /// <param name="marks">By what each row is spoken of elsewhere; null where it is not.</param>
    public static void Write(
        StringBuilder text,
        Datapath datapath,
        IReadOnlyList<ChosenOperands> rows,
        Vocabulary words,
        int columns,
        IReadOnlyList<string>? marks = null
    )
    {
        List<string> head =
        [
            .. marks is null ? [] : new[] { "" },
            .. datapath.Operands.Select(o => o.Name),
            .. datapath.Results.Select(r => r.Name),
        ];
        if (datapath.MayStopEarly)
        {
            head.Add(words.Say("operands.cycles"));
        }
        var numbers = rows.Select((r, i) => Numbers(datapath, r, marks?[i])).ToList();
        var widths = head.Select((h, i) => Math.Max(Wrapping.Columns(h), numbers.Max(n => n[i].Length))).ToList();
        var decisions = rows.Select(r => r.Decisions.Select(Strip).ToList()).ToList();
        var names = rows[0].Decisions.Select(d => d.Text).ToList();
        var strips = names.Select((n, i) => Math.Max(Wrapping.Columns(n), decisions.Max(d => d[i].Length))).ToList();
        var beside = Indent.Length + widths.Concat(strips).Sum(w => w + Gap.Length) <= columns;

        Line(
            text,
            head.Select((h, i) => Right(h, widths[i]))
                .Concat(beside ? names.Select((n, i) => Wrapping.Padded(n, strips[i])) : [])
        );
        for (var r = 0; r < rows.Count; r++)
        {
            var row = r;
            var cells = numbers[r].Select((n, i) => n.PadLeft(widths[i]));
            Line(text, cells.Concat(beside ? decisions[r].Select((d, i) => d.PadRight(strips[i])) : []));
            if (!beside)
            {
                var lead = names.Max(Wrapping.Columns) + Indent.Length + 2 * Gap.Length;
                for (var d = 0; d < names.Count; d++)
                {
                    Below(text, names[d], decisions[row][d], lead, columns);
                }
            }
        }
        if (names.Count > 0)
        {
            var key = rows[0].Decisions.Any(d => d.IsChoice) ? "operands.legend-arms" : "operands.legend";
            text.Append('\n');
            foreach (var line in Wrapping.Lines(words.Say(key), columns - Indent.Length))
            {
                text.Append(Indent).Append(line).Append('\n');
            }
        }
    }

    private static List<string> Numbers(Datapath datapath, ChosenOperands row, string? mark)
    {
        List<string> numbers =
        [
            .. mark is null ? [] : new[] { mark },
            .. datapath.Operands.Zip(row.Operands, (o, b) => $"{Evaluator.Number(o, b)}"),
            .. datapath.Results.Zip(row.Results, (r, b) => $"{r.Number(b)}"),
        ];
        if (datapath.MayStopEarly)
        {
            numbers.Add(row.Cycles.ToString(CultureInfo.InvariantCulture));
        }
        return numbers;
    }

    private static string Right(string text, int width) =>
        new string(' ', Math.Max(0, width - Wrapping.Columns(text))) + text;

    private static void Line(StringBuilder text, IEnumerable<string> cells) =>
        text.Append((Indent + string.Join(Gap, cells)).TrimEnd()).Append('\n');

    private static void Below(StringBuilder text, string name, string strip, int lead, int columns)
    {
        var label = Wrapping.Padded(Indent + Gap + name, lead);
        foreach (var line in Wrapping.Lines(strip, Math.Max(10, columns - lead)))
        {
            text.Append(label).Append(line).Append('\n');
            label = new string(' ', lead);
        }
    }

    /// <summary>A mark for each cycle; of a choice the label of the arm, its 0b left out.</summary>
    private static string Strip(MetDecision decision) =>
        decision.IsChoice
            ? string.Join(' ', decision.Outcomes.Select(o => o?.Replace("0b", "", StringComparison.Ordinal) ?? "."))
            : string.Concat(
                decision.Outcomes.Select(o =>
                    o switch
                    {
                        null => ".",
                        "1" => "#",
                        _ => "-",
                    }
                )
            );
}
