using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>
/// A description that is being changed: its hardware and its schedule apart from what stays. What registers stand for in a walk is
/// left out, since registers change. Immutable.
/// </summary>
/// <param name="Origin">What it is made from: everything that is not named here stays.</param>
internal sealed record Draft(
    Description Origin,
    IReadOnlyList<RegisterLine> Registers,
    IReadOnlyList<PartLine> Parts,
    IReadOnlyList<UnitLine> Units,
    IReadOnlyList<Declaration> Schedule,
    IReadOnlyList<ResultLine> Results
)
{
    public static Draft Of(Description description) =>
        new(
            description,
            [.. description.Declarations.OfType<RegisterLine>()],
            [.. description.Declarations.OfType<PartLine>()],
            [.. description.Declarations.OfType<UnitLine>()],
            [.. description.Declarations.Where(d => d is RepeatBlock or StepBlock)],
            [.. description.Declarations.OfType<ResultLine>()]
        );

    /// <summary>The only loop; null where there is another number of them, or it may stop early.</summary>
    public RepeatBlock? Loop => Schedule.OfType<RepeatBlock>().ToList() is [{ While: null } loop] ? loop : null;

    /// <summary>The only step of the only loop; null where there is another number.</summary>
    public StepBlock? Round => Loop is { Steps: [var step] } ? step : null;

    public IEnumerable<StepBlock> Steps =>
        Schedule.SelectMany(s => s is RepeatBlock loop ? loop.Steps : [(StepBlock)s]);

    public IEnumerable<OperandLine> Operands => Origin.Declarations.OfType<OperandLine>();

    public RegisterLine Register(string name) => Registers.First(r => r.Name.Text == name);

    /// <summary>The same with another loop in the place of its only one.</summary>
    public Draft With(RepeatBlock loop) =>
        this with
        {
            Schedule = [.. Schedule.Select(s => s is RepeatBlock ? loop : s)],
        };

    /// <summary>The same with these moments in the place of its only step's.</summary>
    public Draft WithRound(IEnumerable<IReadOnlyList<Statement>> moments)
    {
        var filled = moments.Where(m => m.Count > 0).DefaultIfEmpty([]).Select(m => new Moment(Comments.None, m));
        return With(Loop! with { Steps = [Round! with { Moments = [.. filled] }] });
    }

    /// <summary>Every value in the schedule and the results made anew.</summary>
    public Draft Mapped(Func<Expression, Expression> made) =>
        this with
        {
            Schedule = [.. Schedule.Select(s => Mapping.Of(s, made))],
            Results = [.. Results.Select(r => r with { Value = made(r.Value) })],
        };

    /// <summary>The whole description in the canonical order, with these sentences below its name.</summary>
    public Description Described(MachineLine name, IEnumerable<Declaration> head)
    {
        Declaration[] rest = [.. Origin.Declarations];
        Declaration[] all =
        [
            name,
            .. head,
            .. rest.Where(d => d is WidthLine or ConstantLine),
            .. rest.Where(d => d is OperandLine or GivenLine),
            .. Registers,
            .. Parts,
            .. Units,
            .. rest.OfType<TableBlock>(),
            .. Schedule,
            .. Results,
            .. rest.OfType<FormulaLine>(),
            .. rest.OfType<ClaimLine>(),
        ];
        return new Description(Origin.Source, all, [], new HashSet<string>());
    }

    /// <summary>Without what is said about it: what tells two drafts apart.</summary>
    public string Text =>
        Printer.Text(Described(Origin.Declarations.OfType<MachineLine>().First(), []), comments: false);
}
