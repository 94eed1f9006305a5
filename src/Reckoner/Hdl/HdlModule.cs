using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Hdl;

/// <summary>Something with a name and a width, and what the description calls it.</summary>
internal sealed record HdlName(string Name, int Width, string Said);

/// <summary>A register, and the word that the next clock edge gives it.</summary>
internal sealed record HdlRegister(Register Register, string Name, string Next, string Said)
{
    public int Width => Register.Width;
}

internal sealed record HdlResult(string Name, HdlWord Word);

/// <param name="Rows">What a language calls the type of all its rows.</param>
/// <param name="Cells">By address, the first index on top of it.</param>
internal sealed record HdlTable(string Name, string Rows, int Width, int AddressWidth, IReadOnlyList<BigInteger> Cells);

/// <summary>A step: what one cycle does, and what follows.</summary>
/// <param name="On">The state that follows, from a loop once it has gone round often enough.</param>
/// <param name="Again">The first step of its loop, where it is the last of a round that may not be the last; else null.</param>
/// <param name="Rounds">How often its loop goes round, at most.</param>
internal sealed record HdlState(
    string Name,
    string Said,
    IReadOnlyList<HdlStatement> Does,
    string On,
    string? Again,
    int Rounds
)
{
    /// <summary>Whether what it does is for a lab to fill in.</summary>
    public bool IsLeftOut { get; init; }
}

/// <summary>A piece that is left out for a lab to fill in: what a step does, or (null) which state follows and which round.</summary>
internal sealed record HdlGap(Step? Step)
{
    public const string Control = "control";

    /// <summary>By the names that may be asked for: those of steps, or their numbers where they have none, and "control".</summary>
    public static IReadOnlyList<(string Name, HdlGap Gap)> Of(Datapath datapath) =>
        [.. datapath.Steps.Select(s => (s.Name ?? $"{s.Number}", new HdlGap(s))), (Control, new HdlGap(Step: null))];

    public bool IsControl => Step is null;
}

/// <summary>A loop that may stop early: before each round, where its condition is not so, it is left at once.</summary>
/// <param name="First">The state before which is asked.</param>
/// <param name="Before">What must be named for the condition.</param>
internal sealed record HdlEarlyStop(string First, IReadOnlyList<HdlStatement> Before, HdlWord Goes, string On);

/// <summary>
/// A machine as hardware text describes it, before it is in one language: a clocked machine with its surround, which takes operands on
/// start, is busy while it works, and shows its results in the cycle that is called done.
/// </summary>
internal sealed record HdlModule
{
    public const string Clock = "clock";
    public const string Reset = "reset";
    public const string Start = "start";
    public const string Cancel = "cancel";
    public const string Busy = "busy";
    public const string Done = "done";

    /// <summary>The state register, and where the schedule stands once loops that stop early were left.</summary>
    public const string At = "at";
    public const string Here = "here";
    public const string ThenAt = "then_at";

    /// <summary>The round of a loop, counted from 1; what it is in this cycle; what it will be.</summary>
    public const string Round = "round";
    public const string Turn = "turn";
    public const string ThenRound = "then_round";

    /// <summary>All registers side by side, where a bench cannot look inside.</summary>
    public const string All = "all_registers";

    /// <summary>Names inside a module that are ours. No language may find one of the description's under them.</summary>
    private const string Own =
        "places now_at now_round picked one_way other_way so bit_of repeated of_one how_many all_of_them address resize "
        + "to_integer rising_edge";

    /// <summary>Those inside a bench, where ports of the module stand beside them.</summary>
    private const string OfBench =
        "device bench_over vector_lines edge_lines one_line one_digit given_bits expected_bits expected_count held_bits "
        + "is_lawful is_load cycle_count line_index line_number tried_count compared_count wrong_count unlawful_count "
        + "first_unlawful operation_count edge_count take work_on operation edge_by_edge get show the_word all_bits run "
        + "written text line read readline endfile read_mode note warning failure ns falling_edge";

    /// <summary>Every name that is not the description's to have.</summary>
    public static IReadOnlyList<string> Surround { get; } =
    [
        Clock,
        Reset,
        Start,
        Cancel,
        Busy,
        Done,
        At,
        Here,
        ThenAt,
        Round,
        Turn,
        ThenRound,
        All,
        .. Own.Split(' '),
        .. OfBench.Split(' '),
    ];

    public required Datapath Datapath { get; init; }
    public required string Name { get; init; }
    public required string Idle { get; init; }
    public required string Finished { get; init; }

    /// <summary>The state behind the load.</summary>
    public required string First { get; init; }

    public required IReadOnlyList<HdlName> Operands { get; init; }
    public required IReadOnlyList<HdlResult> Results { get; init; }
    public required IReadOnlyList<HdlRegister> Registers { get; init; }

    /// <summary>Words with a name inside one cycle.</summary>
    public required IReadOnlyList<HdlName> Words { get; init; }

    /// <summary>The same for conditions of loops, looked at before the cycle is known.</summary>
    public required IReadOnlyList<HdlName> AskedWords { get; init; }
    public required IReadOnlyList<HdlTable> Tables { get; init; }

    /// <summary>By width, a name for a word that is set into several places at once, where a language needs one.</summary>
    public required IReadOnlyDictionary<int, string> Parted { get; init; }
    public required IReadOnlyList<HdlStatement> Load { get; init; }
    public required IReadOnlyList<HdlState> States { get; init; }
    public required IReadOnlyList<HdlEarlyStop> EarlyStops { get; init; }

    /// <summary>Bits of the round counter; 0 without loops.</summary>
    public required int RoundBits { get; init; }

    /// <summary>Names that the description has and the text could not keep, with those it has instead.</summary>
    public required IReadOnlyList<(string Wanted, string Given)> Changed { get; init; }

    /// <summary>What the description reads, whether or not it is left out here.</summary>
    public HdlReads Reads
    {
        get => field ??= new HdlReads(this);
        private init;
    }

    /// <summary>What a lab is to fill in; null where nothing is left out.</summary>
    public HdlGap? Gap { get; private init; }

    /// <param name="language">Of the phrases that the description has.</param>
    public static HdlModule Of(Datapath datapath, string language) => new HdlModuling(datapath, language).Module();

    /// <summary>The same with a piece left empty, ports and widths as they are.</summary>
    public HdlModule Without(HdlGap gap) =>
        this with
        {
            Gap = gap,
            Reads = Reads,
            States =
            [
                .. States.Select((s, i) => i == gap.Step?.Number - 1 ? s with { Does = [], IsLeftOut = true } : s),
            ],
        };
}
