using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Documents.Lessons;
using Reckoner.Explaining;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Documents.Quizzes;

/// <summary>Tables and numbers of walks.</summary>
internal sealed partial class QuizItems
{
    // ---- tables

    private void Fill()
    {
        if (asked.Works.OfType<FigureWork>().Any())
        {
            LeaveOut("", "quiz.out-figure");
        }
        var fields = asked.Works.OfType<FieldsWork>().FirstOrDefault();
        foreach (var (table, number) in asked.Works.OfType<TableWork>().Select((t, i) => (t, i + 1)))
        {
            if (asked.Walk is { } walk)
            {
                Rows(table, walk, fields);
            }
            else
            {
                Rows(table, number);
            }
        }
    }

    /// <summary>A row of a walk, the row above printed: each row is an item of its own, so that nothing that went wrong above spoils it.</summary>
    private void Rows(TableWork table, Walk walk, FieldsWork? fields)
    {
        var last = table.Grid.Rows.Count - 1;
        for (var r = 0; r <= last; r++)
        {
            var open = Columns(table).Where(table.Open[r].Contains).ToList();
            if (open.Count > 0)
            {
                Row(table, walk, r, open, r == last && fields is not null);
            }
            else if (r == last && fields is not null)
            {
                Results(walk);
            }
        }
    }

    private void Row(TableWork table, Walk walk, int r, IReadOnlyList<int> open, bool withResults)
    {
        var (grid, datapath) = (table.Grid, walk.Datapath);
        var row = grid.Rows[r];
        // Rows in half steps, and columns of a style of its own, are right as they stand there, and nothing is foreseen of them.
        // Nor is it of a row above which none is shown: the load is always given.
        var isPlain = grid.Rows.Count == walk.Rows.Count && grid.Rows.Select((g, i) => g.Cycle == i).All(c => c);
        var registers = open.Select(c => isPlain ? RegisterOf(table, walk, r, c) : null).ToList();
        var isForeseen = r > 0 && !registers.Contains(null);
        if (!isForeseen)
        {
            Less(words.Say("quiz.other-form"));
        }
        var right = open.Zip(registers)
            .Select(o =>
                (
                    grid.Columns[o.First].Name,
                    o.Second is { } register
                        ? Spelled.Digits(register, walk.Rows[r].Registers[register.Index])
                        : Spelled.Of(row.Cells[o.First])
                )
            )
            .Concat(withResults ? ResultsOf(datapath, walk.Results) : [])
            .ToList();
        var gaps = QuizDraft.Gaps(right);
        IReadOnlyList<ForeseenAnswer> foreseen =
            isForeseen && WaysOf(datapath) is { } found
                ? QuizDraft.Foreseen(
                    found,
                    Foreseen.Rows(found, walk.Operands, r).Select(f => (f.Why, Answers(f.Row, f.Results))),
                    [.. right.Select(p => p.Item2)],
                    words
                )
                : [];
        var label = $"{row.Cells[0]}";
        var places = open.Zip(gaps).ToDictionary(o => o.First, o => o.Second);
        var rows = Enumerable.Range(Math.Max(0, r - 1), r == 0 ? 1 : 2);
        List<QuizBlock> body =
        [
            new QuizSays(WalkSteps.Caption(walk, words) + "."),
            new QuizSays(words.Say(r == 0 ? "quiz.first-row" : "quiz.row", ("row", label))),
            new QuizTable(Heads(table), [.. rows.Select(i => Row(table, i, i == r ? places : Printed))]),
        ];
        body.Add(new QuizSays(words.Say(registers.Contains(null) ? "quiz.as-shown" : "quiz.bits")));
        if (withResults)
        {
            body.Add(new QuizSays(words.Say("quiz.results")));
            body.Add(new QuizPlaces([.. gaps.Skip(open.Count)]));
            body.Add(new QuizSays(words.Say("quiz.numbers")));
        }
        Add(
            $"{grid.Columns[0].Name} {label}",
            FormattableString.Invariant($"-r{r}"),
            [.. body, .. Description()],
            gaps,
            QuizDraft.Known(gaps, foreseen)
        );

        IReadOnlyList<Spelled> Answers(UInt128 given, ulong[] results) =>
            [
                .. registers.Select(g => Spelled.Digits(g!, WaysOf(datapath)!.Layout.Field(given, g!.Index))),
                .. withResults ? ResultsOf(datapath, [.. results.Select(b => (BigInteger)b)]).Select(p => p.Right) : [],
            ];
    }

    /// <summary>The register whose bits stand in a cell; null where something else does.</summary>
    private static Register? RegisterOf(TableWork table, Walk walk, int row, int column) =>
        walk.Datapath.Registers.FirstOrDefault(r =>
            r.Name == table.Grid.Columns[column].Name
            && string.Concat($"{table.Grid.Rows[row].Cells[column]}".Where(c => c != ' '))
                == Bits.Text(walk.Rows[row].Registers[r.Index], r.Width)
        );

