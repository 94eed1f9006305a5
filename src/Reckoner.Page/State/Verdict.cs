using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Slips;
using Reckoner.Words;

namespace Reckoner.Page.State;

/// <summary>What every operand of a width gave.</summary>
/// <param name="Condition">For a wrong machine, where its laws break at a small width.</param>
public sealed record Verdict(Datapath Datapath, IReadOnlyList<SectionCount> Sections, FailureCondition? Condition)
{
    public bool Holds => Sections.All(s => s.Failures.IsZero);

    /// <summary>The operands that break a law, or else another claim; null where all holds.</summary>
    public FailingCase? Smallest => Sections.Select(s => s.Smallest).FirstOrDefault(s => s is not null);

    /// <summary>Sentences, the one about the laws first.</summary>
    public IEnumerable<string> Said(Vocabulary words)
    {
        foreach (var section in Sections)
        {
            var wrong = !section.Failures.IsZero;
            yield return section.Name == "laws"
                ? Laws(section, words)
                : Sentence(
                    words.Say(
                        wrong ? $"check.{section.Name}.fail" : $"check.{section.Name}",
                        ("cases", section.Cases),
                        ("failures", section.Failures),
                        ("machine", Datapath.Machine.Followed?.Name ?? "")
                    )
                );
            if (section.Smallest is { } smallest)
            {
                yield return words.Say("page.smallest", ("operands", Operands(smallest.Operands)));
            }
            if (section.Name == "laws" && Condition is { When: { } when } found)
            {
                yield return words.Say(
                    when == Reckoner.Slips.Condition.Always ? "page.wrong-always" : "page.wrong-when",
                    ("widths", Widths(found.Datapath)),
                    ("failures", found.Failures),
                    ("cases", found.Cases),
                    ("when", SlipText.Said(when, words))
                );
            }
        }
    }

    private string Laws(SectionCount section, Vocabulary words)
    {
        if (Datapath.Laws.Count == 0)
        {
            return words.Say("walk.no-laws");
        }
        var what = words.Say(
            Datapath.Operands.Count switch
            {
                1 => "operands.single",
                2 => "operands.pairs",
                _ => "operands.sets",
            }
        );
        return words.Say(
            section.Failures.IsZero ? "page.right" : "page.wrong",
            ("cases", section.Cases),
            ("failures", section.Failures),
            ("what", Datapath.Given.Count == 0 ? what : words.Say("operands.given", ("what", what))),
            ("widths", Widths(Datapath))
        );
    }

    private static string Sentence(string said) => char.ToUpperInvariant(said[0]) + said[1..] + ".";

    public static string Widths(Datapath datapath) => WidthText.Of(datapath.Widths);

    /// <summary>"1 / 2": the numbers alone, in the order of the text.</summary>
    public string Operands(IReadOnlyList<BigInteger> bits) =>
        string.Join(", ", Datapath.Operands.Zip(bits, (o, b) => $"{o.Name} = {Bits.Text(Evaluator.Number(o, b))}"));
}

/// <summary>Runs a check's cases somewhere that does not hold up typing.</summary>
public interface ICheckRunner
{
    /// <param name="covered">Is told the share of the cases that is done.</param>
    /// <returns>Null where it was stopped.</returns>
    Task<IReadOnlyList<SectionCount>?> Run(CheckProgram program, Action<double>? covered, CancellationToken stop);
}

