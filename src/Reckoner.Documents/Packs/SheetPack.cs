using Reckoner.Documents.Lessons;

namespace Reckoner.Documents.Packs;

/// <summary>Every file of the sheets of a class: what is handed out, and what is kept.</summary>
internal static class SheetPack
{
    public const string HandedOut = "sheets";
    public const string Kept = "keep";

    /// <summary>What a later run, and marking, begin with.</summary>
    public const string Answers = $"{Kept}/answers.json";

    /// <summary>Within the folder of sheets, that of a second sheet for each.</summary>
    public const string Again = "again";

    /// <summary>The forms in which each sheet is handed out.</summary>
    public static IReadOnlyList<string> Endings { get; } = ["pdf", "html", "xlsx", "csv"];

    /// <summary>
    /// Paths are those from the pack's folder, with slashes. Files are to be made in their order, each once: a sheet is in memory only
    /// while its files are made, however many there are.
    /// </summary>
    /// <exception cref="SheetRefusedException">While they are made.</exception>
    public static IReadOnlyList<(string Path, Action<Stream> Write)> Files(SheetsOfClass all)
    {
        var making = new SheetMaking(all);
        var files = new List<(string, Action<Stream>)>();
        for (var volume = 0; volume < Volumes(all.Sheets.Count); volume++)
        {
            var first = volume * SheetMaking.Volume;
            for (var i = first; i < Math.Min(first + SheetMaking.Volume, all.Sheets.Count); i++)
            {
                var sheet = i;
                files.AddRange(
                    Endings.Select(
                        (ending, form) =>
                            (
                                $"{HandedOut}/{all.Sheets[sheet].Number.Plain}.{ending}",
                                (Action<Stream>)(stream => stream.Write(making.File(sheet, form)))
                            )
                    )
                );
            }
            var papers = OfVolume(volume);
            files.Add((papers[0], stream => stream.Write(making.Papers(Edition.Blank))));
            files.Add((papers[1], stream => stream.Write(making.Papers(Edition.Key))));
        }
        files.Add(($"{Kept}/class-key.pdf", stream => stream.Write(making.ClassKey())));
        files.Add((Answers, making.Answers));
        return files;
    }

    /// <summary>In how many files for the printer so many sheets stand.</summary>
    public static int Volumes(int sheets) => (sheets + SheetMaking.Volume - 1) / SheetMaking.Volume;

    /// <summary>The papers of such a file, from 0: to hand out, and the key.</summary>
    public static IReadOnlyList<string> OfVolume(int volume)
    {
        var behind = volume == 0 ? "" : FormattableString.Invariant($"-{volume + 1}");
        return [$"{HandedOut}/sheets{behind}.pdf", $"{Kept}/marks-key{behind}.pdf"];
    }
}
