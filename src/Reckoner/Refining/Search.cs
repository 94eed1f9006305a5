using System.Numerics;
using Reckoner.Binding;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Timelines;

namespace Reckoner.Refining;

/// <summary>
/// Finds versions of a machine step by step, every one cheaper than the one before it. What a move makes is tried with operands at
/// widths on both sides of powers of two before anything is made of it; laws are not asked, since the first version keeps them and
/// every other must give what it gives.
/// </summary>
internal sealed class Search
{
    private readonly Workshop workshop;
    private readonly IReadOnlyDictionary<string, BigInteger> widths;
    private readonly Func<bool> isSpent;
    private readonly HashSet<string> texts = [];
    private readonly HashSet<string> layouts = [];
    private readonly List<Version> versions = [];

    private Search(Workshop workshop, IReadOnlyDictionary<string, BigInteger> widths, Func<bool> isSpent)
    {
        this.workshop = workshop;
        this.widths = widths;
        this.isSpent = isSpent;
    }

    /// <summary>How many descriptions moves made that were not known.</summary>
    public int Made { get; private set; }

    /// <summary>How many of them were tried.</summary>
    public int Tried { get; private set; }

    public bool IsComplete { get; private set; } = true;

    /// <summary>The first version, then what was found, those of fewer steps first.</summary>
    public IReadOnlyList<Version> Versions => versions;

    /// <param name="datapath">The machine at the widths at which costs are compared.</param>
    /// <param name="isSpent">Whether to end; what was found by then is kept.</param>
    /// <param name="isWanted">Ends the search once it has found such a version; null to go on.</param>
    public static Search Of(
        Workshop workshop,
        Datapath datapath,
        int depth,
        Func<bool> isSpent,
        Func<Version, bool>? isWanted = null
    )
    {
        var search = new Search(workshop, datapath.Widths.ToDictionary(w => w.Name, w => w.Value), isSpent);
        search.Run(datapath, depth, isWanted);
        return search;
    }

    /// <summary>The version that was wanted; null where none was, or was found.</summary>
    public Version? Found { get; private set; }

    private void Run(Datapath datapath, int depth, Func<Version, bool>? isWanted)
    {
        var draft = Draft.Of(workshop.Machine.Description);
        var stops = StopsEarly(draft) ? Mean(workshop.Machine, workshop.Machine) : null;
        var first = new Version(null, [], draft, workshop.Machine, Measure.Of(datapath, draft), stops);
        versions.Add(first);
        texts.Add(draft.Text);
        layouts.Add(Layout(first.Draft, first.Measure));
        List<Version> level = [first];
        Found = isWanted?.Invoke(first) == true ? first : null;
        for (var step = 1; step <= depth && level.Count > 0 && IsComplete && Found is null; step++)
        {
            level = [.. Next(level).Select(Told)];
            versions.AddRange(level);
            layouts.UnionWith(level.Select(v => Layout(v.Draft, v.Measure)));
            Found = isWanted is null ? null : level.Find(v => isWanted(v));
        }
    }

    private static bool StopsEarly(Draft draft) => draft.Schedule.OfType<RepeatBlock>().Any(r => r.While is not null);

    /// <summary>The plainest version of each layout that one step leads to.</summary>
    private IEnumerable<Version> Next(List<Version> level)
    {
        var found = new Dictionary<string, (Version Version, (int, int) Plainness)>();
        foreach (var before in level)
        {
            foreach (var late in new[] { false, true })
            {
                var any = false;
                foreach (
                    var candidate in Move.All.Where(m => m.IsLast == late).SelectMany(m => m.Of(workshop, before.Draft))
                )
                {
                    if (isSpent())
                    {
                        IsComplete = false;
                        return found.Values.Select(f => f.Version);
                    }
                    any |= Take(before, candidate, found);
                }
                if (any)
                {
                    break;
                }
            }
        }
        return found.Values.Select(f => f.Version);
    }

