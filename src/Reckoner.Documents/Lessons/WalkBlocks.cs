using Reckoner.Drawing;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Sheets;
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

    private static Grid Table(WalkAnswer answer, Vocabulary words, Edition edition) =>
        Table(
            answer.Grid,
            WalkSteps.Caption(answer.Walk, words),
            Filled(edition) ? edition : null,
            (row, i) => IsOpen(answer.Grid, row, i),
            [
                .. Enumerable
                    .Range(0, answer.Grid.Columns.Count)
                    .Where(i => answer.Grid.Columns[i].Role != ColumnRole.Sentences),
            ]
        ) with
        {
            Remarks = Remarks(answer.Grid),
        };

    /// <summary>
    /// A table of a question: reasons take the same room in every row, and those of rows that are given are printed. For reading aloud
    /// every column is one, and what is decided is written; else it is ringed where the reasons stand.
    /// </summary>
    public static Grid Table(TableWork work, SheetForm form, Edition edition)
    {
        var rows = work.Grid.Rows.ToList();
        var isRead = form == SheetForm.Read;
        // Of several sentences the last stand beside the table; the others are short.
        var beside = isRead ? -1 : Beside(work.Grid);
        var ringed = work.Decisions.Where(d => !isRead && d.Ways.Count > 0).ToList();
        List<int> shown = [.. work.Shown.Where(i => i != beside && !ringed.Exists(d => d.Column == i))];
        var made = Table(
            work.Grid,
            work.Caption,
            work.IsToFill ? edition : null,
            (row, i) => work.Open[rows.IndexOf(row)].Contains(i),
            shown
        );
        if (work.IsToFill)
        {
            made = made with { Rings = [.. rows.Select((_, i) => Rings(work, ringed, i))] };
        }
        if (isRead)
        {
            made = made with
            {
                Filling = made.Filling?.Read(
                    Enumerable
                        .Range(0, shown.Count)
                        .Where(i =>
                            shown[i] == Beside(work.Grid)
                            || work.Decisions.Any(d => d.Column == shown[i] && d.Ways.Count > 0)
                        )
                        .ToHashSet()
                ),
            };
        }
        else if (!work.WithoutReasons && Remarks(work.Grid) is { } remarks)
        {
            made = made with
            {
                Remarks = remarks with
                {
                    Given = Enumerable.Range(0, rows.Count).Where(i => !work.Open[i].Contains(beside)).ToHashSet(),
                    IsEven = work.IsToFill,
                },
            };
        }
        var spare = work.OpenSpare;
        return made.WithSpare(
            work.Spare,
            work.SpareLabel,
            i => work.SpareText(shown[i]),
            [
                .. ringed
                    .Where(d => spare.Contains(d.Column))
                    .SelectMany(d => d.Ways.Select(w => new Ring(w, IsTaken: false))),
            ]
        );
    }

    /// <summary>Nothing above a row without decisions, such as the load.</summary>
    private static IReadOnlyList<Ring> Rings(TableWork work, IReadOnlyList<TableDecision> ringed, int row) =>
        [
            .. ringed
                .Where(d => work.Open[row].Contains(d.Column))
                .SelectMany(d => d.Ways.Select(w => new Ring(w, $"{work.Grid.Rows[row].Cells[d.Column]}" == w))),
        ];

    /// <summary>The columns of few words.</summary>
    /// <param name="filled">Null for a table to be read.</param>
    private static Grid Table(
        Tables.Grid grid,
        string? caption,
        Edition? filled,
        Func<GridRow, int, bool> isOpen,
        IReadOnlyList<int> shown
    )
    {
        return new Grid(
            caption,
            [.. shown.Select(i => Marks.Head(grid.Columns[i]))],
            [
                .. grid
                    .Rows.Select(row => Marks.Cells(grid, row).Select(c => string.Join("; ", c.Lines)).ToList())
                    .Select(cells => (IReadOnlyList<string>)[.. shown.Select(i => cells[i])]),
            ]
        )
        {
            Face = Face.Mono,
            Numbers = Chosen(i => IsNumber(grid, i)),
            Filling = filled is null
                ? null
                : new Filling(
                    Chosen(i => IsDigits(grid, i)),
                    [.. grid.Rows.Select(row => Chosen(i => isOpen(row, i)))],
                    filled == Edition.Key
                ),
        };

        HashSet<int> Chosen(Func<int, bool> choose) =>
            [.. Enumerable.Range(0, shown.Count).Where(i => choose(shown[i]))];
    }

    /// <summary>Whether a cell of a walk's table is left open where nothing else is said.</summary>
    public static bool IsOpen(Tables.Grid grid, GridRow row, int column) =>
        row.Cycle != 0 && IsToFind(grid, column) && !row.Cells[column].IsEmpty;

    /// <summary>Whether a paper has places to write into, empty or filled in.</summary>
    public static bool Filled(Edition edition) =>
        edition switch
        {
            Edition.Full => false,
            Edition.Blank or Edition.Key => true,
        };

    private static bool IsToFind(Tables.Grid grid, int column) => IsNumber(grid, column) || IsDigits(grid, column);

    /// <summary>Whether a column holds the digits of a register, as many in every row.</summary>
    public static bool IsDigits(Tables.Grid grid, int column) => AreDigits(grid, column) && !IsNumber(grid, column);

    /// <summary>Whether every cell of a column holds digits of a stated width, not a number that may have a sign.</summary>
    public static bool AreDigits(Tables.Grid grid, int column) =>
        grid.Columns[column].Role == ColumnRole.Digits
        && grid.Rows.SelectMany(r => r.Cells[column].Lines).All(l => l.Runs is [] or [{ Kind: RunKind.Digits }, ..]);

    /// <summary>
    /// Whether a column holds numbers, not the digits of a register: how long they are differs from row to row, and left open
    /// digit by digit they would give that away.
    /// </summary>
    public static bool IsNumber(Tables.Grid grid, int column) =>
        grid.Columns[column].IsMeaning
        || grid.Columns[column].Role == ColumnRole.Digits
            && grid.Rows.SelectMany(r => r.Cells[column].Lines).Select(l => l.ToString().Length).Distinct().Count() > 1;

    /// <summary>The column of sentences that stand beside a table; -1 for none.</summary>
    private static int Beside(Tables.Grid grid) =>
        grid.Columns.ToList().FindLastIndex(c => c.Role == ColumnRole.Sentences);

    private static Remarks? Remarks(Tables.Grid grid)
    {
        var column = Beside(grid);
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
                Edition.Blank or Edition.Key => Place(Bits.Text(result.Number(bits)), edition),
                Edition.Full => new Run($"{Bits.Text(result.Number(bits))} = {Bits.Text(bits, result.Width)}"),
            };
        }
    }

    /// <summary>A place to write a number into.</summary>
    public const string Open = Documents.Filling.Place;

    /// <summary>Such a place, empty or filled in: both take the same room, so that a key breaks its lines where the paper does.</summary>
    /// <param name="room">The signs that there is room for, in whatever is written there.</param>
    public static Run Place(string number, Edition edition, int room = 0)
    {
        var filled = new Run(number, Face.Bold);
        var (line, sign) = (Typeface.Of(Face.Plain).Width(Open, 1), Typeface.Of(Face.Plain).Width("_", 1));
        var any = Typeface.Of(Face.Bold).Width("0", 1) * room;
        var wanted = Math.Max(Math.Max(line, any), Typeface.Of(Face.Bold).Width(number, 1));
        var empty = new Run(new string('_', (int)Math.Ceiling(wanted / sign - 0.01)));
        return edition switch
        {
            Edition.Full => new Run(number),
            Edition.Blank => empty with { InPlaceOf = filled },
            Edition.Key => filled with { InPlaceOf = empty },
        };
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
