using Reckoner.Checking;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;

namespace Reckoner.Questions;

/// <summary>
/// The notes of a check from which a later run goes on: what an earlier run left, and what this one adds while it goes through its
/// widths. They are kept outside, as <see cref="Means.Keep"/> does it.
/// </summary>
internal sealed class CheckNotes(CheckQuestion question, IReadOnlyList<Datapath> datapaths, Truth? only, Means means)
{
    private readonly List<CoveredWidth> covered = [];

    public bool AreKept => means.Keep is not null;

    /// <summary>Keeps what there is before the work begins; else the findings say why that cannot be done.</summary>
    public bool Begin(Findings found)
    {
        if (question.Resumed is { } left)
        {
            var about = About([.. left.Covered.Zip(datapaths, (c, d) => c with { Widths = d.Widths })]);
            var isLonger = left.Covered.Count > datapaths.Count;
            if ((left.Differs(about) ?? (isLonger ? "width" : null)) is { } field)
            {
                AddDiffers(found, field);
                return false;
            }
            covered.AddRange(left.Covered);
        }
        if (means.Keep?.Invoke(About(covered)) is { } refusal)
        {
            found.AddRange([new Finding(refusal, AskedPart.Resume)]);
            return false;
        }
        return true;
    }

    public WidthNotes At(int index) => new(this, index);

    internal CoveredSteps? Left(int index, SteppedCheck check, CaseSpace space, Findings found)
    {
        var nothing = Of(index, space, check.AtBegin, check.From, 0);
        if (index == covered.Count)
        {
            covered.Add(nothing);
        }
        var left = covered[index];
        var counts = left.Sections.Select(s => s.Counted(space)).ToList();
        var isOutside = counts.Contains(null) || left.To < left.From || left.To > check.To;
        if ((left.Differs(nothing) ?? (isOutside ? "steps" : null)) is { } field)
        {
            AddDiffers(found, field);
            return null;
        }
        return new CoveredSteps(left.To, [.. counts.Select(c => c!)], left.Method);
    }

    internal double Seconds(int index) => index < covered.Count ? covered[index].Seconds : 0;

    internal void Note(int index, CoveredSteps steps, CaseSpace space, double seconds)
    {
        covered[index] = Of(index, space, steps, covered[index].From, seconds);
        means.Keep?.Invoke(About(covered));
    }

    private CoveredWidth Of(int index, CaseSpace space, CoveredSteps steps, long from, double seconds) =>
        new(
            datapaths[index].Widths,
            from,
            steps.To,
            space.AllSteps,
            steps.Method,
            seconds,
            [.. steps.Counts.Select(c => CoveredSection.Of(c, space.Operands))]
        );

    private Checkpoint About(IReadOnlyList<CoveredWidth> widths)
    {
        var machine = datapaths[0].Machine;
        return new(
            machine.Name,
            machine.Hash,
            machine.Slip,
            only?.ToString(),
            (question.Part.K, question.Part.Of),
            [.. widths]
        );
    }

    private static void AddDiffers(Findings found, string field) =>
        found.Add(Id.CheckpointDiffers, AskedPart.Resume, 0, ("field", field));
}

/// <summary>The notes of a check at one of its widths.</summary>
internal sealed class WidthNotes(CheckNotes notes, int index)
{
    /// <summary>Whether anybody keeps them, so that the work is to be done in turns.</summary>
    public bool AreKept => notes.AreKept;

    /// <summary>What earlier runs took, once it is known what they left.</summary>
    public double Seconds { get; private set; }

    /// <summary>What an earlier run covered of a stretch, nothing where it had not come to this width; null with the reason in the findings.</summary>
    public CoveredSteps? Left(SteppedCheck check, CaseSpace space, Findings found)
    {
        var left = notes.Left(index, check, space, found);
        Seconds = notes.Seconds(index);
        return left;
    }

    /// <summary>What is covered now. Should it not be kept, the work goes on all the same: whoever keeps it says so.</summary>
    /// <param name="seconds">All runs together.</param>
    public void Note(CoveredSteps steps, CaseSpace space, double seconds) => notes.Note(index, steps, space, seconds);
}
