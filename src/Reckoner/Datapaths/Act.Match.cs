namespace Reckoner.Datapaths;

/// <summary>The kinds of acts.</summary>
public enum ActKind
{
    Let,
    Transfer,
    Branch,
    Case,
    Hold,
    Remark,
}

public abstract partial record Act
{
    public abstract ActKind Kind { get; }

    /// <summary>What each kind of act gives. A new kind is asked for wherever acts are told apart, by the compiler.</summary>
    public T Match<T>(
        Func<LetAct, T> let,
        Func<TransferAct, T> transfer,
        Func<BranchAct, T> branch,
        Func<CaseAct, T> arms,
        Func<HoldAct, T> hold,
        Func<RemarkAct, T> remark
    ) =>
        Kind switch
        {
            ActKind.Let => let((LetAct)this),
            ActKind.Transfer => transfer((TransferAct)this),
            ActKind.Branch => branch((BranchAct)this),
            ActKind.Case => arms((CaseAct)this),
            ActKind.Hold => hold((HoldAct)this),
            ActKind.Remark => remark((RemarkAct)this),
        };

    /// <summary>The same for what gives nothing back.</summary>
    public void Switch(
        Action<LetAct> let,
        Action<TransferAct> transfer,
        Action<BranchAct> branch,
        Action<CaseAct> arms,
        Action<HoldAct> hold,
        Action<RemarkAct> remark
    ) =>
        _ = Kind switch
        {
            ActKind.Let => Done(let, (LetAct)this),
            ActKind.Transfer => Done(transfer, (TransferAct)this),
            ActKind.Branch => Done(branch, (BranchAct)this),
            ActKind.Case => Done(arms, (CaseAct)this),
            ActKind.Hold => Done(hold, (HoldAct)this),
            ActKind.Remark => Done(remark, (RemarkAct)this),
        };

    private static bool Done<T>(Action<T> action, T one)
    {
        action(one);
        return true;
    }
}
