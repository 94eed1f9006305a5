using Reckoner.Datapaths;
using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>What moves are made with: the machine they begin from, its widths, and what new things are called.</summary>
internal sealed class Workshop(IMachine machine, NewNames newNames)
{
    private static readonly IReadOnlyDictionary<string, Piece[]> Nothing = new Dictionary<string, Piece[]>();

    private readonly Scale scale = Scale.Of(machine);
    private readonly Dictionary<string, Observed> observed = [];

    public IMachine Machine => machine;

    public NewNames NewNames => newNames;

    public IReadOnlyList<CaseSet> Cases { get; } = CaseSet.Of(machine);

    public int Sign(Length length) => scale.Sign(length);

    public Composer Composer(Draft draft) => new(draft, scale, newNames);

    public Composer Plain(Draft draft) => new(draft, scale, newNames) { NamesCarries = false };

    /// <summary>What its registers hold, seen at some widths for every operand.</summary>
    public Observed Seen(Draft draft)
    {
        var text = draft.Text;
        return observed.TryGetValue(text, out var known) ? known : observed[text] = Observed.Of(text, draft, this);
    }

    /// <summary>The same machine on other registers.</summary>
    /// <param name="instead">For registers that are no more, or are others under the same name, words of those that there are.</param>
    /// <param name="reading">The same where a round begins; places to write are not meant.</param>
    public Draft Rewritten(
        Draft draft,
        IReadOnlyList<RegisterLine> registers,
        IReadOnlyDictionary<string, Piece[]>? instead = null,
        IReadOnlyDictionary<string, Piece[]>? reading = null
    )
    {
        return Fitted(
            draft with
            {
                Registers = registers,
                Parts = [],
                Schedule =
                [
                    .. draft.Schedule.Select(
                        Declaration (d) =>
                            d is RepeatBlock loop
                                ? loop with
                                {
                                    While = loop.While is null ? null : New().Condition(loop.While),
                                    Steps = [.. loop.Steps.Select(Step)],
                                }
                                : Step((StepBlock)d)
                    ),
                ],
                Results = [.. draft.Results.Select(r => r with { Value = Ending(New(), r.Value) })],
            }
        );

        Composer New() =>
            new(draft, scale, newNames, registers) { Instead = new Dictionary<string, Piece[]>(instead ?? Nothing) };

        StepBlock Step(StepBlock step) => new StepRewriting(New(), reading ?? Nothing).Of(step);
    }

    /// <summary>A result over the registers that there are.</summary>
    public static Expression Ending(Composer composer, Expression value) =>
        Make.Bare(value) switch
        {
            Call { Function: "signed" or "unsigned" } call => Make.Call(
                call.Function,
                composer.Written(composer.Read(call.Arguments[0]))
            ),
            Call call => composer.Rewritten(call),
            _ => composer.Written(composer.Read(value)),
        };

    /// <summary>Every adder as wide as what it adds; one that nothing uses goes.</summary>
    public Draft Fitted(Draft draft)
    {
        if (draft.Units.Count == 0)
        {
            return draft;
        }
        var uses = new Dictionary<string, HashSet<Length>>();
        foreach (var step in draft.Steps)
        {
            var composer = Plain(draft);
            foreach (var statement in Statements.Of(step))
            {
                Use(composer, statement, uses);
            }
        }
        return draft with
        {
            Units =
            [
                .. draft
                    .Units.Where(u => uses.ContainsKey(u.Name.Text))
                    .Select(u =>
                        u.Kind == Notation.UnitKind.Multiplier ? u
                        : uses[u.Name.Text] is { Count: 1 } one ? u with { Width = one.Single().Written() }
                        : throw new BeyondMoveException($"{u.Name} would need two widths")
                    ),
            ],
        };
    }

    private static void Use(Composer composer, Statement statement, Dictionary<string, HashSet<Length>> uses)
    {
        var (value, via) = statement switch
        {
            LetLine s => (Make.Bare(s.Value), s.Via),
            TransferLine s => (Make.Bare(s.Value), s.Via),
            _ => (null, null),
        };
        if (via is not null)
        {
            var width =
                value is Binary sum ? Width(composer, sum.Left) ?? Width(composer, sum.Right)
                : statement is TransferLine transfer ? PlacesWidth(composer, transfer)
                : null;
            if (!uses.TryGetValue(via.Text, out var widths))
            {
                uses[via.Text] = widths = [];
            }
            widths.Add(width ?? throw new BeyondMoveException($"nothing says how wide {value} is"));
        }
        foreach (var (name, isSecond) in statement.Names)
        {
            if (isSecond && value is not Call)
            {
                composer.Widths[name.Text] = 1;
            }
            else if (value is not null && Width(composer, value) is { } width)
            {
                composer.Widths[name.Text] = width;
            }
        }
    }

    private static Length PlacesWidth(Composer composer, TransferLine transfer) =>
        Refining.Composer.WidthOf(composer.Places(transfer.Targets));

    private static Length? Width(Composer composer, Expression value)
    {
        try
        {
            return Refining.Composer.WidthOf(composer.Read(value));
        }
        catch (BeyondMoveException)
        {
            return null;
        }
    }
}
