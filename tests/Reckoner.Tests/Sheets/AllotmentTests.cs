using System.Security.Cryptography;
using System.Text;
using Reckoner.Sheets;
using Xunit;

namespace Reckoner.Tests.Sheets;

public class AllotmentTests
{
    private static readonly SheetSecret Secret = new(SHA256.HashData("a"u8));
    private static readonly SheetSecret Other = new(SHA256.HashData("b"u8));

    private static List<string> Students(int count) => [.. Enumerable.Range(0, count).Select(i => $"s{i}")];

    private static IReadOnlyDictionary<string, int> Of(
        IReadOnlyList<string> students,
        int items,
        IReadOnlyDictionary<string, int>? kept = null,
        SheetSecret? secret = null
    ) => Allotment.Of(secret ?? Secret, "q", items, students, kept ?? new Dictionary<string, int>());

    [Theory]
    [InlineData(1, 1)]
    [InlineData(250, 250)]
    [InlineData(250, 313)]
    public void Nobody_has_what_another_has_as_long_as_there_are_enough(int students, int items) =>
        Assert.Equal(students, Of(Students(students), items).Values.Distinct().Count());

    [Theory]
    [InlineData(250, 16)]
    [InlineData(5, 1)]
    [InlineData(17, 16)]
    public void Where_there_are_too_few_each_comes_as_often_as_every_other_or_once_more(int students, int items)
    {
        var uses = Of(Students(students), items).Values.GroupBy(i => i).Select(g => g.Count()).ToList();
        Assert.Equal(items, uses.Count);
        Assert.InRange(uses.Max() - uses.Min(), 0, 1);
    }

    [Fact]
    public void Whoever_comes_later_changes_nobodys_wherever_they_stand()
    {
        var before = Of(Students(40), 60);
        var after = Of([.. Students(60).AsEnumerable().Reverse()], 60, before);
        Assert.All(before, b => Assert.Equal(b.Value, after[b.Key]));
        Assert.Equal(60, after.Values.Distinct().Count());
    }

    /// <summary>Another seed, or another question, gives what one would guess right by chance alone.</summary>
    [Fact]
    public void Nothing_of_it_is_seen_without_the_seed()
    {
        var (mine, theirs) = (Of(Students(200), 400), Of(Students(200), 400, secret: Other));
        Assert.InRange(mine.Count(m => theirs[m.Key] == m.Value), 0, 6);
        Assert.NotEqual(mine, Allotment.Of(Secret, "r", 400, Students(200), new Dictionary<string, int>()));
    }

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
