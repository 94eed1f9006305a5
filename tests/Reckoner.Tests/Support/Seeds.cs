using System.Globalization;
using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// Random tests differ from run to run; a failure names its seed, and RECKONER_SEED=that runs it again.
/// </summary>
internal static class Seeds
{
    private static readonly string? Chosen = Environment.GetEnvironmentVariable("RECKONER_SEED");

    public static int Next() => Chosen is null ? Random.Shared.Next() : int.Parse(Chosen, CultureInfo.InvariantCulture);

    /// <summary>Runs a check; what it throws is told with the seed and what was being tried.</summary>
    public static void Told(int seed, string what, Action check)
    {
        try
        {
            check();
        }
        catch (Exception e)
        {
            Assert.Fail($"RECKONER_SEED={seed}, {what}\n{e}");
        }
    }
}
