namespace Reckoner.Notation;

/// <summary>The kinds of declarations.</summary>
internal enum DeclarationKind
{
    Machine,
    Title,
    Note,
    Follows,
    Width,
    Constant,
    Operand,
    Given,
    Register,
    Part,
    Meaning,
    Unit,
    Table,
    Core,
    Repeat,
    Step,
    Result,
    Formula,
    Claim,
}

public abstract partial record Declaration
{
    internal abstract DeclarationKind Declares { get; }

    /// <summary>What each kind of declaration gives. A new kind is asked for wherever this is called, by the compiler.</summary>
    internal T Match<T>(
        Func<MachineLine, T> machine,
        Func<TitleLine, T> title,
        Func<NoteLine, T> note,
        Func<FollowsLine, T> follows,
        Func<WidthLine, T> width,
        Func<ConstantLine, T> constant,
        Func<OperandLine, T> operand,
        Func<GivenLine, T> given,
        Func<RegisterLine, T> register,
        Func<PartLine, T> part,
        Func<MeaningLine, T> meaning,
        Func<UnitLine, T> unit,
        Func<TableBlock, T> table,
        Func<CoreBlock, T> core,
        Func<RepeatBlock, T> repeat,
        Func<StepBlock, T> step,
        Func<ResultLine, T> result,
        Func<FormulaLine, T> formula,
        Func<ClaimLine, T> claim
    ) =>
        Declares switch
        {
            DeclarationKind.Machine => machine((MachineLine)this),
            DeclarationKind.Title => title((TitleLine)this),
            DeclarationKind.Note => note((NoteLine)this),
            DeclarationKind.Follows => follows((FollowsLine)this),
            DeclarationKind.Width => width((WidthLine)this),
            DeclarationKind.Constant => constant((ConstantLine)this),
            DeclarationKind.Operand => operand((OperandLine)this),
            DeclarationKind.Given => given((GivenLine)this),
            DeclarationKind.Register => register((RegisterLine)this),
            DeclarationKind.Part => part((PartLine)this),
            DeclarationKind.Meaning => meaning((MeaningLine)this),
            DeclarationKind.Unit => unit((UnitLine)this),
            DeclarationKind.Table => table((TableBlock)this),
            DeclarationKind.Core => core((CoreBlock)this),
            DeclarationKind.Repeat => repeat((RepeatBlock)this),
            DeclarationKind.Step => step((StepBlock)this),
            DeclarationKind.Result => result((ResultLine)this),
            DeclarationKind.Formula => formula((FormulaLine)this),
            DeclarationKind.Claim => claim((ClaimLine)this),
        };
}
