using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>
/// A register a bit too narrow: in what it loads and after every moment that writes it, its top bit is made again from the rest, as
/// a register of one bit less would be read (a copy of the sign, or 0). So it stays a description that binds, walks and prints.
/// </summary>
internal static class Narrow
{
    private static readonly Span Nowhere = new(0, 0);

    public static Description Of(Description description, RegisterLine register)
    {
        var names = Mentioned.NamesOf(description, register.Name.Text);
        var loads = FillsItsTop(description, register) ? register with { Loads = LoadedFromRest(register) } : register;
        return description with
        {
            Declarations =
            [
                .. description.Declarations.Select(d =>
                    d switch
                    {
                        RegisterLine r when r == register => loads,
                        StepBlock s => Cut(s, register, names),
                        RepeatBlock r => r with { Steps = [.. r.Steps.Select(s => Cut(s, register, names))] },
                        _ => d,
                    }
                ),
            ],
        };
    }

    private static StepBlock Cut(StepBlock step, RegisterLine register, IReadOnlySet<string> names) =>
        step with
        {
            Moments =
            [
                .. step.Moments.SelectMany(m =>
                    Mentioned.Writes(m.Statements, names)
                        ? (Moment[])[m, new Moment(Comments.None, [TopFromRest(register)])]
                        : [m]
                ),
            ],
        };

    private static TransferLine TopFromRest(RegisterLine register)
    {
        var name = new NameReference(Nowhere, register.Name.Text);
        Expression value = register.Type.IsSigned ? new Sliced(Nowhere, name, Place(register, "2")) : Zero;
        return new TransferLine(Nowhere, Comments.None, [new Sliced(Nowhere, name, Place(register, "1"))], value, null);
    }

    /// <summary>
    /// Whether operands may reach the top bit at the load: not where a number is loaded, where "extend" leaves room, nor in a
    /// register of one bit, which would have none left.
    /// </summary>
    private static bool FillsItsTop(Description description, RegisterLine register) =>
        register is { Loads: not Call { Function: "extend", Arguments.Count: 1 } }
        && register.Type.Width is not NumberLiteral { Number.IsOne: true }
        && description.Declarations.OfType<OperandLine>().Any(o => Mentioned.In(register.Loads, o.Name.Text));

    private static Expression LoadedFromRest(RegisterLine register)
    {
        var loads = register.Loads is NameReference ? register.Loads : new Bracketed(Nowhere, register.Loads);
        var rest = new Sliced(Nowhere, loads, Place(register, "2"), Zero);
        return register.Type.IsSigned ? Called("extend", Called("signed", rest)) : new Joined(Nowhere, [Zero, rest]);
    }

    private static Binary Place(RegisterLine register, string below) =>
        new(Nowhere, BinaryOperator.Subtract, register.Type.Width, new NumberLiteral(Nowhere, below));

    private static NumberLiteral Zero => new(Nowhere, "0");

    private static Call Called(string function, Expression argument) => new(Nowhere, Nowhere, function, [argument]);
}
