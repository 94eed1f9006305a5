using Reckoner.Datapaths;
using Reckoner.Documents.Lessons;
using Reckoner.Running;
using Reckoner.Slips;

namespace Reckoner.Documents.Quizzes;

/// <summary>Questions about a slip that was planted.</summary>
internal sealed partial class QuizItems
{
    /// <summary>The first wrong row of a walk, and what belongs into it: an item each.</summary>
    private void Find()
    {
        var right = asked.Walk!;
        var table = asked.Works.OfType<TableWork>().First();
        var fields = asked.Works.OfType<FieldsWork>().SelectMany(f => f.Fields).ToList();
        var wrong = Walk.Of(Slipped(right.Datapath), right.Operands);
        var both = Math.Min(right.Rows.Count, wrong.Rows.Count);
        var wrongIn = Enumerable.Range(0, both).Select(i => WrongIn(wrong, right, i)).ToList();
        var first = wrongIn.FindIndex(w => w.Count > 0);
        QuizBlock[] shown = [new QuizSays(WalkSteps.Caption(right, words) + "."), Whole(table)];
        var labels = Enumerable.Range(0, both).Select(i => WalkSteps.Label(right.Rows[i], words)).ToList();
        AddOne(
            fields[0].Label,
            "-row",
            [new QuizSays(words.Say("quiz.find-row")), .. shown],
            fields[0].Label,
            LabelOf(fields[0].Expected),
            [
                .. labels
                    .Select((l, i) => (l, IsWrong: wrongIn[i].Count > 0))
                    .Where(l => l.l != fields[0].Expected)
                    .Select(l => new ForeseenAnswer(
                        [LabelOf(l.l)],
                        new QuizFeedback(words.Say(l.IsWrong ? "quiz.row-later" : "quiz.row-right"), [])
                    )),
            ],
            Description()
        );
        if (first < 0)
        {
            LeaveOut(fields[1].Label, "quiz.out-no-row");
            return;
        }
        List<string> should =
        [
            .. wrongIn[first].SelectMany(r => Named(r, Spelled.Digits(r, right.Rows[first].Registers[r.Index]))),
        ];
        AddOne(
            fields[1].Label,
            "-register",
            [new QuizSays(words.Say("quiz.find-register")), .. shown],
            fields[1].Label,
            Spelled.Any(should),
            [
                .. wrongIn[first]
                    .Select(r => new ForeseenAnswer(
                        [Spelled.Any([.. Named(r, Spelled.Digits(r, Held(wrong, r, first)))])],
                        new QuizFeedback(words.Say("quiz.as-printed"), [])
                    )),
            ],
            [new QuizSays(words.Say("quiz.bits")), .. Description()]
        );

        Spelled LabelOf(string label) => Spelled.Any([label, $"{table.Grid.Columns[0].Name} {label}"]);

        static IEnumerable<string> Named(Register register, Spelled digits) =>
            digits.Texts.SelectMany(t => new[] { $"{register.Name}: {t}", t, $"{register.Name} = {t}" });
    }

    private Datapath Slipped(Datapath right) =>
        Slip.Of(right.Machine)
            .First(s => s.Name == asked.Slip)
            .Machine.Built(right.Widths.ToDictionary(w => w.Name, w => w.Value))!;

    private static List<Register> WrongIn(Walk wrong, Walk right, int row) =>
        [
            .. right.Datapath.Registers.Where(r =>
                wrong.Datapath.Registers.Any(w => w.Name == r.Name)
                && Held(wrong, r, row) != right.Rows[row].Registers[r.Index]
            ),
        ];

    private static System.Numerics.BigInteger Held(Walk walk, Register register, int row) =>
        walk.Rows[row].Registers[walk.Datapath.Registers.First(r => r.Name == register.Name).Index];

    /// <summary>A choice between slips: with each of the others something else would have come out.</summary>
    private void Which()
    {
        var options = asked.Works.OfType<OptionsWork>().First();
        var field = asked.Works.OfType<FieldsWork>().SelectMany(f => f.Fields).First();
        List<(string Letter, string Text)> letters = [.. options.Options.Select((o, i) => (OptionsWork.Letter(i), o))];
        var gaps = QuizDraft.Gaps([(field.Label, Spelled.Any([field.Expected]))]);
        Add(
            "",
            "",
            [new QuizSays(asked.Prompt), new QuizChoice(gaps[0], letters), .. Description()],
            gaps,
            [
                .. letters
                    .Zip(options.Results)
                    .Where(o => o.First.Letter != field.Expected)
                    .Select(o => new KnownWrong(
                        [
                            [o.First.Letter],
                        ],
                        new QuizFeedback(words.Say("quiz.with-slip", ("results", o.Second)), [])
                    )),
            ]
        );
    }

    /// <summary>The number of the line; how it is mended, nobody can list.</summary>
    private void Mend()
    {
        var lines = asked.Works.OfType<TextWork>().First();
        var fields = asked.Works.OfType<FieldsWork>().SelectMany(f => f.Fields).ToList();
        AddOne(
            fields[0].Label,
            "-line",
            [new QuizSays(words.Say("quiz.mend-line")), new QuizLines(lines.Lines)],
            fields[0].Label,
            Spelled.Any([fields[0].Expected]),
            [],
            []
        );
        LeaveOut(fields[1].Label, "quiz.out-mend");
    }
}