    private IEnumerable<(string Label, Spelled Right)> ResultsOf(
        Datapath datapath,
        IReadOnlyList<BigInteger> results
    ) =>
        datapath
            .Results.Zip(results)
            .Select(r =>
                (r.First.In(words.Language), Spelled.Number(r.First.Number(r.Second), r.Second, r.First.Width))
            );

    private void Results(Walk walk)
    {
        List<(string Label, Spelled Right)> right = [.. ResultsOf(walk.Datapath, walk.Results)];
        var gaps = QuizDraft.Gaps(right);
        IReadOnlyList<ForeseenAnswer> foreseen = WaysOf(walk.Datapath) is { } found
            ? QuizDraft.Foreseen(
                found,
                Foreseen
                    .Walks(found, walk.Operands)
                    .Select(f =>
                        (
                            f.Why,
                            (IReadOnlyList<Spelled>)[.. ResultsOf(walk.Datapath, f.Walk.Results).Select(p => p.Right)]
                        )
                    ),
                [.. right.Select(p => p.Right)],
                words
            )
            : [];
        Add(
            words.Say("quiz.part-results"),
            "-results",
            [
                new QuizSays(WalkSteps.Caption(walk, words) + "."),
                new QuizSays(words.Say("quiz.results")),
                new QuizPlaces(gaps),
                new QuizSays(words.Say("quiz.numbers")),
                .. Description(),
            ],
            gaps,
            QuizDraft.Known(gaps, foreseen)
        );
    }

    /// <summary>A table of something else, cell by cell.</summary>
    private void Rows(TableWork table, int number)
    {
        var grid = table.Grid;
        for (var r = 0; r < grid.Rows.Count; r++)
        {
            var open = Columns(table).Where(table.Open[r].Contains).ToList();
            var label = $"{grid.Columns[0].Name} {grid.Rows[r].Cells[0]}".Trim();
            if (table.Open[r].Count == 0)
            {
                continue;
            }
            if (open.Count == 0 || open.Exists(c => $"{grid.Rows[r].Cells[c]}".Length is 0 or > LongestAnswer))
            {
                LeaveOut(label, open.Count == 0 ? "quiz.out-sentences" : "quiz.out-long");
                continue;
            }
            var gaps = QuizDraft.Gaps([.. open.Select(c => (grid.Columns[c].Name, Spelled.Of(grid.Rows[r].Cells[c])))]);
            var places = open.Zip(gaps).ToDictionary(o => o.First, o => o.Second);
            // Rows of cycles go on from the row above, others stand for themselves.
            List<int> rows = r > 0 && grid.Rows[r].Cycle is not null ? [r - 1, r] : [r];
            Add(
                label,
                FormattableString.Invariant($"-t{number}r{r}"),
                [
                    new QuizSays(asked.Prompt),
                    .. table.Caption is { Length: > 0 } caption ? [new QuizSays(caption)] : Array.Empty<QuizBlock>(),
                    new QuizTable(Heads(table), [.. rows.Select(i => Row(table, i, i == r ? places : Printed))]),
                    .. table.Signs.Select(s => new QuizSays(s)),
                    .. Description(),
                ],
                gaps,
                []
            );
        }
    }

    // ---- numbers

    private void Say()
    {
        var walk = asked.Walk!;
        var found = WaysOf(walk.Datapath);
        List<(Explanation Why, Walk Walk)> wrong = found is null ? [] : [.. Foreseen.Walks(found, walk.Operands)];
        var fields = asked.Works.OfType<FieldsWork>().SelectMany(f => f.Fields);
        foreach (var (name, field) in asked.Question.Names.Zip(fields))
        {
            var right = ValueOf(name, walk)!;
            AddOne(
                field.Label,
                FormattableString.Invariant($"-n{items.Count + 1}"),
                [new QuizSays(asked.Prompt)],
                field.Label,
                right,
                found is null
                    ? []
                    : QuizDraft.Foreseen(
                        found,
                        from w in wrong
                        let value = ValueOf(name, w.Walk)
                        where value is not null
                        select (w.Why, (IReadOnlyList<Spelled>)[value]),
                        [right],
                        words
                    ),
                [new QuizSays(words.Say("quiz.bits-and-numbers")), .. Description()]
            );
        }
    }

    /// <summary>Bits that another machine gives for a result are read as this one's, with a sign or without.</summary>
    private Spelled? ValueOf(RequestWord name, Walk walk)
    {
        if (LessonValue.Of(name, walk, new Report(null)) is not { } value)
        {
            return null;
        }
        return asked.Walk!.Datapath.Results.FirstOrDefault(r => r.Name == name.Text) is { } result
            ? Spelled.Number(result.Number(value.Bits), value.Bits, result.Width)
            : Spelled.Of(value);
    }
}
