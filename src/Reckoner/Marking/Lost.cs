using Reckoner.Explaining;

namespace Reckoner.Marking;

/// <summary>How much a table loses by a scheme. In each of them a row that was not written earns nothing.</summary>
internal static class Lost
{
    public static Credit Of(TableMark mark, Ways ways, ulong[] operands, Seen seen, MarkScheme scheme) =>
        scheme switch
        {
            MarkScheme.FollowThrough => new Credit(mark.Form.Rows, ByCauses(mark)),
            MarkScheme.EachTime => new Credit(mark.Form.Rows, EachTime(mark) + mark.Unfinished.Count),
            MarkScheme.PerRow => Compared(mark, ways, operands, seen, isEachRegister: false),
            MarkScheme.PerRegister => Compared(mark, ways, operands, seen, isEachRegister: true),
            MarkScheme.FirstError => new Credit(mark.Form.Rows, mark.Form.Rows - UpToFirst(mark)),
        };

    /// <summary>
    /// The fewest causes that give the table, or the rows that do not follow, if those are fewer. Of several explanations that one
    /// counts that costs least.
    /// </summary>
    private static int ByCauses(TableMark mark)
    {
        var verdict = mark.Verdict;
        if (verdict.Kind is VerdictKind.Right or VerdictKind.OtherWay)
        {
            return mark.Unfinished.Count;
        }
        var each = Math.Max(1, EachTime(mark));
        var causes =
            verdict.Explanations.Count == 0 || IsBrokenAtPrinted(mark)
                ? each
                : verdict.Explanations.Min(e => Cost(e, mark));
        return Math.Max(1, Math.Min(causes, each)) + mark.Unfinished.Count;
    }

    /// <summary>
    /// Cycles for which nothing was written cost each, as no one cause spoils them: they are missing, however else the rows that are
    /// there came about.
    /// </summary>
    private static int Cost(Explanation explanation, TableMark mark)
    {
        var missing = explanation.Mishaps.OfType<RowsOff>().FirstOrDefault(m => m.How == RowsKind.StoppedEarly);
        return missing is null
            ? explanation.Causes
            : explanation.Causes - 1 + Math.Clamp(Math.Max(missing.Count, mark.Rows.TooFew), 0, mark.Room);
    }

    /// <summary>Rows that do not follow, that are too many or too few, and results that are none of theirs.</summary>
    private static int EachTime(TableMark mark) =>
        mark.Verdict.Kind is VerdictKind.Right or VerdictKind.OtherWay
            ? 0
            : mark.WrongRows.Count() + mark.Extra + mark.Missing + (mark.AreResultsWrong ? 1 : 0);

    /// <summary>Whether what is printed does not follow from what was written above it: no cause accounts for that.</summary>
    private static bool IsBrokenAtPrinted(TableMark mark) =>
        mark.Form.BeginsAnew
        && mark.Rows.Rows.Any(r => r.Standing == Classroom.RowStanding.Wrong && mark.Form.IsPrinted(r.Row));

    private static int UpToFirst(TableMark mark)
    {
        if (mark.Verdict.Kind is VerdictKind.Right or VerdictKind.OtherWay && mark.Unfinished.Count == 0)
        {
            return mark.Form.Rows;
        }
        var written = mark.Rows.Rows.Count;
        var first = mark.WrongRows.Select(r => r.Row).Concat(mark.Unfinished).Append(written).Min();
        var got = Enumerable.Range(0, first).Count(i => !mark.Form.IsPrinted(i));
        // Where nothing but results or the number of rows is wrong the last row does not count.
        var isWrong = mark.AreResultsWrong || mark.Extra > 0;
        return Math.Max(0, first == written && isWrong ? got - 1 : got);
    }

    private static Credit Compared(TableMark mark, Ways ways, ulong[] operands, Seen seen, bool isEachRegister)
    {
        var (form, layout) = (mark.Form, ways.Layout);
        var right = ways.Right.Table(operands);
        var most = isEachRegister ? form.Open.Sum(o => o.Count) : form.Rows;
        if (mark.Verdict.Kind == VerdictKind.OtherWay)
        {
            return new Credit(most, mark.Unfinished.Count);
        }
        var lost = Math.Max(0, seen.Rows.Count - right.Count);
        for (var i = 0; i < form.Open.Count; i++)
        {
            var wrong = form.Open[i].Count(r => i >= right.Count || !IsRight(i, r));
            lost += isEachRegister ? wrong : Math.Min(1, wrong);
        }
        var last = form.Open.Count - 1;
        var areLost = mark.AreResultsWrong || mark.Unfinished.Contains(last);
        return new Credit(most, areLost && form.Open[last].All(r => IsRight(last, r)) ? lost + 1 : lost);

        bool IsRight(int i, int register)
        {
            var whole = (ulong)RowLayout.Ones(layout.Datapath.Registers[register].Width);
            return i < seen.Rows.Count
                && i < right.Count
                && layout.Field(seen.Rows[i].Known, register) == whole
                && layout.Field(seen.Rows[i].Bits, register) == layout.Field(right[i], register);
        }
    }
}
