using Reckoner.Datapaths;

namespace Reckoner.Reporting;

/// <summary>Into how many parts checks can be cut, as JSON: one for each width, from the lowest.</summary>
internal static class PartsJson
{
    public static string Of(IReadOnlyList<(Datapath Datapath, int Most)> parts) =>
        Json.Document(json =>
        {
            json.Machine(parts[0].Datapath.Machine);
            json.Objects(
                "checks",
                parts,
                part =>
                {
                    json.Width(part.Datapath);
                    json.WriteNumber("most_parts", part.Most);
                }
            );
        });
}
