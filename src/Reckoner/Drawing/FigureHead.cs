using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>The two lines above a figure, what is drawn and for what, and the sizes of text that all figures share.</summary>
internal static class FigureHead
{
    public const double TitleSize = 24;
    public const double TextSize = 18;
    private const double FirstLine = 42;
    private const double SecondLine = 68;

    public static string Title(Datapath datapath, Vocabulary words) =>
        datapath.Machine.Title?.In(words.Language) ?? datapath.Machine.Name;

    /// <summary>The operands with their numbers.</summary>
    public static string Given(Walk walk, Vocabulary words) =>
        string.Join(
            words.Say("walk.between-names"),
            walk.Datapath.Operands.Select(o =>
                $"{o.In(words.Language)} = {Bits.Text(o.Number(walk.Operands[o.Index]))}"
            )
        );

    /// <summary>The results with theirs.</summary>
    public static string Gives(Walk walk, Vocabulary words) =>
        string.Join(
            words.Say("walk.between-names"),
            walk.Datapath.Results.Zip(
                walk.Results,
                (r, bits) => $"{r.In(words.Language)} = {Bits.Text(r.Number(bits))}"
            )
        );

    public static IEnumerable<Text> Of(string title, string second) =>
        [
            Line(title, FirstLine, Face.Bold, TitleSize, Role.Ink),
            Line(second, SecondLine, Face.Plain, TextSize, Role.Quiet),
        ];

    /// <summary>The title alone, where nothing is the same for all that is below.</summary>
    public static Text Of(string title) => Line(title, FirstLine, Face.Bold, TitleSize, Role.Ink);

    private static Text Line(string words, double baseline, Face face, double size, Role ink) =>
        new(words, new Point(WeaveGrid.Margin, baseline), Anchor.Start, face, size, ink, Role.Ground, null);
}
