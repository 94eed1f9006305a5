namespace Reckoner.Tests;

/// <summary>What authors put between quotes: plain, long, in several languages, with letters that other formats reserve.</summary>
internal sealed class RandomPhrases(Random random)
{
    private static readonly string[] Odd =
    [
        "50 % of $x_1 & <b>, #2 ~ ^ \\end{it}",
        "{brace} | bar `tick` *star* [link](to) -- 'quote'",
        "größer als Ω, 数, é",
        "=1+1",
        "a; b, c\\",
        "]]> &amp; <!-- no -->",
    ];

    /// <summary>These words or stranger ones; a place for a number in them stays.</summary>
    public string Quoted(string words)
    {
        var place = words.Contains("{}", StringComparison.Ordinal) ? "{} " : "";
        var said = random.Next(6) == 0 ? place + Odd[random.Next(Odd.Length)] : words;
        return $"\"{said}\"" + (random.Next(4) == 0 ? $" de \"auf Deutsch: {said}\"" : "");
    }

    /// <summary>A phrase behind a name, or none.</summary>
    public string Maybe(string words) => random.Next(3) == 0 ? " " + Quoted(words) : "";

    public string Comment() => random.Next(12) == 0 ? "  -- a remark" : "";
}
