using Reckoner.Documents.Lessons;

namespace Reckoner.Cli;

/// <summary>What verbs are for; the help shows them in this order.</summary>
internal enum VerbGroup
{
    /// <summary>To see what a machine is and does.</summary>
    See,

    /// <summary>To know what holds for every operand.</summary>
    Sure,

    /// <summary>To teach with it.</summary>
    Teach,

    /// <summary>What stands around all that: help, shells, editors.</summary>
    Around,
}

/// <summary>Answers a request of a lesson. A type of its own: to make the table of verbs, nothing of answers is then loaded.</summary>
internal delegate RequestAnswer? Answering(LessonAsking asking);

/// <summary>Something that reckoner does.</summary>
/// <param name="Usage">The words behind the verb, as the help shows them.</param>
/// <param name="Formats">What --format may ask for; the first is the default.</param>
/// <param name="TakesMachine">Whether the first word names a machine.</param>
/// <param name="TakesOperands">Whether further words are operands.</param>
/// <param name="Run">Does it; gives the exit status.</param>
internal sealed record Verb(
    string Name,
    string Usage,
    IReadOnlyList<Option> Own,
    IReadOnlyList<string> Formats,
    bool TakesMachine,
    bool TakesOperands,
    Func<Session, Request, int> Run
)
{
    /// <summary>The feature list.</summary>
    public static readonly IReadOnlyList<Verb> All =
    [
        new("list", "", [Option.Format], ["text", "json"], false, false, ListVerb.Run) { Answer = ListVerb.Answer },
        new(
            "show",
            "MACHINE",
            [Option.Width, Option.Hardware, Option.Dump, Option.Format],
            ["text", "json"],
            true,
            false,
            ShowVerb.Run
        )
        {
            Answer = ShowVerb.Answer,
        },
        new(
            "walk",
            "MACHINE OPERANDS",
            [Option.Width, Option.Invariant, Option.Anyway, Option.Reasons, Option.Format, Option.Style],
            WalkVerb.Formats,
            true,
            true,
            WalkVerb.Run
        )
        {
            Answer = WalkVerb.Answer,
        },
        new(
            "compare",
            "MACHINE MACHINE OPERANDS",
            [Option.Width, Option.Anyway, Option.Format, Option.Style],
            TableFormat.Names,
            true,
            true,
            CompareVerb.Run
        )
        {
            TakesMachines = true,
            Answer = CompareVerb.Answer,
        },
        new(
            "states",
            "MACHINE",
            [Option.Width, Option.Format, Option.Style],
            TableFormat.Names,
            true,
            false,
            StatesVerb.Run
        )
        {
            Answer = StatesVerb.Answer,
        },
        new(
            "cost",
            "MACHINE",
            [
                Option.Width,
                Option.Adder,
                Option.Clock,
                Option.Model,
                Option.Activity,
                Option.Sample,
                Option.Seed,
                Option.Format,
            ],
            TableFormat.Names,
            true,
            false,
            CostVerb.Run
        )
        {
            TakesMachines = true,
            Answer = CostVerb.Answer,
        },
        new(
            "check",
            "MACHINE",
            [
                Option.Width,
                Option.Only,
                Option.Sample,
                Option.Seed,
                Option.On,
                Option.Part,
                Option.MostParts,
                Option.Resume,
                Option.AddUp,
                Option.Averages,
                Option.Written,
                Option.Format,
            ],
            ["text", "json"],
            true,
            false,
            CheckVerb.Run
        )
        {
            Group = VerbGroup.Sure,
            Answer = CheckVerb.Answer,
        },
        new(
            "prove",
            "MACHINE",
            [Option.Width, Option.Proposed, Option.Format],
            ["text", "json", ProveVerb.Certificate],
            true,
            false,
            ProveVerb.Run
        )
        {
            Group = VerbGroup.Sure,
            Answer = ProveVerb.Answer,
        },
        new("verify", "FILE MACHINE", [Option.Format], ["text", "json"], true, false, VerifyVerb.Run)
        {
            Group = VerbGroup.Sure,
            TakesFile = true,
        },
        new(
            "idle",
            "MACHINE",
            [Option.Width, Option.ByStructure, Option.Format],
            ["text", "json"],
            true,
            false,
            IdleVerb.Run
        )
        {
            Group = VerbGroup.Sure,
            Answer = IdleVerb.Answer,
        },
        new(
            "slips",
            "MACHINE",
            [Option.Width, Option.Sample, Option.Seed, Option.Quick, Option.Prove, Option.Format],
            ["text", "json"],
            true,
            false,
            SlipsVerb.Run
        )
        {
            Group = VerbGroup.Sure,
            Answer = SlipsVerb.Answer,
        },
        new(
            "refine",
            "MACHINE",
            [Option.Width, Option.All, Option.Take, Option.Prove, Option.Format],
            TableFormat.Names,
            true,
            false,
            RefineVerb.Run
        )
        {
            Group = VerbGroup.Sure,
            TakesMachines = true,
            Answer = RefineVerb.Answer,
        },
        new(
            "draw",
            "MACHINE VIEW OPERANDS",
            [
                Option.Style,
                Option.Width,
                Option.Ground,
                Option.Text,
                Option.Cycle,
                Option.From,
                Option.To,
                Option.OneByOne,
                Option.Blank,
                Option.Base,
                Option.Layout,
                Option.Reasons,
                Option.Size,
                Option.Invariant,
                Option.Adder,
                Option.Anyway,
            ],
            [],
            true,
            true,
            DrawVerb.Run
        )
        {
            TakesMachines = true,
            TakesView = true,
            Answer = DrawVerb.Answer,
        },
        new(
            "operands",
            "MACHINE",
            [
                Option.Width,
                Option.Showing,
                Option.Exposing,
                Option.TellingApart,
                Option.Count,
                Option.Repeats,
                Option.Neighbours,
                Option.Allow,
                Option.Again,
                Option.Best,
                Option.Sample,
                Option.Seed,
                Option.Format,
            ],
            ["text", "json"],
            true,
            false,
            OperandsVerb.Run
        )
        {
            Group = VerbGroup.Teach,
            Answer = OperandsVerb.Answer,
        },
        new(
            "hdl",
            "MACHINE",
            [Option.Width, Option.LeaveOut, Option.AsBuilt, Option.Adder, Option.Format],
            HdlVerb.Formats,
            true,
            false,
            HdlVerb.Run
        )
        {
            Group = VerbGroup.Teach,
            WritesFolder = true,
            Answer = HdlVerb.Answer,
        },
        new(
            "lesson",
            "FILE",
            [
                Option.Class,
                Option.Copies,
                Option.Again,
                Option.Changed,
                Option.Quiz,
                Option.Refresh,
                Option.Watch,
                Option.Port,
                Option.NoBrowser,
            ],
            [],
            false,
            false,
            LessonVerb.Run
        )
        {
            Group = VerbGroup.Teach,
            TakesFile = true,
        },
        new(
            "why",
            "MACHINE OPERANDS",
            [Option.Got, Option.Table, Option.Width, Option.Format],
            ["text", "json"],
            true,
            true,
            WhyVerb.Run
        )
        {
            Group = VerbGroup.Teach,
            Answer = WhyVerb.Answer,
        },
        new(
            "mark",
            "FOLDER MACHINE OPERANDS",
            [
                Option.Answers,
                Option.Scheme,
                Option.Withdrawn,
                Option.Class,
                Option.Key,
                Option.Task,
                Option.Width,
                Option.Format,
            ],
            [.. TableFormat.All.Select(f => f.Name)],
            true,
            true,
            MarkVerb.Run
        )
        {
            Group = VerbGroup.Teach,
            TakesFile = true,
            MayLackMachine = true,
            WritesFolder = true,
        },
        new("open", "", [Option.Port, Option.NoBrowser], [], false, false, OpenVerb.Run) { Group = VerbGroup.Teach },
        new("completions", "SHELL", [Option.Line], [], false, false, CompletionsVerb.Run)
        {
            Group = VerbGroup.Around,
            TakesTopic = true,
        },
        new("language-server", "", [], [], false, false, LanguageServerVerb.Run)
        {
            Group = VerbGroup.Around,
            Shared = [Option.Language, Option.Help],
        },
        new("help", "WORD", [Option.Version, Option.Format], ["text", HelpVerb.Manual], false, false, HelpVerb.Run)
        {
            Group = VerbGroup.Around,
            TakesTopic = true,
        },
    ];

    /// <summary>
    /// What a lesson shows of it: its answer as data, with the tables in the style given. Null for a verb that answers nothing, and
    /// from it when something is wrong, which has been said.
    /// </summary>
    public Answering? Answer { get; init; }

    /// <summary>Below which heading the help shows it.</summary>
    public VerbGroup Group { get; init; }

    /// <summary>Whether the word behind it is something to be explained.</summary>
    public bool TakesTopic { get; init; }

    /// <summary>Whether the word behind the machine names a view.</summary>
    public bool TakesView { get; init; }

    /// <summary>Whether -o names a folder, in which several files are written.</summary>
    public bool WritesFolder { get; init; }

    /// <summary>Whether several machines stand before the operands.</summary>
    public bool TakesMachines { get; init; }

    /// <summary>Whether the first word names a file to work on.</summary>
    public bool TakesFile { get; init; }

    /// <summary>Whether an option may say what the machine and the file say otherwise.</summary>
    public bool MayLackMachine { get; init; }

    /// <summary>Options that it shares with every verb.</summary>
    public IReadOnlyList<Option> Shared { get; init; } = Option.Common;

    public IEnumerable<Option> Options => (TakesMachine ? Own.Append(Option.Slip) : Own).Concat(Shared);
}
