using System.Globalization;
using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Documents.Lessons;
using Reckoner.Drawing;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Sheets;
using Reckoner.Slips;
using Reckoner.Words;
using Grid = Reckoner.Tables.Grid;

namespace Reckoner.Cli;

/// <summary>Asks a question for one sheet: what is to be seen, what is to be filled in, and what belongs there.</summary>
/// <param name="form">For whom it is asked: whoever cannot see a figure fills in the table of its walk.</param>
internal sealed class QuestionAsking(Session session, PreparedQuestion prepared, SheetForm form)
{
    /// <summary>A slip stands among so many others that would give something else.</summary>
    private const int OtherOptions = 3;

    /// <summary>Letters of a line that a sentence or a line of a description is written on.</summary>
    private const int LineRoom = 70;

    private readonly LessonQuestion question = prepared.Question;
    private readonly Request request = prepared.Request;
    private readonly Vocabulary words = session.Words;

    /// <summary>Null where it cannot be asked, which has been said.</summary>
    /// <param name="operands">The bits of those that were drawn; null for the request's own.</param>
    /// <param name="lot">What else is drawn for a sheet comes from this number, which a class keeps secret.</param>
    public AskedQuestion? Asked(IReadOnlyList<BigInteger>? operands, ulong lot)
    {
        var asked = question.Task switch
        {
            QuestionTask.Fill when request.Verb!.Name == "walk" => FillWalk(operands),
            QuestionTask.Fill when request.Verb!.Name != "draw" => FillReport(),
            QuestionTask.Fill or QuestionTask.Complete => Figure(operands),
            QuestionTask.Say => Say(operands),
            QuestionTask.Find => Find(operands),
            QuestionTask.Which => Which(operands, lot),
            QuestionTask.Choose => Choose(),
            QuestionTask.Mend => Mend(),
        };
        return asked is not null && question.Terms.Room > 0
            ? asked with
            {
                Works = [.. asked.Works, new LinesWork(question.Terms.Room)],
            }
            : asked;
    }

    private AskedQuestion With(string key, IReadOnlyList<Work> works, params Fact[] facts) =>
        new(question, words.Say(key, facts), works);

    private AskedQuestion? Refused(Id id, Span place, params Fact[] facts)
    {
        request.Report.Add(id, place, facts);
        session.Refuse(request);
        return null;
    }

    /// <summary>Null where the operands are wrong, which has been said.</summary>
    private Walk? Walked(IReadOnlyList<BigInteger>? operands) =>
        operands is null ? WalkVerb.Ask(session, request) : Walk.Of(prepared.Datapath!, operands);

    private Tables.Document? Document(Walk walk)
    {
        var (document, found) = WalkDocument.Of(walk, prepared.Style, words, oneByOne: false);
        if (document is null)
        {
            session.Refuse(found);
        }
        return document;
    }

    private static FieldsWork Results(Walk walk, string lead, Vocabulary words) =>
        new(
            lead,
            [
                .. walk
                    .Datapath.Results.Zip(walk.Results)
                    .Select(r =>
                        Field.OfNumber(
                            r.First.Name,
                            r.First.In(words.Language),
                            r.First.Number(r.Second),
                            r.First.Width
                        )
                    ),
            ]
        );

    // ---- fill

