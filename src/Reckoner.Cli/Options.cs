namespace Reckoner.Cli;

/// <summary>An option: a long word, with or without a value behind it.</summary>
/// <param name="Example">A value as one would write it; null for an option that takes none.</param>
internal sealed record Option(string Name, string? Example)
{
    public static readonly Option Width = new("--width", "8");
    public static readonly Option Format = new("--format", "json");
    public static readonly Option Style = new("--style", "FILE");
    public static readonly Option Language = new("--language", "en");
    public static readonly Option Output = new("-o", "FILE");
    public static readonly Option Overwrite = new("--overwrite", null);
    public static readonly Option Hardware = new("--hardware", null);
    public static readonly Option Dump = new("--dump", "timeline");
    public static readonly Option Anyway = new("--anyway", null);
    public static readonly Option Sample = new("--sample", "100000");
    public static readonly Option Seed = new("--seed", "1");
    public static readonly Option Part = new("--part", "1/8");
    public static readonly Option MostParts = new("--most-parts", null);
    public static readonly Option Resume = new("--resume", "FILE");
    public static readonly Option AddUp = new("--add-up", null);
    public static readonly Option Written = new("--written", null);
    public static readonly Option Averages = new("--averages", null);
    public static readonly Option ByStructure = new("--by-structure", null);
    public static readonly Option Slip = new("--slip", "NAME");
    public static readonly Option Showing = new("--showing", "CONDITION");
    public static readonly Option Exposing = new("--exposing", "all");
    public static readonly Option TellingApart = new("--telling-apart", null);
    public static readonly Option Count = new("--count", "4");
    public static readonly Option Repeats = new("--repeats", null);
    public static readonly Option Best = new("--best", "5");
    public static readonly Option Quick = new("--quick", null);
    public static readonly Option Ground = new("--ground", "dark");
    public static readonly Option Text = new("--text", "outlines");
    public static readonly Option Cycle = new("--cycle", "3");
    public static readonly Option From = new("--from", "0");
    public static readonly Option To = new("--to", "5");
    public static readonly Option Base = new("--base", "10");
    public static readonly Option Layout = new("--layout", "colon");
    public static readonly Option Blank = new("--blank", null);
    public static readonly Option OneByOne = new("--one-by-one", null);
    public static readonly Option Port = new("--port", "8400");
    public static readonly Option NoBrowser = new("--no-browser", null);
    public static readonly Option Refresh = new("--refresh", null);
    public static readonly Option Help = new("--help", null);

    /// <summary>Options that every verb takes.</summary>
    public static readonly IReadOnlyList<Option> Common = [Language, Output, Overwrite, Help];

    public bool TakesValue => Example is not null;
}
