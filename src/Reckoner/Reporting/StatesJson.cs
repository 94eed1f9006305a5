using System.Text.Json;
using Reckoner.Structure;

namespace Reckoner.Reporting;

/// <summary>The control unit's state table as JSON. States are known by the numbers of their steps; 0 is the load.</summary>
internal static class StatesJson
{
    public static string Of(ControlStates control)
    {
        var (datapath, states) = control;
        return Json.Document(json =>
        {
            json.Subject(datapath);
            json.Objects(
                "states",
                datapath.Steps,
                step =>
                {
                    json.WriteNumber("state", step.Number);
                    json.WriteString("name", step.Name);
                }
            );
            json.Objects("transitions", control.Ways, transition => Write(json, transition));
            json.Objects(
                "signals",
                states.SelectMany(s => s.Doings, (s, d) => (State: s.Number, Doing: d)).Where(d => IsSignal(d.Doing)),
                signal => Write(json, signal.State, signal.Doing)
            );
        });
    }

    private static void Write(Utf8JsonWriter json, Transition transition)
    {
        json.WriteNumber("from", transition.From?.Number ?? 0);
        json.When(transition.When);
        if (transition.Below is { } below)
        {
            json.WriteNumber("below", below);
        }
        if (transition.Reached is { } reached)
        {
            json.WriteNumber("reached", reached);
        }
        if (transition.To is { } to)
        {
            json.WriteNumber("to", to.Number);
        }
        else
        {
            json.WriteNull("to");
        }
    }

    private static bool IsSignal(Doing doing) => ControlText.Of(doing.Act) is not null;

    private static void Write(Utf8JsonWriter json, int state, Doing doing)
    {
        json.WriteNumber("state", state);
        json.WriteNumber("moment", doing.Moment);
        json.When(doing.When);
        json.WriteString("does", ControlText.Of(doing.Act));
    }

    private static void When(this Utf8JsonWriter json, IReadOnlyList<Guard> conditions) =>
        json.Objects(
            "when",
            conditions,
            condition =>
            {
                json.WriteString("text", ControlText.Of(condition));
                json.WriteBoolean("holds", !condition.IsTurned);
            }
        );
}
