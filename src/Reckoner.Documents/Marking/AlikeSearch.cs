using Reckoner.Explaining;

namespace Reckoner.Documents.Marking;

/// <summary>
/// Finds sheets whose tables are wrong in the same way, row by row. One slip made by many gives many such tables, so it says
/// nothing of anybody: it is for the eyes of whoever marks.
/// </summary>
internal static class AlikeSearch
{
    public static IReadOnlyList<AlikeSheets> Of(AnswersOfClass answers, IReadOnlyList<MarkedSheet> sheets)
    {
        var found = new List<AlikeSheets>();
        foreach (var question in answers.Questions)
        {
            var walks = (
                from sheet in sheets
                from marked in sheet.Questions
                where
                    marked.Form.Number == question.Number
                    && marked.Walk is { Mark.Verdict.Kind: not (VerdictKind.Right or VerdictKind.OtherWay) }
                select (sheet.Sheet, marked.Walk)
            ).ToList();
            found.AddRange(
                walks
                    .Where(w => w.Walk!.Mark.WrongRows.Any())
                    .GroupBy(w => Rows(w.Walk!.Mark.Verdict.Seen))
                    .Where(g => g.Count() > 1)
                    .Select(g => new AlikeSheets(
                        question.Number,
                        [.. g.Select(w => w.Sheet)],
                        IsOfOthersOperands: false
                    ))
            );
            found.AddRange(OfOthers(question, walks!, sheets));
        }
        return found;
    }

    private static string Rows(Seen seen) => string.Join(' ', seen.Rows.Select(r => $"{r.Bits:x}/{r.Known:x}"));

    /// <summary>Rows, but for the printed one of the load, that are those of the operands of another sheet.</summary>
    private static IEnumerable<AlikeSheets> OfOthers(
        AskedForm question,
        IReadOnlyList<(AnsweredSheet Sheet, MarkedWalk Walk)> walks,
        IReadOnlyList<MarkedSheet> sheets
    )
    {
        if (walks.Count == 0)
        {
            yield break;
        }
        var (ways, right) = (walks[0].Walk.Mark.Verdict.Ways, new Dictionary<string, AnsweredSheet>());
        foreach (var sheet in sheets)
        {
            var walk = sheet.Questions.FirstOrDefault(q => q.Form.Number == question.Number)?.Walk;
            var operands = walk?.Operands;
            if (operands is not null)
            {
                right.TryAdd(Key(ways.Right.Table(operands).Skip(1), ways), sheet.Sheet);
            }
        }
        foreach (var (sheet, walk) in walks)
        {
            var rows = walk.Mark.Verdict.Seen.Rows.Skip(1).Select(r => r.Bits).ToList();
            var key = Key(rows, ways);
            // Where all have the same operands, rows that are right are everybody's.
            if (
                rows.Count > 1
                && key != Key(ways.Right.Table(walk.Operands).Skip(1), ways)
                && right.TryGetValue(key, out var other)
                && other != sheet
            )
            {
                yield return new AlikeSheets(question.Number, [sheet, other], IsOfOthersOperands: true);
            }
        }
    }

    /// <summary>By the registers that change: those that stand still, such as a divisor, are printed on each sheet as its own.</summary>
    private static string Key(IEnumerable<UInt128> rows, Ways ways)
    {
        var all = rows.Select(r => r & ways.Layout.Mask).ToList();
        var moved = all.Zip(all.Skip(1)).Aggregate(UInt128.Zero, (bits, p) => bits | (p.First ^ p.Second));
        var fields = ways
            .Datapath.Registers.Where(r => ways.Layout.Field(moved, r.Index) != 0)
            .Select(r => r.Index)
            .ToList();
        return string.Join(' ', all.Select(r => string.Join('/', fields.Select(f => $"{ways.Layout.Field(r, f):x}"))));
    }
}
