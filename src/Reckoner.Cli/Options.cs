namespace Reckoner.Cli;

/// <summary>What options are about; the help shows them in this order.</summary>
internal enum OptionGroup
{
    /// <summary>Which machine, and how wide.</summary>
    Machine,

    /// <summary>What is asked of it.</summary>
    Asked,

    /// <summary>How that is shown.</summary>
    Look,

    /// <summary>What becomes of the result.</summary>
    Result,
}

/// <summary>An option: a long word, with or without a value behind it.</summary>
/// <param name="Example">A value as one would write it; null for an option that takes none.</param>
/// <param name="Group">Below which heading the help shows it.</param>
internal sealed record Option(string Name, string? Example, OptionGroup Group = OptionGroup.Asked)
{
    public static readonly Option Width = new("--width", "8", OptionGroup.Machine);
    public static readonly Option Format = new("--format", "json", OptionGroup.Result);
    public static readonly Option Style = new("--style", "FILE", OptionGroup.Look);
    public static readonly Option Reasons = new("--reasons", "full", OptionGroup.Look);
    public static readonly Option Language = new("--language", "en", OptionGroup.Result);
    public static readonly Option Output = new("-o", "FILE", OptionGroup.Result);
    public static readonly Option Overwrite = new("--overwrite", null, OptionGroup.Result);
    public static readonly Option Hardware = new("--hardware", null, OptionGroup.Look);
    public static readonly Option Dump = new("--dump", "timeline", OptionGroup.Look);
    public static readonly Option Anyway = new("--anyway", null, OptionGroup.Machine);
    public static readonly Option Sample = new("--sample", "100000");
    public static readonly Option Seed = new("--seed", "1");
    public static readonly Option Part = new("--part", "1/8");
    public static readonly Option MostParts = new("--most-parts", null);
    public static readonly Option Only = new("--only", "FORMULA");
    public static readonly Option On = new("--on", "gpu");
    public static readonly Option Resume = new("--resume", "FILE");
    public static readonly Option AddUp = new("--add-up", null);
    public static readonly Option Written = new("--written", null);
    public static readonly Option Averages = new("--averages", null);
    public static readonly Option ByStructure = new("--by-structure", null);
    public static readonly Option Slip = new("--slip", "NAME", OptionGroup.Machine);
    public static readonly Option Showing = new("--showing", "CONDITION");
    public static readonly Option Invariant = new("--invariant", null);
    public static readonly Option Proposed = new("--invariant", "FORMULA");
    public static readonly Option Exposing = new("--exposing", "all");
    public static readonly Option TellingApart = new("--telling-apart", null);
    public static readonly Option Count = new("--count", "4");
    public static readonly Option Repeats = new("--repeats", null);
    public static readonly Option Neighbours = new("--neighbours", null);
    public static readonly Option Allow = new("--allow", "power-of-two");
    public static readonly Option Again = new("--again", null);
    public static readonly Option Best = new("--best", "5");
    public static readonly Option Prove = new("--prove", null);
    public static readonly Option Quick = new("--quick", null);
    public static readonly Option LeaveOut = new("--leave-out", "STEP");
    public static readonly Option Adder = new("--adder", "ripple");
    public static readonly Option Clock = new("--clock", "40");
    public static readonly Option AsBuilt = new("--as-built", null);
    public static readonly Option Activity = new("--activity", null);
    public static readonly Option Model = new("--model", "FILE");
    public static readonly Option All = new("--all", null);
    public static readonly Option Take = new("--take", "1", OptionGroup.Result);
    public static readonly Option Ground = new("--ground", "dark", OptionGroup.Look);
    public static readonly Option Text = new("--text", "outlines", OptionGroup.Look);
    public static readonly Option Cycle = new("--cycle", "3", OptionGroup.Look);
    public static readonly Option From = new("--from", "0", OptionGroup.Look);
    public static readonly Option To = new("--to", "5", OptionGroup.Look);
    public static readonly Option Base = new("--base", "10", OptionGroup.Look);
    public static readonly Option Layout = new("--layout", "colon", OptionGroup.Look);
    public static readonly Option Size = new("--size", "16:9", OptionGroup.Look);
    public static readonly Option Blank = new("--blank", null, OptionGroup.Look);
    public static readonly Option OneByOne = new("--one-by-one", null, OptionGroup.Look);
    public static readonly Option Port = new("--port", "8400", OptionGroup.Result);
    public static readonly Option NoBrowser = new("--no-browser", null, OptionGroup.Result);
    public static readonly Option Refresh = new("--refresh", null, OptionGroup.Result);
    public static readonly Option Watch = new("--watch", null, OptionGroup.Result);
    public static readonly Option Class = new("--class", "CLASS.csv");
    public static readonly Option Copies = new("--copies", "30");
    public static readonly Option Changed = new("--changed", null);
    public static readonly Option Quiz = new("--quiz", "qti");
    public static readonly Option Got = new("--got", "product=-16");
    public static readonly Option Table = new("--table", "FILE");
    public static readonly Option Answers = new("--answers", "answers.json");
    public static readonly Option Scheme = new("--scheme", "follow-through");
    public static readonly Option Withdrawn = new("--withdrawn", "3");
    public static readonly Option Key = new("--key", "COLUMN", OptionGroup.Result);
    public static readonly Option Task = new("--task", "LINK");
    public static readonly Option Line = new("--line", "TEXT");
    public static readonly Option Version = new("--version", null, OptionGroup.Result);
    public static readonly Option Help = new("--help", null, OptionGroup.Result) { Short = "-h" };

    /// <summary>Options that every verb takes.</summary>
    public static readonly IReadOnlyList<Option> Common = [Language, Output, Overwrite, Help];

    /// <summary>Its name without hyphens, by which the words and the help know it.</summary>
    public string Word => Name.TrimStart('-');

    /// <summary>One letter that says the same; null for most.</summary>
    public string? Short { get; private init; }

    public bool TakesValue => Example is not null;
}
