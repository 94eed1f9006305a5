namespace Reckoner.Notation;

public static partial class Printer
{
    private static void Print(Page page, IReadOnlyList<Statement> statements)
    {
        foreach (var statement in statements)
        {
            Print(page, statement, "");
        }
    }

    /// <param name="arm">The labels of an arm that the statement stands behind on one line, or nothing.</param>
    private static void Print(Page page, Statement statement, string arm)
    {
        switch (statement)
        {
            case LetLine s:
                page.Line(s.Comments, arm + Text(s));
                break;
            case LetCase s:
                page.Line(s.Comments, $"{arm}let {s.Name} = case {Text(s.Subject)}");
                page.Inside(() =>
                {
                    foreach (var one in s.Arms)
                    {
                        page.Line(one.Comments, $"{Opened(one.Labels)} {Text(one.Value)}");
                    }
                });
                page.Line(s.AtEnd, "end");
                break;
            case TransferLine s:
                var targets = string.Join(':', s.Targets.Select(t => Text(t)));
                page.Line(s.Comments, $"{arm}{targets} <- {Text(s.Value)}{Via(s.Via)}");
                break;
            case IfBlock s:
                page.Line(s.Comments, $"{arm}if {Text(s.Condition)}");
                PrintBranches(page, s);
                break;
            case CaseBlock s:
                Print(page, s, arm);
                break;
            case HoldLine s:
                page.Line(s.Comments, arm + "hold");
                break;
            case RemarkLine s:
                page.Line(s.Comments, $"{arm}note {Text(s.Text)}");
                break;
            default:
                throw new InvalidOperationException(statement.GetType().Name);
        }
    }

    private static string Text(LetLine let)
    {
        var second = let.Second is null ? "" : $", {let.Second}";
        var says = let.Says is null ? "" : $" says {Text(let.Says.WhenOne)}";
        var zero = let.Says?.WhenZero is null ? "" : $" else {Text(let.Says.WhenZero)}";
        return $"let {let.Name}{second} = {Text(let.Value)}{Via(let.Via)}{says}{zero}";
    }

    private static string Via(Declared? unit) => unit is null ? "" : $" via {unit}";

    private static void PrintBranches(Page page, IfBlock block)
    {
        page.Inside(() => Print(page, block.Then));
        if (block is { ElseIf: true, Otherwise: [IfBlock inner] })
        {
            page.Line(inner.Comments, $"else if {Text(inner.Condition)}");
            PrintBranches(page, inner);
            return;
        }
        if (block.Otherwise is not null)
        {
            page.Line(block.AtElse, "else");
            page.Inside(() => Print(page, block.Otherwise));
        }
        page.Line(block.AtEnd, "end");
    }

    private static void Print(Page page, CaseBlock block, string before)
    {
        page.Line(block.Comments, $"{before}case {Text(block.Subject)}");
        page.Inside(() =>
        {
            foreach (var arm in block.Arms)
            {
                if (
                    arm.Body is [TransferLine or HoldLine or RemarkLine]
                    && arm.Body[0].Comments.Above.Count == 0
                    && arm.Comments.Beside is null
                )
                {
                    page.Remarks(arm.Comments.Above);
                    Print(page, arm.Body[0], Opened(arm.Labels) + " ");
                }
                else
                {
                    page.Line(arm.Comments, Opened(arm.Labels));
                    page.Inside(() => Print(page, arm.Body));
                }
            }
        });
        page.Line(block.AtEnd, "end");
    }

    private static string Opened(IReadOnlyList<Label>? labels) => labels is null ? "else:" : Text(labels) + ":";

    public static string Text(IReadOnlyList<Label> labels) =>
        string.Join(", ", labels.Select(l => (l.IsNegative ? "-" : "") + Text(l.Literal)));
}