    private AskedQuestion? FillWalk(IReadOnlyList<BigInteger>? operands)
    {
        if (Walked(operands) is not { } walk || Document(walk) is not { } document)
        {
            return null;
        }
        var terms = question.Terms;
        var asDigits = terms.Decisions == AskedDecisions.Digits;
        var (grid, decisions) =
            terms.Decisions == AskedDecisions.None || (terms.WithoutReasons && !asDigits)
                ? (document.Grids.First(), [])
                : WalkDecisions.With(walk, document.Grids.First(), asDigits, words);
        if (Given(grid) is not { } given)
        {
            return null;
        }
        var constant = WalkDecisions.Constant(walk, grid).ToList();
        var mayAsk = WalkDecisions.With(walk, document.Grids.First(), asDigits, words).Decisions.Count > 0;
        if (Idle(walk, grid, given, constant, mayAsk) is { } idle)
        {
            return Refused(Id.QuestionIdle, idle.Span, ("wish", idle.Text), ("cycles", walk.Cycles));
        }
        if (terms.PrintsConstants)
        {
            given.UnionWith(constant);
        }
        var shown = grid.Rows.ToList();
        var table = Table(
            WalkSteps.Caption(walk, words),
            grid,
            document.Signs,
            (row, i) =>
                (
                    decisions.FirstOrDefault(d => d.Column == i) is { } decision
                        ? decision.Rows.Contains(shown.FindIndex(r => ReferenceEquals(r, row)))
                        : WalkBlocks.IsOpen(grid, row, i)
                )
                && !given.Contains(i)
                && row.Cycle >= terms.From
                && !terms.GivenRows.Contains(row.Cycle ?? 0)
        ) with
        {
            Spare = terms.Spare,
            Decisions = decisions,
        };
        var isTerse = table.WithoutReasons || !grid.Columns.Any(c => c.Role == Tables.ColumnRole.Sentences);
        var asked = With(
            isTerse ? "question.fill-walk-terse" : "question.fill-walk",
            [
                .. !terms.WithoutRule
                && !prepared.IsRuleAsked
                && WalkRule.Of(walk.Datapath, prepared.Style, words) is { } rule
                    ? (Work[])[rule]
                    : [],
                table,
                Results(walk, words.Say("lesson.results"), words),
            ]
        ) with
        {
            Walk = walk,
        };
        var rows = table.Open.Count(o => o.Count > 0);
        return asked with
        {
            Prompt = string.Join(
                ' ',
                new[]
                {
                    asked.Prompt,
                    // What is no whole or half mark nobody gives.
                    terms.Marks
                        is { } marks
                    && rows > 0
                    && marks * 2 % rows == 0
                        ? words.Say("question.each-row", ("marks", QuestionBlocks.Spoken(marks / rows, words)))
                        : "",
                    decisions.Count == 0 ? ""
                    : asDigits ? words.Say("question.decide-digits")
                    : words.Say("question.decide-ring"),
                    decisions.Count > 0 && WalkDecisions.MayPass(walk.Datapath) ? words.Say("question.decide-not") : "",
                    terms.Spare == 0 ? "" : words.Say("question.spare"),
                }.Where(s => s.Length > 0)
            ),
        };
    }

    /// <summary>
    /// A line of the question without which its table would be the same, or that leaves nothing to be filled in; null for none.
    /// </summary>
    /// <param name="given">The columns that are to be printed, <paramref name="constant"/> those that never change.</param>
    /// <param name="mayAsk">Whether there are decisions that could be asked for.</param>
    private RequestWord? Idle(Walk walk, Grid grid, IReadOnlySet<int> given, IReadOnlyList<int> constant, bool mayAsk)
    {
        var terms = question.Terms;
        bool IsEverOpen(int column) =>
            grid.Rows.Any(r => WalkBlocks.IsOpen(grid, r, column))
            || grid.Columns[column].Role is Tables.ColumnRole.Sentences or Tables.ColumnRole.Short;
        (string Line, bool DoesNothing)[] wishes =
        [
            ("from", terms.From < 2 || terms.From > walk.Cycles),
            (
                "given row",
                terms.GivenRows.Any(r => r < Math.Max(1, terms.From) || r > walk.Cycles)
                    || Enumerable.Range(1, walk.Cycles).All(c => c < terms.From || terms.GivenRows.Contains(c))
            ),
            ("given column", given.Any(c => !IsEverOpen(c))),
            ("constant", constant.All(given.Contains)),
            ("decisions as", !mayAsk),
            ("no decisions", !mayAsk),
            ("no reasons", !mayAsk && !grid.Columns.Any(c => c.Role == Tables.ColumnRole.Sentences)),
        ];
        return terms
            .Said.Where(s => wishes.Any(w => w.DoesNothing && s.Text.StartsWith(w.Line, StringComparison.Ordinal)))
            .Select(s => (RequestWord?)s)
            .FirstOrDefault();
    }

    private TableWork Table(
        string caption,
        Grid grid,
        IEnumerable<Content> notes,
        Func<Tables.GridRow, int, bool> isOpen
    )
    {
        return new TableWork(
            caption,
            grid,
            [.. grid.Rows.Select(row => WithReason(grid, Columns(grid, i => isOpen(row, i))))],
            [.. notes.Select(s => s.ToString())]
        )
        {
            WithoutReasons = question.Terms.WithoutReasons,
        };
    }

    /// <summary>Where something is to be filled in, so is why.</summary>
    private HashSet<int> WithReason(Grid grid, HashSet<int> open)
    {
        if (open.Count > 0 && !question.Terms.WithoutReasons)
        {
            open.UnionWith(Columns(grid, i => grid.Columns[i].Role == Tables.ColumnRole.Sentences));
        }
        return open;
    }

