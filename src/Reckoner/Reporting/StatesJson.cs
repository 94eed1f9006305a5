using System.Text.Json;
using Reckoner.Datapaths;
using Reckoner.Measuring;

namespace Reckoner.Reporting;

/// <summary>The control unit's state table as JSON. States are known by the numbers of their steps; 0 is the load.</summary>
public static class StatesJson
{
    public static string Of(Datapath datapath)
    {
        var (actions, transitions) = ControlStates.Of(datapath);
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
            json.Objects("transitions", transitions, transition => Write(json, transition));
            json.Objects("signals", actions, action => Write(json, action));
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

    private static void Write(Utf8JsonWriter json, StateAction action)
    {
        json.WriteNumber("state", action.Step.Number);
        json.WriteNumber("moment", action.Moment);
        json.When(action.When);
        json.WriteString("does", action.Text);
    }

    private static void When(this Utf8JsonWriter json, IReadOnlyList<Condition> conditions) =>
        json.Objects(
            "when",
            conditions,
            condition =>
            {
                json.WriteString("text", condition.Text);
                json.WriteBoolean("holds", !condition.IsTurned);
            }
        );
}
