using Reckoner.Running;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

internal sealed partial class CompareDocument
{
    private Grid Results()
    {
        var results = Versions.SelectMany(v => v.Datapath.Results).DistinctBy(r => r.Name);
        var operands = walks[0]
            .Datapath.Operands.Select(o => $"{o.In(words.Language)} = {o.Number(walks[0].Operands[o.Index])}");
        return new Grid(
            "results",
            words.Say("compare.results", ("operands", string.Join(words.Say("walk.between-names"), operands))),
            [
                new GridColumn(words.Say("compare.result"), ColumnRole.Label),
                .. walks.Select((w, i) => Column(w.Datapath, i, ColumnRole.Short)),
            ],
            [
                .. results.Select(r => new GridRow([
                    Cell.Of(r.In(words.Language)),
                    .. walks.Select(w => Result(w, r.Name)),
                ])),
                new GridRow([
                    Cell.Of(words.Say("hardware.cycles")),
                    .. walks.Select(w => Cell.Of(Run.Number(w.Cycles))),
                ]),
                new GridRow([
                    Cell.Of(words.Say("compare.laws")),
                    .. walks.Select(w => Cell.Of(words.Say(w.Holds ? "compare.laws-hold" : "compare.laws-broken"))),
                ]),
            ]
        );
    }

    private static Cell Result(Walk walk, string name)
    {
        var results = walk.Datapath.Results.Zip(walk.Results).Where(r => r.First.Name == name).ToList();
        return results.Count == 0 ? Cell.Empty : Cell.Of(Run.Number(results[0].First.Number(results[0].Second)));
    }
}
