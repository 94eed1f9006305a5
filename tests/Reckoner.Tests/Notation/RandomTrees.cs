using Reckoner.Notation;

namespace Reckoner.Tests;

/// <summary>Random trees of descriptions, as an edit might make them: of every kind of node, meaning nothing.</summary>
internal sealed class RandomTrees(Random random)
{
    private const int Deepest = 4;
    private static readonly Span Nowhere = new(0, 0);
    private static readonly string[] Names = ["a", "B", "n", "left_half", "ziffer", "größe", "x1", "carry"];

    private readonly RandomExpressions expressions = new(random, Names);
    private int comments;

    public Description Next()
    {
        var lines = new List<Declaration> { new MachineLine(Nowhere, Around(), new Declared(Nowhere, "tree-1-x")) };
        for (var count = random.Next(1, 12); count > 0; count--)
        {
            // Behind a step "note" is narration inside it.
            var line = Declaration(random.Next(lines[^1] is StepBlock ? 2 : 1, 19));
            lines.Add(line);
        }
        var tail = Enumerable.Range(0, random.Next(3)).Select(_ => Comment()).ToList();
        return new Description(new Source("tree", ""), lines, tail, new HashSet<string>());
    }

    private Declaration Declaration(int kind) =>
        kind switch
        {
            1 => new NoteLine(Nowhere, Around(), Phrase()),
            2 => new TitleLine(Nowhere, Around(), Phrase()),
            3 => new FollowsLine(Nowhere, Around(), new Declared(Nowhere, "in-steps-2-x")),
            4 => new WidthLine(Nowhere, Around(), Maybe(), Name(), Number(), Number(), Number()),
            5 => new ConstantLine(Nowhere, Around(), Name(), Maybe() ? Type() : null, Number()),
            6 => new OperandLine(Nowhere, Around(), Named(), Maybe() ? Phrase() : null, Type()),
            7 => new GivenLine(Nowhere, Around(), Truth()),
            8 => new RegisterLine(Nowhere, Around(), Name(), Maybe() ? Phrase() : null, Type(), Value()),
            9 => new PartLine(Nowhere, Around(), Name(), Maybe() ? Phrase() : null, Value()),
            10 => Unit(),
            11 => new TableBlock(
                Nowhere,
                Around(),
                Name(),
                Some(1, () => new TableIndex(Name(), Type())),
                Type(),
                Some(0, () => new TableRow(Nowhere, Around(), Maybe() ? Truth() : null, Number())),
                Around()
            ),
            12 => new CoreBlock(
                Nowhere,
                Around(),
                new Declared(Nowhere, "by-hand"),
                Some(0, () => new CoreOperand(Nowhere, Around(), Name(), Value())),
                Around()
            ),
            17 => new MeaningLine(
                Nowhere,
                Around(),
                Name(),
                Maybe() ? Phrase() : null,
                Value(),
                Maybe() ? Number() : null,
                Maybe() ? Name() : null
            ),
            18 => new FormulaLine(
                Nowhere,
                Around(),
                Named(),
                Maybe() ? Some(1, Name) : [],
                Maybe() ? Truth() : Number()
            ),
            13 => new ResultLine(Nowhere, Around(), Named(), Value()),
            14 => Step(),
            15 => new RepeatBlock(
                Nowhere,
                Around(),
                Number(),
                Maybe() ? Value() : null,
                Maybe() ? Some(1, Step) : [new StepBlock(Nowhere, Comments.None, null, null, Moments())],
                Around()
            ),
            _ => Claim(),
        };

    private UnitLine Unit()
    {
        var kind = Maybe() ? UnitKind.Adder : UnitKind.Multiplier;
        var by = kind == UnitKind.Multiplier && Maybe() ? Number() : null;
        return new UnitLine(Nowhere, Around(), Name(), kind, Number(), by);
    }

    private ClaimLine Claim()
    {
        var kind = (ClaimCondition)random.Next(3);
        var condition = kind == ClaimCondition.Always ? null : Truth();
        return new ClaimLine(Nowhere, Around(), Maybe(), Truth(), kind, condition);
    }

    private StepBlock Step() => new(Nowhere, Around(), Named(), Maybe() ? Phrase() : null, Moments());

    private List<Moment> Moments() =>
        [
            new Moment(Comments.None, Statements(0)),
            .. Enumerable.Range(0, random.Next(3)).Select(_ => new Moment(Around(), Statements(0))),
        ];

    private List<Statement> Statements(int depth) =>
        [.. Enumerable.Range(0, random.Next(depth < Deepest ? 4 : 1)).Select(_ => Statement(depth + 1))];

    private Statement Statement(int depth) =>
        random.Next(8) switch
        {
            0 => new LetLine(Nowhere, Around(), Named(), Second(), Value(), Via(), Maybe() ? Says() : null),
            1 => new LetCase(
                Nowhere,
                Around(),
                Named(),
                Value(),
                Some(0, () => new ValueArm(Nowhere, Around(), Labels(), Maybe() ? Phrase() : null, Value())),
                Around()
            ),
            2 => If(depth),
            3 => new CaseBlock(
                Nowhere,
                Around(),
                Value(),
                Some(
                    0,
                    () => new StatementArm(Nowhere, Around(), Labels(), Maybe() ? Phrase() : null, Statements(depth))
                ),
                Around()
            ),
            4 => new HoldLine(Nowhere, Around()),
            5 => new RemarkLine(Nowhere, Around(), Phrase()),
            _ => new TransferLine(Nowhere, Around(), Some(1, expressions.Target), Value(), Via()),
        };

    private IfBlock If(int depth)
    {
        var otherwise = Maybe() ? Statements(depth) : null;
        return Maybe()
            ? new IfBlock(
                Nowhere,
                Around(),
                Value(),
                Maybe() ? Says() : null,
                Statements(depth),
                Comments.None,
                [If(depth + 1)],
                true,
                Comments.None
            )
            : new IfBlock(
                Nowhere,
                Around(),
                Value(),
                Maybe() ? Says() : null,
                Statements(depth),
                otherwise is null ? Comments.None : Around(),
                otherwise,
                false,
                Around()
            );
    }

    private List<Label>? Labels() => random.Next(4) == 0 ? null : Some(1, expressions.Label);

    private Declared? Second() => random.Next(4) == 0 ? Named() : null;

    private Declared? Via() => random.Next(4) == 0 ? Name() : null;

    private Says Says() => new(Phrase(), Maybe() ? Phrase() : null);

    private Phrase Phrase() =>
        new(Nowhere, Maybe() ? "der Übertrag -- {} <- 1" : "", Maybe() ? [("de", "x"), ("el", "y z")] : []);

    private Declared Name() => new(Nowhere, Names[random.Next(Names.Length)]);

    private Declared Named() => Maybe() ? Name() with { Others = [("de", "Übertrag 1"), ("el", "y")] } : Name();

    private TypeSyntax Type() => new(Nowhere, Maybe(), Number());

    private Expression Number() => expressions.Number(Deepest);

    private Expression Truth() => expressions.Truth(Deepest);

    private Expression Value() => expressions.Value(Deepest);

    private Comments Around() =>
        random.Next(3) > 0
            ? Comments.None
            : new Comments(
                Enumerable.Range(0, random.Next(3)).Select(_ => Comment()).ToList(),
                Maybe() ? Comment() : null
            );

    private string Comment() => $"-- {++comments} \"quoted\" -- <-";

    private bool Maybe() => random.Next(2) == 0;

    private List<T> Some<T>(int least, Func<T> one) =>
        [.. Enumerable.Range(0, random.Next(least, least + 3)).Select(_ => one())];
}
