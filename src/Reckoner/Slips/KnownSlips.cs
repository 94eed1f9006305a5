using Reckoner.Conditions;
using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Slips;

/// <summary>The slips that a condition may name.</summary>
internal sealed class KnownSlips(Datapath datapath) : IKnownSlips
{
    private readonly Lazy<IReadOnlyList<Slip>> slips = new(() => Slip.Of(datapath.Machine));

    /// <summary>What conditions on the walks of a machine are about.</summary>
    public static DecidedMachine Machine(Timeline timeline) => new(timeline, new KnownSlips(timeline.Datapath));

    public IEnumerable<string> Names => slips.Value.Select(s => s.Name);

    public Datapath? Built(string name) =>
        slips.Value.FirstOrDefault(s => s.Name == name) is { } slip ? SlipStudy.Built(datapath, slip) : null;
}
