using Reckoner.Costing;
using Reckoner.Numbers;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>What costs are counted by: the model, its rows where it comes from a file, the adders, what is left out.</summary>
internal static class CostModelText
{
    public static IReadOnlyList<Block> Of(IReadOnlyList<MachineCost> costs, Vocabulary words)
    {
        var model = costs[0].Model;
        var adders = Adder(costs, words);
        Content[] shared = costs.Any(c => c.Adders.Found.Count > CheapestAdders.MostUnits)
            ? [words.Spell("cost.adders-shared", ("units", CheapestAdders.MostUnits))]
            : [];
        return model.Title is { } title
            ?
            [
                Rows(model, title, words),
                new Paragraph([
                    words.Spell("cost.adders", ("adder", adders)),
                    .. shared,
                    .. model is { AreaUnit: null } or { DelayUnit: null }
                        ? [words.Spell("cost.left-out-of-file")]
                        : Array.Empty<Content>(),
                    words.Spell("cost.left-out"),
                ]),
            ]
            :
            [
                new Paragraph([
                    words.Spell("cost.model", ("adder", adders)),
                    .. shared,
                    words.Spell("cost.registers", ("area", model.Register.Area)),
                    words.Spell("cost.left-out"),
                ]),
            ];
    }

    private static string Adder(IReadOnlyList<MachineCost> costs, Vocabulary words)
    {
        return costs.Any(c => c.Adders.Found.Count > 0)
            ? words.Say("cost.adders-searched")
            : AdderText.Of(costs[0].Adders, words);
    }

    /// <summary>A number with what it is counted in, where that has a name.</summary>
    public static string In(string? unit, string number) => unit is null ? number : $"{number} {unit}";

    private static Grid Rows(CostModel model, string title, Vocabulary words)
    {
        return new Grid(
            "model",
            words.Say("cost.by-model", ("title", title)),
            [
                new GridColumn(words.Say("cost.piece"), ColumnRole.Label),
                new GridColumn(Head("cost.area", model.AreaUnit), ColumnRole.Short),
                new GridColumn(Head("cost.delay", model.DelayUnit), ColumnRole.Short),
            ],
            [
                Row("cost.piece-and", model.And),
                Row("cost.piece-or", model.Or),
                Row("cost.piece-xor", model.Xor),
                Row("cost.piece-not", model.Not),
                Row("cost.piece-choice", model.Choice),
                Row("cost.piece-register", model.Register),
                .. model.FullAdder is { } full
                    ? [Row("cost.piece-full-adder", full, $"{Bits.Text(full.Delay)}, {Bits.Text(model.CarryDelay)}")]
                    : Array.Empty<GridRow>(),
                .. model.TableBit is { } bit ? [Row("cost.piece-table-bit", bit)] : Array.Empty<GridRow>(),
                Row("cost.piece-counter-bit", new Price(model.CounterArea, 0)),
            ]
        );

        string Head(string key, string? unit) => unit is null ? words.Say(key) : $"{words.Say(key)} ({unit})";

        GridRow Row(string key, Price price, string? delay = null) =>
            new([Cell.Of(words.Say(key)), Cell.Of(Bits.Text(price.Area)), Cell.Of(delay ?? Bits.Text(price.Delay))]);
    }
}
