using Reckoner.Drawing;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Tests;

public sealed class OriginsTests
{
    /// <summary>What decides or is made by gates has its hue even where no register takes it, beside constants, which have none.</summary>
    [Fact]
    public void What_is_decided_and_what_gates_make_have_hues_of_their_own()
    {
        var (decided, gates) = (new BitSource(SourceKind.Decision, 0), new BitSource(SourceKind.Gates, 0));
        var origins = new Origins([], [BitSource.Zero, decided, gates]);
        Assert.Equal([SourceKind.Decision, SourceKind.Gates], origins.All.Select(o => o.Origin.Kind).Order());
        Assert.NotEqual(origins.Hue(decided), origins.Hue(gates));
        Assert.Equal(Role.Neutral, origins.Hue(BitSource.One));
    }
}
