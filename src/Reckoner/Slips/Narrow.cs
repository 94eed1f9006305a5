using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>
/// A register a bit too narrow: after every moment that writes it, its top bit is made again from the rest, as a register of one
/// bit less would be read (a copy of the sign, or 0). So it stays a description that binds, walks and prints.
/// </summary>
internal static class Narrow
{
    private static readonly Span Nowhere = new(0, 0);

    public static Description Of(Description description, RegisterLine register)
    {
        var names = Mentioned.NamesOf(description, register.Name.Text);
        return description with
        {
            Declarations =
            [
                .. description.Declarations.Select(d =>
                    d switch
                    {
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
        Expression Place(string below) =>
            new Binary(Nowhere, BinaryOperator.Subtract, register.Type.Width, new NumberLiteral(Nowhere, below));
        Expression value = register.Type.IsSigned
            ? new Sliced(Nowhere, name, Place("2"))
            : new NumberLiteral(Nowhere, "0");
        return new TransferLine(Nowhere, Comments.None, [new Sliced(Nowhere, name, Place("1"))], value, null);
    }
}
