using System.Text;
using Reckoner.Tables;

namespace Reckoner.Reporting;

/// <summary>
/// A table as text. Columns stand beside each other where the page is wide enough; sentences are wrapped beside them, or stand
/// under their row; else each row is a list of its cells.
/// </summary>
internal sealed class GridText
{
    private const int Gap = 2;

    /// <summary>One column of sentences stands beside the others only with this much room; several make do with less.</summary>
    private const int RoomForOne = 40;
    private const int RoomForEach = 18;

    private readonly Grid grid;
    private readonly int columns;
    private readonly StringBuilder text = new();
    private readonly List<string> heads;
    private bool narrowHeads;
    private readonly List<IReadOnlyList<string>[]> rows;
    private readonly int[] widths;
    private readonly List<int> sentences;

    private GridText(Grid grid, int columns)
    {
        this.grid = grid;
        this.columns = columns;
        heads = [.. grid.Columns.Select(Marks.Head)];
        rows =
        [
            .. Marks
                .Seen(grid)
                .Select(r => r.Select(c => (IReadOnlyList<string>)[.. c.Lines.Select(l => l.ToString())]).ToArray()),
        ];
        widths = [.. heads.Select((head, i) => rows.SelectMany(r => r[i]).Append(head).Max(Wrapping.Columns))];
        sentences = [.. Enumerable.Range(0, heads.Count).Where(i => grid.Columns[i].Role == ColumnRole.Sentences)];
    }

    public static string Of(Grid grid, int columns)
    {
        var made = new GridText(grid, columns);
        made.Write();
        return made.text.ToString();
    }

    private int Total => widths.Sum() + Gap * (widths.Length - 1);

    /// <summary>Heads of short columns in several lines, where that makes the table narrow enough.</summary>
    private void Narrow()
    {
        narrowHeads = true;
        foreach (var i in Enumerable.Range(0, heads.Count).Where(i => grid.Columns[i].Role == ColumnRole.Short))
        {
            widths[i] = rows.SelectMany(r => r[i]).Concat(heads[i].Split(' ')).Max(Wrapping.Columns);
        }
    }

    private void Write()
    {
        if (Total <= columns)
        {
            Beside();
            return;
        }
        if (Total - sentences.Sum(i => widths[i] + Gap) > columns)
        {
            Narrow();
        }
        var room = columns - (Total - sentences.Sum(i => widths[i]));
        if (sentences.Count > 0 && room / sentences.Count >= (sentences.Count == 1 ? RoomForOne : RoomForEach))
        {
            Share(room);
            Beside();
        }
        else if (sentences.Count == 1 && Total - widths[sentences[0]] - Gap <= columns)
        {
            Under(sentences[0]);
        }
        else
        {
            Apart();
        }
    }

    /// <summary>Room for the columns of sentences: what a short one needs, the rest to the others in equal shares.</summary>
    private void Share(int room)
    {
        var left = sentences.OrderBy(i => widths[i]).ToList();
        while (left.Count > 0)
        {
            var i = left[0];
            widths[i] = Math.Min(widths[i], room / left.Count);
            room -= widths[i];
            left.RemoveAt(0);
        }
    }

    private void Beside()
    {
        Heads([.. Enumerable.Range(0, heads.Count)]);
        foreach (var row in rows)
        {
            var cells = row.Select((lines, i) => lines.SelectMany(l => Wrapping.Folded(l, widths[i])).ToList())
                .ToList();
            for (var line = 0; line < Math.Max(1, cells.Max(c => c.Count)); line++)
            {
                Line(cells.Select((c, i) => (line < c.Count ? c[line] : "", widths[i])));
            }
        }
    }

    private void Heads(List<int> shown)
    {
        var lines = shown.Select(i => narrowHeads ? Wrapping.Lines(heads[i], widths[i]).ToList() : [heads[i]]).ToList();
        for (var line = 0; line < lines.Max(l => l.Count); line++)
        {
            Line(shown.Select((c, i) => (line < lines[i].Count ? lines[i][line] : "", widths[c])));
        }
    }

    private void Line(IEnumerable<(string Text, int Width)> cells) =>
        text.Append(string.Join(new string(' ', Gap), cells.Select(c => Wrapping.Padded(c.Text, c.Width))).TrimEnd())
            .Append('\n');

    private void Under(int column)
    {
        var others = Enumerable.Range(0, heads.Count).Where(i => i != column).ToList();
        var indent = others[0] < column ? widths[others[0]] + Gap : Gap;
        Heads(others);
        foreach (var row in rows)
        {
            Line(others.Select(i => (string.Join("; ", row[i]), widths[i])));
            foreach (var line in row[column].SelectMany(l => Wrapping.Folded(l, columns - indent)))
            {
                text.Append(' ', indent).Append(line).Append('\n');
            }
        }
    }

    /// <summary>Each row a list of its cells; in a table of groups, with the second column before them.</summary>
    private void Apart()
    {
        var label = Math.Max(0, grid.Columns.ToList().FindIndex(c => c.Role == ColumnRole.Label));
        var key = grid.Columns[label].IsGroup ? label + 1 : -1;
        var keyWidth = key < 0 ? 0 : rows.SelectMany(r => r[key]).Max(Wrapping.Columns) + Gap;
        var others = Enumerable.Range(0, heads.Count).Where(i => i != label && i != key).ToList();
        var width = others
            .Where(i => !sentences.Contains(i))
            .Select(i => Wrapping.Columns(heads[i]))
            .DefaultIfEmpty(0)
            .Max();
        foreach (var row in rows)
        {
            if (row[label].Count > 0)
            {
                text.Append($"{heads[label]} {string.Join("; ", row[label])}").Append('\n');
            }
            var before = key < 0 ? "" : Wrapping.Padded(string.Join("; ", row[key]), keyWidth);
            foreach (var i in others)
            {
                var head = sentences.Contains(i) ? "" : Wrapping.Padded(heads[i], width + Gap);
                foreach (var line in row[i].SelectMany(l => Wrapping.Folded(l, columns - 3 - keyWidth - head.Length)))
                {
                    text.Append($"   {before}{head}{line}".TrimEnd()).Append('\n');
                    head = new string(' ', head.Length);
                    before = new string(' ', before.Length);
                }
            }
        }
    }
}
