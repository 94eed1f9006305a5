using System.Text.RegularExpressions;
using Xunit;

namespace Reckoner.Page.Tests.Browser;

/// <summary>Pinned texts of screens, beside the tests: NAME.verified.yml; a difference leaves NAME.received.yml.</summary>
internal static partial class Heard
{
    private static string Folder => Path.Combine(PageFolder.Repository, "tests/Reckoner.Page.Tests/Browser/Heard");

    /// <summary>
    /// How far the verdict reaches in its half second depends on the machine it is made on, so its numbers are left out, and the
    /// button that goes on to the width on the screen, which is there where it did not come so far.
    /// </summary>
    private static string WithoutReach(string heard) =>
        Width().Replace(Button().Replace(Cases().Replace(heard, "# "), ""), "at n = #");

    [GeneratedRegex(@"[\d,]+ (?=pairs|cases)")]
    private static partial Regex Cases();

    [GeneratedRegex(@"at n = \d+")]
    private static partial Regex Width();

    [GeneratedRegex(@" *- button ""Try every operand at n = \d+""\n")]
    private static partial Regex Button();

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
