namespace Reckoner.Numbers;

/// <summary>Five bits as a letter that people read and type: digits and capitals without I, L, O and U, which are taken for others.</summary>
internal static class TypedLetters
{
    private const string Letters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

    public const int BitsOfOne = 5;

    /// <param name="value">0 to 31.</param>
    public static char Of(int value) => Letters[value];

    /// <summary>-1 for what is none; a letter that is taken for another counts as that.</summary>
    public static int Value(char typed) =>
        char.ToUpperInvariant(typed) switch
        {
            'O' => 0,
            'I' or 'L' => 1,
            var letter => Letters.IndexOf(letter, StringComparison.Ordinal),
        };
}
