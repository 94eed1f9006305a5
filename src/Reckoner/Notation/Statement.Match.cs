namespace Reckoner.Notation;

/// <summary>The kinds of statements.</summary>
public enum StatementKind
{
    Let,
    LetCase,
    Transfer,
    If,
    Case,
    Hold,
    Remark,
}

public abstract partial record Statement
{
    public abstract StatementKind Kind { get; }

    /// <summary>What each kind of statement gives. A new kind is asked for wherever statements are told apart, by the compiler.</summary>
    public T Match<T>(
        Func<LetLine, T> let,
        Func<LetCase, T> letCase,
        Func<TransferLine, T> transfer,
        Func<IfBlock, T> branch,
        Func<CaseBlock, T> arms,
        Func<HoldLine, T> hold,
        Func<RemarkLine, T> remark
    ) =>
        Kind switch
        {
            StatementKind.Let => let((LetLine)this),
            StatementKind.LetCase => letCase((LetCase)this),
            StatementKind.Transfer => transfer((TransferLine)this),
            StatementKind.If => branch((IfBlock)this),
            StatementKind.Case => arms((CaseBlock)this),
            StatementKind.Hold => hold((HoldLine)this),
            StatementKind.Remark => remark((RemarkLine)this),
        };

    /// <summary>The same for what gives nothing back.</summary>
    public void Switch(
        Action<LetLine> let,
        Action<LetCase> letCase,
        Action<TransferLine> transfer,
        Action<IfBlock> branch,
        Action<CaseBlock> arms,
        Action<HoldLine> hold,
        Action<RemarkLine> remark
    ) =>
        _ = Kind switch
        {
            StatementKind.Let => Done(let, (LetLine)this),
            StatementKind.LetCase => Done(letCase, (LetCase)this),
            StatementKind.Transfer => Done(transfer, (TransferLine)this),
            StatementKind.If => Done(branch, (IfBlock)this),
            StatementKind.Case => Done(arms, (CaseBlock)this),
            StatementKind.Hold => Done(hold, (HoldLine)this),
            StatementKind.Remark => Done(remark, (RemarkLine)this),
        };

    private static bool Done<T>(Action<T> action, T one)
    {
        action(one);
        return true;
    }
}
