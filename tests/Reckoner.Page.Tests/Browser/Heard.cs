using System.Text.RegularExpressions;
using Xunit;

namespace Reckoner.Page.Tests.Browser;

/// <summary>Pinned texts of screens, beside the tests: NAME.verified.yml; a difference leaves NAME.received.yml.</summary>
internal static class Heard
{
    private static string Folder => Path.Combine(PageFolder.Repository, "tests/Reckoner.Page.Tests/Browser/Heard");

    /// <summary>How far the verdict reaches depends on the machine it is made on, so its numbers are left out.</summary>
    private static string WithoutReach(string heard) =>
        Regex.Replace(
            Regex.Replace(heard, @"[\d,]+ (?=pairs|cases)", "# ", RegexOptions.CultureInvariant),
            @"at n = \d+",
            "at n = #",
            RegexOptions.CultureInvariant
        );

    public static void Match(string screen, string words)
    {
        var heard = WithoutReach(words);
        var pinned = Path.Combine(Folder, screen + ".verified.yml");
        var received = Path.Combine(Folder, screen + ".received.yml");
        var known = File.Exists(pinned) ? File.ReadAllText(pinned) : "";
        if (known != heard)
        {
            Directory.CreateDirectory(Folder);
            File.WriteAllText(received, heard);
        }
        else
        {
            File.Delete(received);
        }
        Assert.Equal(known, heard);
    }
}