    private static HashSet<int> Columns(Grid grid, Func<int, bool> choose) =>
        [.. Enumerable.Range(0, grid.Columns.Count).Where(choose)];

    /// <summary>The columns that are printed; null where one is none of the table's, which has been said.</summary>
    private HashSet<int>? Given(Grid grid)
    {
        var given = new HashSet<int>();
        foreach (var word in question.Terms.GivenColumns)
        {
            var at = grid.Columns.ToList().FindIndex(c => c.Name == word.Text || c.Full == word.Text);
            if (at < 0)
            {
                var names = grid.Columns.Select(c => c.Name).ToList();
                Refused(
                    Id.QuestionColumn,
                    word.Span,
                    ("word", word.Text),
                    ("columns", names),
                    ("near", NearNames.Of(word.Text, names))
                );
                return null;
            }
            given.Add(at);
        }
        return given;
    }

    private AskedQuestion? FillReport()
    {
        if (request.Verb!.Answer!(new LessonAsking(session, request, prepared.Style)) is not ReportAnswer answer)
        {
            return null;
        }
        // A table with nothing to fill in may say what belongs into another, such as how many cycles there are.
        List<TableWork> works =
        [
            .. answer
                .Documents.SelectMany(d => d.Grids, (d, g) => (Grid: g, d.Signs))
                .Select(of => new TableWork(
                    of.Grid.Caption,
                    of.Grid,
                    [.. of.Grid.Rows.Select(row => Columns(of.Grid, i => IsOpen(of.Grid, row, i, answer.IsToFill)))],
                    [.. of.Signs.Select(s => s.ToString())]
                ))
                .Where(w => w.IsToFill),
        ];
        var heads = works.SelectMany(w => w.Grid.Columns).Select(c => c.Full).OfType<string>().Distinct();
        var about = answer
            .Documents.SelectMany(d => d.Leads.Select(l => l.ToString()).Prepend(AnswerBlocks.Subject(d)))
            .Append(string.Join(", ", heads))
            .Where(s => s.Length > 0)
            .Select(s => s.EndsWith('.') ? s : s + ".");
        var asked = With("question.fill-table", works);
        return asked with { Prompt = string.Join(' ', about.Prepend(asked.Prompt)) };
    }

    /// <summary>
    /// Of a table without walks all is open but what its rows are about: the first column, and sentences that are not the last one,
    /// which say when a row holds.
    /// </summary>
    private static bool IsOpen(Grid grid, Tables.GridRow row, int column, bool hasWalks) =>
        hasWalks
            ? AnswerBlocks.IsToFind(grid, row, column)
            : column > 0
                && (grid.Columns[column].Role != Tables.ColumnRole.Sentences || column == grid.Columns.Count - 1)
                && !row.Cells[column].IsEmpty;

    private AskedQuestion? Figure(IReadOnlyList<BigInteger>? operands)
    {
        List<AskedOperand>? drawn = operands is null
            ? null
            : [.. prepared.Datapath!.Operands.Select(o => AskedOperand.Of(o.Number(operands[o.Index])))];
        if (DrawVerb.Answer(new LessonAsking(session, request, prepared.Style), drawn) is not FigureAnswer figure)
        {
            return null;
        }
        // What has no blank form would be handed out filled in, and what shows no walk holds nothing to fill in.
        if (!figure.View.Takes.Contains(FigureOption.Blank) || figure.Walk is null)
        {
            return Refused(
                Id.QuestionView,
                question.Line,
                ("view", figure.View.Name),
                ("views", View.All.Where(v => v.Takes.Contains(FigureOption.Blank)).Select(v => v.Name).ToList())
            );
        }
        var key = figure.View.Name == "paper" ? "question.fill-paper" : "question.complete";
        if (form == SheetForm.Read)
        {
            return Document(figure.Walk) is not { } document
                ? null
                : With(
                    "question.fill-figure",
                    [
                        Table(
                            WalkSteps.Caption(figure.Walk, words),
                            document.Grids.First(),
                            document.Signs,
                            (row, i) => WalkBlocks.IsOpen(document.Grids.First(), row, i)
                        ),
                        Results(figure.Walk, words.Say("lesson.results"), words),
                    ]
                ) with
                {
                    Walk = figure.Walk,
                };
        }
        return With(key, [new FigureWork(figure)], ("what", figure.Caption(words))) with { Walk = figure.Walk };
    }

    // ---- say