    /// <summary>Whether it leads somewhere, here or to a layout that is known from a plainer version.</summary>
    private bool Take(
        Version before,
        Candidate candidate,
        Dictionary<string, (Version Version, (int, int) Plainness)> found
    )
    {
        var text = candidate.Draft.Text;
        if (!texts.Add(text))
        {
            return false;
        }
        Made++;
        if (Built(text) is not var (machine, datapath))
        {
            return false;
        }
        var measure = Measure.Of(datapath, candidate.Draft);
        MeanCycles? mean = null;
        if (candidate.Move == MoveKind.Skip)
        {
            mean = IsRight(machine) ? Mean(machine, before.Machine) : null;
            if (mean is not { IsWorthwhile: true })
            {
                return false;
            }
        }
        else if (!measure.IsBetterThan(before.Measure))
        {
            return false;
        }
        var layout = Layout(candidate.Draft, measure);
        var plainness = (measure.Choices, text.Length);
        if (
            layouts.Contains(layout)
            && !(layout == Layout(before.Draft, before.Measure) && measure.Choices < before.Measure.Choices)
        )
        {
            return false;
        }
        if (found.TryGetValue(layout, out var known) && known.Plainness.CompareTo(plainness) <= 0)
        {
            return true;
        }
        if (mean is null && !IsRight(machine))
        {
            return false;
        }
        if (StopsEarly(candidate.Draft))
        {
            mean ??= Mean(machine, before.Machine);
        }
        var step = new RefiningStep(candidate.Move, Sizes.Told(workshop, before.Draft, candidate));
        found[layout] = (
            new Version(before, [.. before.Steps, step], candidate.Draft, machine, measure, mean),
            plainness
        );
        return true;
    }

    /// <summary>The version as one would tell it, if that is as right.</summary>
    private Version Told(Version version)
    {
        var told = ForReaders.Of(workshop, version.Draft);
        if (told.Text == version.Draft.Text)
        {
            return version with { Draft = told };
        }
        return Built(told.Text) is var (machine, datapath) && IsRight(machine)
            ? version with
            {
                Draft = told,
                Machine = machine,
                Measure = Measure.Of(datapath, told),
            }
            : version;
    }

    private (IMachine Machine, Datapath Datapath)? Built(string text)
    {
        IMachine machine = Machine.Read(new Source("", text), _ => null);
        return
            machine.Found.Any(d => d.Severity == Diagnostics.Severity.Error) || machine.Built(widths) is not { } built
            ? null
            : (machine, built);
    }

    private bool IsRight(IMachine machine)
    {
        Tried++;
        return workshop.Cases.Count > 0 && workshop.Cases.All(c => c.IsSame(machine));
    }

    /// <summary>What tells versions apart for somebody who builds them: registers, adders, cycles, and when they stop.</summary>
    private static string Layout(Draft draft, Measure measure) =>
        string.Join(';', draft.Registers.Select(r => $"{r.Name} {r.Type.Width}").Order(StringComparer.Ordinal))
        + $"|{measure.AdderBits}|{measure.Cycles}|"
        + draft.Schedule.OfType<RepeatBlock>().FirstOrDefault(r => r.While is not null)?.While;

    /// <summary>Cycles on average over all operands at the widest width that is tried with all; null where there is none.</summary>
    private MeanCycles? Mean(IMachine machine, IMachine before) =>
        workshop.Cases.LastOrDefault(c => c.IsAll) is { Operands.Length: > 0 } cases
        && Mean(machine, cases) is var (now, most)
        && Mean(before, cases) is var (earlier, _)
        && Mean(workshop.Machine, cases) is var (first, _)
            ? new MeanCycles(now, earlier, first, most, cases.Datapath.Widths)
            : null;

    private static (double Mean, int Most)? Mean(IMachine machine, CaseSet cases)
    {
        if (Settings.Same(machine, cases.Datapath) is not { } datapath)
        {
            return null;
        }
        var timeline = Timeline.Of(datapath);
        int[] active = [.. timeline.Edges.Select(e => e.Active)];
        if (WordCode.Of(timeline.Graph, active) is not { } code)
        {
            return null;
        }
        var (sum, bits) = (0L, new ulong[active.Length]);
        foreach (var operands in cases.Operands)
        {
            code.Run(operands, bits);
            foreach (var bit in bits)
            {
                sum += (long)bit;
            }
        }
        return ((double)sum / cases.Operands.Length, datapath.MostCycles);
    }
}
