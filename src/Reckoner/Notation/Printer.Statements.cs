namespace Reckoner.Notation;

internal static partial class Printer
{
    private static void Print(Page page, IReadOnlyList<Statement> statements)
    {
        foreach (var statement in statements)
        {
            Print(page, statement, "");
        }
    }

    /// <param name="arm">The labels of an arm that the statement stands behind on one line, or nothing.</param>
    private static void Print(Page page, Statement statement, string arm) =>
        statement.Switch(
            let: s => page.Line(s.Comments, arm + Text(s)),
            letCase: s => Print(page, s, arm),
            transfer: s => page.Line(s.Comments, arm + Text(s)),
            branch: s =>
            {
                page.Line(s.Comments, $"{arm}if {Text(s.Condition)}{Text(s.Says)}");
                PrintBranches(page, s);
            },
            arms: s => Print(page, s, arm),
            hold: s => page.Line(s.Comments, arm + "hold"),
            remark: s => page.Line(s.Comments, $"{arm}note {Text(s.Text)}")
        );

    private static string Text(LetLine let)
    {
        var second = let.Second is null ? "" : $", {Text(let.Second)}";
        return $"let {Text(let.Name)}{second} = {Text(let.Value)}{Via(let.Via)}{Text(let.Says)}";
    }

    private static string Text(Says? says) =>
        says is null ? ""
        : says.WhenZero is null ? Said(says.WhenOne)
        : $"{Said(says.WhenOne)} else {Text(says.WhenZero)}";

    private static string Said(Phrase? phrase) => phrase is null ? "" : $" says {Text(phrase)}";

    private static string Text(TransferLine transfer) =>
        $"{string.Join(':', transfer.Targets.Select(t => Text(t)))} <- {Text(transfer.Value)}{Via(transfer.Via)}";

    private static string Via(Declared? unit) => unit is null ? "" : $" via {unit}";

    private static void Print(Page page, LetCase block, string before)
    {
        page.Line(block.Comments, $"{before}let {Text(block.Name)} = case {Text(block.Subject)}");
        page.Inside(() =>
        {
            foreach (var arm in block.Arms)
            {
                page.Line(arm.Comments, $"{Opened(arm.Labels, arm.Says)} {Text(arm.Value)}");
            }
        });
        page.Line(block.AtEnd, "end");
    }

    private static void PrintBranches(Page page, IfBlock block)
    {
        page.Inside(() => Print(page, block.Then));
        if (block is { ElseIf: true, Otherwise: [IfBlock inner] })
        {
            page.Line(inner.Comments, $"else if {Text(inner.Condition)}{Text(inner.Says)}");
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
                    arm.Body is [{ StandsBehindLabels: true }]
                    && arm.Body[0].Comments.Above.Count == 0
                    && arm.Comments.Beside is null
                )
                {
                    page.Remarks(arm.Comments.Above);
                    Print(page, arm.Body[0], Opened(arm.Labels, arm.Says) + " ");
                }
                else
                {
                    page.Line(arm.Comments, Opened(arm.Labels, arm.Says));
                    page.Inside(() => Print(page, arm.Body));
                }
            }
        });
        page.Line(block.AtEnd, "end");
    }

    private static string Opened(IReadOnlyList<Label>? labels, Phrase? says) =>
        (labels is null ? "else" : Text(labels)) + Said(says) + ":";

    public static string Text(IReadOnlyList<Label> labels) =>
        string.Join(", ", labels.Select(l => (l.IsNegative ? "-" : "") + Text(l.Literal)));
}