/// <summary>
/// The verdict over all operands, at larger and larger widths as long as the next is expected to take less than half a second.
/// </summary>
public sealed class Judgement(ICheckRunner runner, Func<TimeSpan> clock)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(0.5);

    /// <summary>Operand bits that are tried one after another.</summary>
    private static readonly int[] Rungs = [8, 16, 20, 24, 28];

    /// <summary>More cases take minutes.</summary>
    public const int MostBits = 32;

    /// <summary>Word by word, so many operand bits are no more than a moment.</summary>
    private const int MostBitsInWords = 8;

    public Verdict? Verdict { get; private set; }

    /// <summary>What each width took since the text was last changed, gates and worker included; for whoever measures.</summary>
    public IReadOnlyDictionary<string, TimeSpan> Times => times;

    private readonly Dictionary<string, TimeSpan> times = [];

    /// <summary>The share of a long run that is done; null where none is on.</summary>
    public double? Covered { get; private set; }

    /// <summary>Whether the verdict is that of the text as it stands.</summary>
    public bool IsOld { get; private set; }

    public void Age()
    {
        IsOld = Verdict is not null;
        times.Clear();
    }

    /// <param name="model">A machine that is thought to keep the laws of this one, to say in its words when they break.</param>
    /// <param name="changed">Is called after each width.</param>
    public async Task Run(Reading reading, Machines.Model? model, Action changed, CancellationToken stop)
    {
        var first = TimeSpan.Zero;
        var last = (Bits: 0, Time: TimeSpan.Zero);
        OracleUse? use = null;
        foreach (var datapath in Ladder(reading))
        {
            var bits = datapath.Operands.Sum(o => o.Width);
            // Fitting out a worker takes its time whatever the cases are, more on some machines than on others: the first
            // width, with hardly any cases, measures that, and only what grew since then is the cases'.
            var cases = last.Time > first ? last.Time - first : TimeSpan.Zero;
            if (last.Time >= 2 * Patience || cases * Math.Pow(2, bits - last.Bits) > Patience)
            {
                break;
            }
            var (sections, time, used) = await Counted(datapath, use, null, stop);
            if (sections is null || stop.IsCancellationRequested)
            {
                return;
            }
            Take(datapath, sections, model);
            changed();
            first = last.Bits == 0 ? time : first;
            // To try both ways again at each width would cost more than the better one saves.
            use ??= used;
            last = (bits, time);
        }
    }

    /// <summary>Every operand at the widths of a datapath, however long it takes.</summary>
    public async Task RunAll(Datapath datapath, Machines.Model? model, Action changed, CancellationToken stop)
    {
        Covered = 0;
        changed();
        try
        {
            var counted = await Counted(
                datapath,
                null,
                share =>
                {
                    Covered = share;
                    changed();
                },
                stop
            );
            if (counted.Sections is not null && !stop.IsCancellationRequested)
            {
                Take(datapath, counted.Sections, model);
            }
        }
        finally
        {
            Covered = null;
            changed();
        }
    }

    private void Take(Datapath datapath, IReadOnlyList<SectionCount> sections, Machines.Model? model)
    {
        var wrong = sections.Any(s => s.Name == "laws" && !s.Failures.IsZero);
        var known = IsOld ? null : Verdict?.Condition;
        Verdict = new Verdict(datapath, sections, !wrong ? null : known ?? Condition(datapath, model));
        IsOld = false;
    }

    private static FailureCondition? Condition(Datapath wrong, Machines.Model? model)
    {
        var widths = wrong.Widths.ToDictionary(w => w.Name, w => w.Value);
        return FailureCondition.Of(wrong, model?.At(widths), InterpretedEngine.Widest);
    }

    /// <summary>The machine at the largest width for each rung, at the widths that were set besides the main one.</summary>
    private static IEnumerable<Datapath> Ladder(Reading reading)
    {
        if (reading.Datapath is not { } chosen || chosen.Widths.Count == 0)
        {
            yield break;
        }
        var main = chosen.Widths[0].Name;
        var widths = reading.ChosenWidths.ToDictionary();
        var seen = BigInteger.Zero;
        foreach (var rung in Rungs)
        {
            widths.Remove(main);
            if (OperandWidths.Largest(reading.Machine, widths, rung) is { } width && width > seen)
            {
                seen = width;
                widths[main] = width;
                if (reading.Machine.At(widths).Datapath is { } datapath)
                {
                    yield return datapath;
                }
            }
        }
    }

    /// <param name="use">How the expectation is formed; null for the way that takes fewer gates.</param>
    private async Task<(IReadOnlyList<SectionCount>? Sections, TimeSpan Time, OracleUse Used)> Counted(
        Datapath datapath,
        OracleUse? use,
        Action<double>? covered,
        CancellationToken stop
    )
    {
        var asked = clock();
        var followed = CheckProgram.Followed(datapath);
        var program = use is { } known
            ? CheckProgram.IfGates(datapath, followed, known)
            : CheckProgram.OfFewestGates(datapath, followed);
        if (program is not null)
        {
            var began = clock();
            var sections = await runner.Run(program, covered, stop);
            times[State.Verdict.Widths(datapath)] = clock() - asked;
            return (sections, clock() - began, program.Oracle is null ? OracleUse.Written : OracleUse.Stepped);
        }
        var check = new WordCheck(datapath, followed);
        return check.Space.Bits > MostBitsInWords
            ? (null, TimeSpan.Zero, OracleUse.Written)
            : (check.Run(0, check.Space.Steps, null, stop).Counts, Patience, OracleUse.Written);
    }
}
