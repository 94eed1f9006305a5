using System.Globalization;
using Reckoner.Classroom;
using Reckoner.Datapaths;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>What is decided in the cycles of a walk, as columns of its table.</summary>
internal static class WalkDecisions
{
    /// <summary>
    /// The table with a column for each decision that stands in a step, behind its others but before the reasons: which of them a walk
    /// comes by nobody is told. Where a row stands for several cycles, or nothing is decided, it stays as it is.
    /// </summary>
    /// <param name="asDigits">Whether what was looked at is written, and not the way in which it falls.</param>
    public static (Tables.Grid Grid, IReadOnlyList<TableDecision> Decisions) With(
        Walk walk,
        Tables.Grid grid,
        bool asDigits,
        Vocabulary words
    )
    {
        var standing = walk.Datapath.Steps.ToDictionary(s => s, Standing);
        var asked = standing
            .Values.SelectMany(f => f)
            .GroupBy(f => (f.Source, f.Line))
            .OrderBy(g => g.Key.Line)
            .ToList();
        if (walk.Rows.Any(r => grid.Rows.All(g => g.Cycle != r.Cycle)) || asked.Count == 0)
        {
            return (grid, []);
        }
        var at = grid.Columns.ToList().FindIndex(c => c.Role == ColumnRole.Sentences);
        at = at < 0 ? grid.Columns.Count : at;
        var names = new HashSet<string>();
        List<GridColumn> heads =
        [
            .. asked.Select(a =>
            {
                var name = words.Say("question.decision", ("what", Named(a.First().Question, words)));
                while (!names.Add(name))
                {
                    name += "?";
                }
                return new GridColumn(name, asDigits ? ColumnRole.Digits : ColumnRole.Short);
            }),
        ];
        // Of the rows of one cycle the first is where it is decided.
        var cycles = grid
            .Rows.Index()
            .GroupBy(r => r.Item.Cycle)
            .Where(g => g.Key is { } cycle && walk.Rows[cycle].Step is not null)
            .ToDictionary(g => g.First().Index, g => walk.Rows[g.Key!.Value]);
        var rows = grid
            .Rows.Index()
            .Select(row =>
            {
                var cells = asked.Select(a =>
                    cycles.TryGetValue(row.Index, out var its)
                    && standing[its.Step!].FirstOrDefault(f => (f.Source, f.Line) == a.Key) is { } fork
                    && Fork.Of(its).FirstOrDefault(fork.IsSame) is { } met
                        ? asDigits
                            ? Digit(met, its)
                            : Cell.Of(Way(met, met.Falls, words))
                        : Cell.Empty
                );
                return row.Item with { Cells = [.. row.Item.Cells.Take(at), .. cells, .. row.Item.Cells.Skip(at)] };
            });
        return (
            grid with
            {
                Columns = [.. grid.Columns.Take(at), .. heads, .. grid.Columns.Skip(at)],
                Rows = [.. rows],
            },
            [
                .. asked.Select(
                    (a, i) =>
                        new TableDecision(
                            at + i,
                            asDigits
                                ? []
                                : [.. Enumerable.Range(0, a.First().Ways.Count).Select(w => Way(a.First(), w, words))],
                            cycles
                                .Where(c => standing[c.Value.Step!].Any(f => (f.Source, f.Line) == a.Key))
                                .Select(c => c.Key)
                                .ToHashSet()
                        )
                ),
            ]
        );
    }

    private static List<Fork> Standing(Step step) => [.. Fork.Standing(step).Select(s => s.Fork)];

    /// <summary>Whether a walk may pass a decision without taking it.</summary>
    public static bool MayPass(Datapath datapath) => datapath.Steps.SelectMany(Fork.Standing).Any(s => s.IsInside);

    private static Value Inner(Value question)
    {
        while (question.Operation == Operation.Not)
        {
            question = question.Inputs[0];
        }
        return question;
    }

    private static string Named(Value question, Vocabulary words) =>
        Inner(question) is var inner && inner.Operation == Operation.Wire
            ? inner.Wire!.In(words.Language)
            : WrittenText.Of(inner, words);

    /// <summary>What the description says of a way, with the digits by which it is taken where there are some.</summary>
    private static string Way(Fork fork, int at, Vocabulary words)
    {
        var way = fork.Ways[at];
        var said =
            way.Phrase?.In(words.Language) is { } phrase && !phrase.Contains('{', StringComparison.Ordinal)
                ? phrase
                : null;
        var label = way.Label is ['0', 'b', .. var bits] ? bits : way.Label;
        return (label, said) switch
        {
            ({ } digits, { } its) => $"{digits}: {its}",
            ({ } digits, null) => digits,
            (null, { } its) => its,
            (null, null) => words.Say(
                at == 0 ? "question.decided-so" : "question.decided-not",
                ("what", WrittenText.Of(fork.Question, words))
            ),
        };
    }

    /// <summary>The bits that were looked at; of a table the number that it gave.</summary>
    private static Cell Digit(Fork fork, Row row)
    {
        var tested = row
            .Moments.SelectMany(m => m.Happenings)
            .OfType<Tested>()
            .FirstOrDefault(t => t.Line == fork.Line && t.Value == fork.Question);
        if (tested is null)
        {
            return Cell.Of(fork.Ways[fork.Falls].Label ?? fork.Falls.ToString(CultureInfo.InvariantCulture));
        }
        var (inner, bits) = (fork.Question, tested.Bits);
        while (inner.Operation == Operation.Not)
        {
            (inner, bits) = (inner.Inputs[0], Numbers.Bits.Mask(inner.Width) ^ bits);
        }
        return Cell.Of((Content)Digits.Plain.Of(bits, inner.Width));
    }

    /// <summary>The columns of registers that no cycle writes.</summary>
    public static IEnumerable<int> Constant(Walk walk, Tables.Grid grid)
    {
        var written = walk
            .Datapath.Steps.SelectMany(s => s.Moments)
            .SelectMany(m => m)
            .SelectMany(a => a.All)
            .SelectMany(a => a.Writes)
            .Select(p => p.Register)
            .ToHashSet();
        var constant = walk.Datapath.Registers.Where(r => !written.Contains(r)).ToList();
        return Enumerable
            .Range(0, grid.Columns.Count)
            .Where(i => grid.Columns[i].Role == ColumnRole.Digits && constant.Exists(r => IsOf(r, walk, grid, i)));
    }

    /// <summary>By its name, or under another head with its digits in every row.</summary>
    private static bool IsOf(Register register, Walk walk, Tables.Grid grid, int column) =>
        grid.Columns[column].Name == register.Name
        || grid.Rows.All(r =>
            string.Concat($"{r.Cells[column]}".Where(c => c != ' '))
            == Numbers.Bits.Text(walk.Rows[0].Registers[register.Index], register.Width)
        );
}