    private AskedQuestion? Say(IReadOnlyList<BigInteger>? operands)
    {
        if (Walked(operands) is not { } walk)
        {
            return null;
        }
        var report = new Report(request.Line);
        var fields = new List<Field>();
        foreach (var name in question.Names)
        {
            if (LessonValue.Of(name, walk, report) is not { } value)
            {
                session.Refuse(report.InOrder());
                return null;
            }
            fields.Add(Field.OfNumber(name.Text, Spoken(name.Text), value.Spelled, value.Width));
        }
        return With("question.say", [new FieldsWork("", fields)], ("about", WalkSteps.Caption(walk, words))) with
        {
            Walk = walk,
        };
    }

    /// <summary>"R after cycle 4".</summary>
    private string Spoken(string name) =>
        name.Split('@') is [var register, var cycle]
            ? words.Say("question.after-cycle", ("register", register), ("cycle", cycle))
        : name == LessonValue.Cycles ? words.Say("question.cycles")
        : name;

    // ---- slips

    private AskedQuestion? Find(IReadOnlyList<BigInteger>? operands)
    {
        if (Walked(operands) is not { } walk || Document(walk) is not { } document)
        {
            return null;
        }
        var right = Walk.Of(prepared.Right!, walk.Operands);
        if (FirstWrong(walk, right) is not { } first)
        {
            return Refused(
                walk.Results.SequenceEqual(right.Results) ? Id.QuestionAlike : Id.QuestionAlikeRows,
                question.Line,
                ("slip", walk.Datapath.Machine.Slip!)
            );
        }
        if (Document(right) is not { } shown)
        {
            return null;
        }
        // The caption of a walk with a slip names it, and so does a register that only the slip has.
        var table = Table(WalkSteps.Caption(right, words), document.Grids.First(), document.Signs, (_, _) => false) with
        {
            Grid = Only(document.Grids.First(), shown.Grids.First().Columns),
            WithoutReasons = true,
        };
        var labels = walk.Rows.Concat(right.Rows).Select(r => WalkSteps.Label(r, words));
        var values = prepared.Right!.Registers.Select(r => Held(r, right.Rows[0])).Append(first.Should);
        return With(
            "question.find",
            [
                table,
                new FieldsWork(
                    "",
                    [
                        new Field("row", words.Say("question.row"), WalkSteps.Label(first.Row, words))
                        {
                            Room = labels.Max(l => l.Length),
                        },
                        new Field("register", words.Say("question.should-be"), first.Should)
                        {
                            Room = values.Append(words.Say("question.no-row")).Max(v => v.Length),
                        },
                    ]
                ),
            ]
        ) with
        {
            Walk = right,
            Slip = walk.Datapath.Machine.Slip,
        };
    }

    /// <summary>
    /// The first row that is not as it should be, and what should stand there: a row that one of the walks alone has is wrong too.
    /// Null where the registers of the machine hold the same throughout; those that the slip adds are not seen.
    /// </summary>
    private (Row Row, string Should)? FirstWrong(Walk walk, Walk right)
    {
        foreach (var (wrong, should) in walk.Rows.Zip(right.Rows))
        {
            var differs = right.Datapath.Registers.FirstOrDefault(r =>
                Its(walk, r) is { } its && wrong.Registers[its] != should.Registers[r.Index]
            );
            if (differs is not null)
            {
                return (wrong, Held(differs, should));
            }
        }
        var both = Math.Min(walk.Rows.Count, right.Rows.Count);
        return walk.Rows.Count > both ? (walk.Rows[both], words.Say("question.no-row"))
            : right.Rows.Count > both ? (right.Rows[both], Held(right.Datapath.Registers[0], right.Rows[both]))
            : null;
    }

    private static int? Its(Walk walk, Register register) =>
        walk.Datapath.Registers.FirstOrDefault(r => r.Name == register.Name)?.Index;

    private static string Held(Register register, Row row) =>
        $"{register.Name}: {Reporting.Columns.Text(register, row.Registers[register.Index])}";

    /// <summary>The table with those of its columns that have one of these names.</summary>
    private static Grid Only(Grid grid, IReadOnlyList<Tables.GridColumn> columns)
    {
        var names = columns.Select(c => c.Name).ToHashSet();
        var kept = Columns(grid, i => names.Contains(grid.Columns[i].Name)).Order().ToList();
        return grid with
        {
            Columns = [.. kept.Select(i => grid.Columns[i])],
            Rows = [.. grid.Rows.Select(r => r with { Cells = [.. kept.Select(i => r.Cells[i])] })],
        };
    }

