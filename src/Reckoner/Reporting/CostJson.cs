using System.Text.Json;
using Reckoner.Costing;
using Reckoner.Datapaths;

namespace Reckoner.Reporting;

/// <summary>What machines cost as JSON, the machines in the order in which they were named.</summary>
internal static class CostJson
{
    public static string Of(IReadOnlyList<MachineCost> costs) =>
        Json.Document(json =>
        {
            var (adders, model) = (costs[0].Adders, costs[0].Model);
            json.WriteString("adder", adders.Found.Count > 0 ? null : Adders.Name(adders.Everywhere));
            json.WriteString("model", model.Title);
            json.WriteString("area_unit", model.AreaUnit);
            json.WriteString("delay_unit", model.DelayUnit);
            json.Objects("machines", costs, cost => Write(json, cost));
            json.Objects(
                "growth",
                Growths.Of(costs),
                g =>
                {
                    json.WriteString("of", Text(g.Of));
                    json.WriteString("law", Text(g.Growth.Law));
                    json.WriteNumber("factor", g.Growth.Factor);
                    json.WriteNumber("anyway", g.Growth.Anyway);
                    json.WriteNumber("deviation", g.Growth.Deviation);
                }
            );
        });

    private static void Write(Utf8JsonWriter json, MachineCost cost)
    {
        json.Subject(cost.Datapath);
        json.WriteNumber("area", cost.Area);
        json.WriteNumber("clock", cost.Clock);
        json.WriteNumber("least_cycles", cost.Cycles.Least);
        json.WriteNumber("most_cycles", cost.Cycles.Most);
        json.WriteString("average_cycles", cost.AverageCycles?.ToString());
        json.WriteNumber("least_time", cost.Time.Least);
        json.WriteNumber("most_time", cost.Time.Most);
        json.Objects(
            "parts",
            cost.Parts,
            part =>
            {
                json.WriteString("part", JsonSubject.Text(part.Kind));
                json.WriteString("unit", part.Unit?.Name);
                json.WriteString(
                    "adder",
                    part.Unit is null or { Kind: UnitKind.CarrySaveAdder }
                        ? null
                        : Adders.Name(cost.Adders.Of(part.Unit))
                );
                json.WriteNumber("bits", part.Bits);
                json.WriteNumber("area", part.Area);
            }
        );
        Write(json, cost.Activity);
        json.Objects(
            "paths",
            cost.Paths,
            path =>
            {
                json.WriteString(
                    "of",
                    path.Loop is not null ? "loop"
                        : path.Step is null ? "load"
                        : "step"
                );
                json.WriteNumber("state", path.Step?.Number ?? 0);
                json.WriteNumber("line", path.Loop?.Line ?? path.Step?.Line ?? 0);
                json.WriteString("source", (path.Step ?? path.Loop?.Steps[0])?.Source.Name);
                json.WriteNumber("delay", path.Delay);
                json.Objects(
                    "hops",
                    path.Hops,
                    hop =>
                    {
                        json.WriteString("through", Through(hop.Kind));
                        json.WriteString(
                            "name",
                            hop.Register?.Name ?? hop.Operand?.Name ?? hop.Table?.Name ?? hop.Unit?.Name
                        );
                        json.WriteNumber("line", hop.Line);
                        json.WriteNumber("delay", hop.Delay);
                        json.WriteNumber("at", hop.At);
                    }
                );
            }
        );
    }

    private static void Write(Utf8JsonWriter json, Activity? activity)
    {
        if (activity is null)
        {
            json.WriteNull("activity");
            return;
        }
        json.WriteStartObject("activity");
        json.WriteNumber("operations", activity.Operations);
        json.WriteBoolean("all", activity.IsAll);
        json.WriteNumber("least_cycles", activity.LeastCycles);
        json.WriteString("average_cycles", activity.AverageCycles.ToString());
        json.WriteNumber("most_cycles", activity.MostCycles);
        json.Objects(
            "toggles",
            activity.Toggles,
            t =>
            {
                json.WriteString("register", t.Register?.Name);
                json.WriteString("unit", t.Unit?.Name);
                json.WriteNumber("line", t.Unit?.Uses[0].Line ?? 0);
                json.WriteString("average", t.Average.ToString());
            }
        );
        json.WriteEndObject();
    }

    private static string Text(CostSum sum) =>
        sum switch
        {
            CostSum.Area => "area",
            CostSum.Clock => "clock",
        };

    private static string Text(GrowthLaw law) =>
        law switch
        {
            GrowthLaw.Constant => "1",
            GrowthLaw.Logarithm => "log n",
            GrowthLaw.Linear => "n",
            GrowthLaw.LinearLogarithm => "n log n",
            GrowthLaw.Square => "n^2",
        };

    private static string Through(PathKind kind) =>
        kind switch
        {
            PathKind.Register => "register",
            PathKind.Operand => "operand",
            PathKind.Control => "control",
            PathKind.Last => "last",
            PathKind.And => "and",
            PathKind.Or => "or",
            PathKind.Xor => "xor",
            PathKind.Not => "not",
            PathKind.Equal => "equal",
            PathKind.Choice => "choice",
            PathKind.Lookup => "table",
            PathKind.UnitInput => "unit-input",
            PathKind.Unit => "unit",
            PathKind.RegisterInput => "register-input",
        };
}
