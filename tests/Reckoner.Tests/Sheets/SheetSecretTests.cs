using System.Security.Cryptography;
using System.Text;
using Reckoner.Sheets;
using Xunit;

namespace Reckoner.Tests.Sheets;

public class SheetSecretTests
{
    private static readonly SheetSecret Secret = new(SHA256.HashData("a"u8));

    private static List<string> Students(int count) => [.. Enumerable.Range(0, count).Select(i => $"s{i}")];

    /// <summary>HMAC-SHA-256 as RFC 4231 has it, test case 2 (key "Jefe"), and words that are one text only with their lengths.</summary>
    [Fact]
    public void The_numbers_are_a_keyed_hash_of_the_words()
    {
        Assert.Equal(
            "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843",
            Convert.ToHexStringLower(HMACSHA256.HashData("Jefe"u8, "what do ya want for nothing?"u8))
        );
        var key = SHA256.HashData("a"u8);
        var hash = HMACSHA256.HashData(key, Encoding.UTF8.GetBytes("5:allot2:ab"));
        Assert.Equal(Convert.ToHexStringLower(hash)[..16], Secret.Number("allot", "ab").ToString("x16", null));
        Assert.NotEqual(Secret.Number("a", "bc"), Secret.Number("ab", "c"));
    }

    [Fact]
    public void Every_sheet_of_a_large_class_has_a_number_of_its_own_and_keeps_it()
    {
        var before = Secret.Numbers(Students(3000), new Dictionary<string, SheetNumber>());
        Assert.Equal(3000, before.Values.Distinct().Count());
        var after = Secret.Numbers([.. Students(3001).AsEnumerable().Reverse()], before);
        Assert.All(before, b => Assert.Equal(b.Value, after[b.Key]));
    }
}