    private AskedQuestion? Which(IReadOnlyList<BigInteger>? operands, ulong lot)
    {
        if (Walked(operands) is not { } walk)
        {
            return null;
        }
        var name = walk.Datapath.Machine.Slip!;
        var right = Walk.Of(prepared.Right!, walk.Operands);
        if (right.Results.SequenceEqual(walk.Results))
        {
            return Refused(Id.QuestionAlike, question.Line, ("slip", name));
        }
        var generator = new Generator(lot);
        var others = new List<(Slip Slip, Walk Walk)>();
        foreach (var (slip, datapath) in generator.Drawn(prepared.Slips, prepared.Slips.Count))
        {
            var result = Walk.Of(datapath, walk.Operands);
            if (slip.Name != name && !result.Results.SequenceEqual(walk.Results))
            {
                others.Add((slip, result));
            }
            if (others.Count == OtherOptions)
            {
                break;
            }
        }
        var its = prepared.Slips.First(s => s.Slip.Name == name).Slip;
        var options = others.ToList();
        var place = generator.Below(options.Count + 1);
        options.Insert(place, (its, walk));
        return With(
            "question.which",
            [
                new OptionsWork([.. options.Select(o => SlipText.Sentence(o.Slip, words))])
                {
                    Results = [.. options.Select(o => WalkBlocks.ResultsSaid(o.Walk, words))],
                },
                new FieldsWork("", [new Field("slip", words.Say("question.letter"), OptionsWork.Letter(place))]),
            ],
            ("about", WalkSteps.Caption(right, words)),
            ("results", WalkBlocks.ResultsSaid(walk, words))
        ) with
        {
            Walk = right,
            Slip = name,
        };
    }

    private AskedQuestion? Choose()
    {
        var chosen = Asking.Chosen(request);
        if (session.Asked(request, chosen?.Ask(session.Means)) is not { } found)
        {
            return null;
        }
        if (found.Chosen is not [var example, ..])
        {
            return Refused(Id.QuestionNone, question.Line);
        }
        var datapath = found.Candidates.Datapath;
        return With(
            chosen!.Exposing is null ? "question.choose-showing" : "question.choose-exposing",
            [
                new FieldsWork(
                    "",
                    [
                        .. datapath.Operands.Select(o =>
                            Field.OfNumber(o.Name, o.In(words.Language), o.Number(example.Operands[o.Index]), o.Width)
                        ),
                    ]
                ),
            ],
            ("machine", WalkSteps.Title(datapath, words)),
            ("widths", Names.Widths(datapath, words)),
            ("condition", found.Condition ?? ""),
            ("slip", chosen.Exposing ?? "")
        ) with
        {
            Condition = found.Condition,
            Exposing = chosen.Exposing,
            Datapath = datapath,
        };
    }

    private AskedQuestion? Mend()
    {
        var wrong = Printed(prepared.Datapath!);
        var right = Printed(prepared.Right!);
        var from = wrong.Zip(right).TakeWhile(p => p.First == p.Second).Count();
        var behind = wrong
            .AsEnumerable()
            .Reverse()
            .Zip(right.AsEnumerable().Reverse())
            .TakeWhile(p => p.First == p.Second)
            .Count();
        behind = Math.Min(behind, Math.Min(wrong.Count, right.Count) - from);
        var slip = prepared.Datapath!.Machine.Slip!;
        if (wrong.Count - from - behind != 1)
        {
            return Refused(Id.QuestionLines, question.Line, ("slip", slip), ("count", wrong.Count - from - behind));
        }
        var should = string.Join(" / ", right.Take(right.Count - behind).Skip(from).Select(l => l.Trim()));
        var wide = wrong.Count.ToString(CultureInfo.InvariantCulture).Length;
        return With(
            "question.mend",
            [
                new TextWork([
                    .. wrong.Select((l, i) => $"{(i + 1).ToString(CultureInfo.InvariantCulture).PadLeft(wide)}  {l}"),
                ]),
                new FieldsWork(
                    "",
                    [new Field("line", words.Say("question.line"), (from + 1).ToString(CultureInfo.InvariantCulture))]
                ),
                // A line of its own: how long it is would tell how long the right one is.
                new FieldsWork("", [new Field("text", words.Say("question.should-say"), should) { Room = LineRoom }]),
            ]
        ) with
        {
            Slip = slip,
            Datapath = prepared.Right,
        };
    }

    private static List<string> Printed(Datapath datapath) =>
        [.. Printer.Text(datapath.Machine.Description).TrimEnd('\n').Split('\n')];
}
