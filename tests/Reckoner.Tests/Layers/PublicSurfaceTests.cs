using Xunit;

namespace Reckoner.Tests.Layers;

/// <summary>The core as a library: what strangers can see is what its front door leads to, and a change of it is seen.</summary>
public class PublicSurfaceTests
{
    [Fact]
    public void Everything_public_is_reached_from_the_front_door()
    {
        var reached = PublicSurface.ReachedFrom(typeof(Reckon));
        var beside = typeof(Reckon)
            .Assembly.GetExportedTypes()
            .Where(t => !reached.Contains(t))
            .Select(t => t.FullName);
        var named = string.Join('\n', beside.Order(StringComparer.Ordinal));
        Assert.True(named.Length == 0, named);
    }

    [Fact]
    public void What_strangers_can_see_is_as_it_was_approved() =>
        Snapshot.Match(
            nameof(What_strangers_can_see_is_as_it_was_approved),
            string.Join('\n', PublicSurface.Lines(typeof(Reckon).Assembly)) + "\n"
        );
}
