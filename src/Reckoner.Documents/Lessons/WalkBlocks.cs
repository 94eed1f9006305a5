using Reckoner.Drawing;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>Which of a lesson's papers is set.</summary>
internal enum Edition
{
    /// <summary>Everything told.</summary>
    Full,

    /// <summary>Registers, results and linked numbers are left open.</summary>
    Blank,

    /// <summary>As the blank one, filled in.</summary>
    Key,
}

/// <summary>A walk on paper.</summary>
internal static class WalkBlocks
{
    public static IEnumerable<Block> Of(WalkAnswer answer, Vocabulary words, Edition edition)
    {
        var walk = answer.Walk;
        yield return Table(answer, words, edition);
        foreach (var note in answer.Document.Signs)
        {
            yield return Below(note.ToString());
        }
        yield return new Paragraph([new Run(words.Say("lesson.results") + " "), .. Results(walk, words, edition)])
        {
            IsBelow = true,
        };
        if (edition == Edition.Full)
        {
            foreach (var claim in Claims(walk, words))
            {
                yield return Below(claim);
            }
        }
    }

    private static Paragraph Below(string words) => Paragraph.Of(words) with { IsBelow = true };

    /// <summary>The columns of few words, and the sentences as remarks.</summary>
    private static Grid Table(WalkAnswer answer, Vocabulary words, Edition edition)
    {
        var grid = answer.Grid;
        var shown = Enumerable
            .Range(0, grid.Columns.Count)
            .Where(i => grid.Columns[i].Role != ColumnRole.Sentences)
            .ToList();
        return new Grid(
            WalkSteps.Caption(answer.Walk, words),
            [.. shown.Select(i => Marks.Head(grid.Columns[i]))],
            [.. grid.Rows.Select(row => (IReadOnlyList<string>)[.. Cells(row, isOpen: edition != Edition.Full)])]
        )
        {
            Shown =
                edition == Edition.Key
                    ? [.. grid.Rows.Select(row => (IReadOnlyList<string>)[.. Cells(row, isOpen: false)])]
                    : null,
            Face = Face.Mono,
            Numbers = shown
                .Select((column, i) => (column, i))
                .Where(c => IsNumber(grid, c.column))
                .Select(c => c.i)
                .ToHashSet(),
            // Where the full paper says why, the one to be filled in has room for that.
            Remarks = Remarks(grid) is { } remarks ? remarks with { IsOpen = edition == Edition.Blank } : null,
        };

        IEnumerable<string> Cells(GridRow row, bool isOpen)
        {
            var cells = Marks.Cells(grid, row).Select(c => string.Join("; ", c.Lines)).ToList();
            return shown.Select(i =>
                !isOpen || row.Cycle == 0 || cells[i].Length == 0 ? cells[i]
                : IsNumber(grid, i) ? Open
                : grid.Columns[i].Role == ColumnRole.Digits ? Blank(cells[i])
                : cells[i]
            );
        }
    }

    /// <summary>
    /// Whether a column holds numbers, not the digits of a register: how long they are differs from row to row, and left open
    /// digit by digit they would give that away.
    /// </summary>
    public static bool IsNumber(Tables.Grid grid, int column) =>
        grid.Columns[column].IsMeaning
        || grid.Columns[column].Role == ColumnRole.Digits
            && grid.Rows.SelectMany(r => r.Cells[column].Lines).Select(l => l.ToString().Length).Distinct().Count() > 1;

    /// <summary>A place to write each digit into, and a line between the parts of a register.</summary>
    public static string Blank(string digits) =>
        string.Join(" | ", digits.Split(' ').Select(part => string.Join(' ', part.Select(_ => '_'))));

    private static Remarks? Remarks(Tables.Grid grid)
    {
        var column = grid.Columns.ToList().FindIndex(c => c.Role == ColumnRole.Sentences);
        return column < 0
            ? null
            : new Remarks(
                Marks.Head(grid.Columns[column]),
                [.. grid.Rows.Select(r => string.Join("; ", r.Cells[column].Lines))]
            );
    }

    private static IEnumerable<Run> Results(Walk walk, Vocabulary words, Edition edition)
    {
        var results = walk.Datapath.Results.Zip(walk.Results).ToList();
        for (var i = 0; i < results.Count; i++)
        {
            var (result, bits) = results[i];
            yield return new Run($"{(i > 0 ? words.Say("walk.between-names") : "")}{result.In(words.Language)} = ");
            yield return edition switch
            {
                Edition.Blank => new Run(Open),
                Edition.Key => Filled(Bits.Text(result.Number(bits))),
                Edition.Full => new Run($"{Bits.Text(result.Number(bits))} = {Bits.Text(bits, result.Width)}"),
            };
        }
    }

    /// <summary>A place to write a number into.</summary>
    public const string Open = "________";

    /// <summary>A number in such a place, which keeps its width, so that a key breaks its lines where the paper does.</summary>
    public static Run Filled(string number)
    {
        const char Unbroken = '\u00A0';
        var (place, letters) = (Typeface.Of(Face.Plain).Width(Open, 1), Typeface.Of(Face.Bold));
        var spare = (place - letters.Width(number, 1)) / letters.Width(Unbroken.ToString(), 1);
        return new Run(number + new string(Unbroken, Math.Max(0, (int)Math.Round(spare))), Face.Bold);
    }

    /// <summary>"holds: dividend = …" for each law.</summary>
    public static IEnumerable<string> Claims(Walk walk, Vocabulary words) =>
        walk.Claims.Select(c =>
            words.Say(
                "lesson.claim",
                (
                    "verdict",
                    words.Say(
                        !c.Applies ? "walk.applies-not"
                        : c.Holds ? "walk.holds"
                        : "walk.broken"
                    )
                ),
                ("claim", ClaimText.Of(c.Claim, walk.Datapath, words))
            )
        );

    /// <summary>"quotient = 4 = 00100, remainder = 5 = 00101".</summary>
    public static string ResultsSaid(Walk walk, Vocabulary words) =>
        string.Concat(Results(walk, words, Edition.Full).Select(r => r.Words));
}
