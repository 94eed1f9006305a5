namespace Reckoner.Drawing;

/// <summary>What those hear who cannot see the figure of a walk. It says no more than what stands there: no result in an exercise.</summary>
internal static class FigureDescription
{
    /// <param name="what">What kind of figure it is, in sentences.</param>
    /// <param name="given">The operands with their numbers.</param>
    /// <param name="gives">The results with theirs; they are told where the figure shows the end of the walk.</param>
    public static string Of(Figure figure, string what, string given, string? gives)
    {
        var words = figure.Words;
        var cycles = Cycles(figure);
        var shown =
            gives is not null && figure.ShowsResults
                ? words.Say("figure.shown-with-results", ("operands", given), ("cycles", cycles), ("results", gives))
                : words.Say("figure.shown", ("operands", given), ("cycles", cycles));
        return Blank(figure, $"{what} {shown}");
    }

    /// <summary>Adds, where it is so, that cells are to be filled in.</summary>
    public static string Blank(Figure figure, string said) =>
        figure.IsBlank ? $"{said} {figure.Words.Say("figure.to-fill-in")}" : said;

    private static string Cycles(Figure figure)
    {
        var (words, count) = (figure.Words, figure.Walk.Cycles);
        return (figure.From, figure.Until) switch
        {
            (0, 0) => words.Say("figure.at-load"),
            (0, var until) when until == count => words.Say("figure.still", ("cycles", count)),
            var (from, until) when from == until => words.Say("figure.at-cycle", ("cycle", until)),
            var (from, until) => words.Say("figure.cycles-shown", ("from", from), ("to", until), ("count", count)),
        };
    }
}
