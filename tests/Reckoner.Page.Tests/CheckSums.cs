using System.Security.Cryptography;
using Xunit;

namespace Reckoner.Page.Tests;

/// <summary>The file of check sums beside what is handed out, recomputed.</summary>
internal static class CheckSums
{
    /// <summary>Every file of the pattern stands in it, as "sum, two blanks, name", with the sum that it has.</summary>
    public static void AreRight(string folder, string pattern)
    {
        var files = Directory.GetFiles(folder, pattern).Order(StringComparer.Ordinal);
        var sums = files.Select(f =>
            $"{Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(f)))}  {Path.GetFileName(f)}"
        );
        Assert.Equal(
            sums,
            File.ReadAllLines(Path.Combine(folder, "SHA256SUMS")).OrderBy(l => l[66..], StringComparer.Ordinal)
        );
    }
}
