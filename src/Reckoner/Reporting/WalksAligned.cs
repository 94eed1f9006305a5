using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// Walks of several machines side by side: a group of rows for each round, a row for each register; what differs from the
/// machine at the left is marked.
/// </summary>
internal static class WalksAligned
{
    public static Grid Of(IReadOnlyList<Walk> walks, HouseStyle style, Vocabulary words)
    {
        var severalLoops = walks.Any(w => w.Datapath.Schedule.Count(s => s.IsLoop) > 1);
        var rows =
            from round in AlignedWalks.Of(walks)
            from register in round.Registers
            select new GridRow([
                Cell.Of(Label(round, severalLoops, words)),
                Cell.Of(register.Name),
                .. register.Held.Select(h => Shown(h, style.Digits)),
            ])
            {
                Cycle = round.IsLoad ? 0 : null,
            };
        return new Grid(
            "walks",
            words.Say("compare.walks"),
            [
                new GridColumn(words.Say("walk.round"), ColumnRole.Label, IsGroup: true),
                new GridColumn(words.Say("register"), ColumnRole.Short),
                .. walks.Select((w, i) => CompareDocument.Column(w.Datapath, i, ColumnRole.Digits)),
            ],
            [.. rows]
        );
    }

    private static string Label(AlignedRound round, bool severalLoops, Vocabulary words) =>
        round.IsLoad ? words.Say("walk.load")
        : round.After > 0 ? round.Rows.First(r => r is not null)!.Step?.In(words.Language) ?? words.Say("compare.after")
        : severalLoops ? $"{Bits.Text(round.Loops)}.{Bits.Text(round.Round)}"
        : Bits.Text(round.Round);

    private static Cell Shown(HeldWord? held, Digits digits) =>
        held is null
            ? Cell.Empty
            : Cell.Of(
                digits.Of(held.Bits, held.Register.Width, held.Register.IsSigned, Columns.Cuts(held.Register))
            ) with
            {
                IsMarked = held.Differs,
            };
}
