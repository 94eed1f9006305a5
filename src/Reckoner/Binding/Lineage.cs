using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Binding;

/// <summary>
/// What "follows" promises and can be seen without running: the same operands, a common result of the same width and sign, and
/// a "given" that is not narrower. That common results are equal is checked by running.
/// </summary>
internal static class Lineage
{
    public static void Check(Machine machine, Datapath datapath, Report report)
    {
        if (machine.Followed is not { } followed)
        {
            return;
        }
        var line = machine.Description.Declarations.OfType<FollowsLine>().First();
        var (earlier, found) = followed.Beside(datapath);
        if (earlier is not null)
        {
            Compare(datapath, earlier, line, report);
        }
        else if (found.First(d => d.Severity == Severity.Error) is var first && !IsOfWidth(first))
        {
            report.Add(
                Id.FollowsBroken,
                line.Machine.Span,
                ("machine", line.Machine.Text),
                ("word", first.Id.Name),
                ("line", first.Line)
            );
        }
    }

    /// <summary>That an earlier machine is not made for this width is no slip; there is only nothing to compare.</summary>
    private static bool IsOfWidth(Diagnostic diagnostic) => diagnostic.Id == Id.WidthOutOfRange;

    private static void Compare(Datapath later, Datapath earlier, FollowsLine line, Report report)
    {
        void Differ(string what, Term here, Term there) =>
            report.Add(
                Id.FollowsDiffers,
                line.Machine.Span,
                ("machine", line.Machine.Text),
                ("name", what),
                ("here", here),
                ("there", there)
            );

        var before = report.Count;
        foreach (var (what, here, there) in Differences(later, earlier))
        {
            Differ(what, here, there);
        }
        if (!later.Results.Any(r => earlier.Results.Any(e => e.Name == r.Name)))
        {
            report.Add(Id.FollowsNothingShared, line.Machine.Span, ("machine", line.Machine.Text));
        }
        else if (report.Count == before)
        {
            CompareGiven(later, earlier, line, report);
        }
    }

    /// <summary>Operands and common results that have not the same width and sign in both, and operands that only one has.</summary>
    internal static IEnumerable<(string Name, Term Here, Term There)> Differences(Datapath later, Datapath earlier)
    {
        foreach (var operand in later.Operands)
        {
            var other = earlier.Operands.FirstOrDefault(o => o.Name == operand.Name);
            if (other is null || other.Width != operand.Width || other.IsSigned != operand.IsSigned)
            {
                yield return (
                    operand.Name,
                    Spoken(operand.Size, operand.IsSigned),
                    other is null ? new Term("absent") : Spoken(other.Size, other.IsSigned)
                );
            }
        }
        foreach (var missing in earlier.Operands.Where(o => later.Operands.All(l => l.Name != o.Name)))
        {
            yield return (missing.Name, new Term("absent"), Spoken(missing.Size, missing.IsSigned));
        }
        foreach (var result in later.Results)
        {
            var other = earlier.Results.FirstOrDefault(e => e.Name == result.Name);
            if (other is not null && (other.Width != result.Width || IsSigned(other) != IsSigned(result)))
            {
                yield return (
                    result.Name,
                    Spoken(result.Value.Size, IsSigned(result)),
                    Spoken(other.Value.Size, IsSigned(other))
                );
            }
        }
    }

    private static void CompareGiven(Datapath later, Datapath earlier, FollowsLine line, Report report)
    {
        var order = later.Operands.Select(o => earlier.Operands.ToList().FindIndex(e => e.Name == o.Name)).ToArray();
        foreach (var operands in OperandCorners.Of(later))
        {
            var same = new BigInteger[operands.Length];
            for (var i = 0; i < order.Length; i++)
            {
                same[order[i]] = operands[i];
            }
            if (earlier.IsGiven(same) && later.NotGiven(operands) is { } narrower)
            {
                var spoken = later.Operands.Select(o => $"{o.Name} = {o.Number(operands[o.Index])}");
                report.Add(
                    Id.FollowsNarrower,
                    line.Machine.Span,
                    ("machine", line.Machine.Text),
                    ("given", narrower.Text),
                    ("operands", string.Join(", ", spoken))
                );
                return;
            }
        }
    }

    private static bool IsSigned(Result result) => result.Value.Reading == Reading.Signed;

    private static Term Spoken(Size size, bool isSigned) => new(isSigned ? "bits-signed" : "bits", ("size", size));
}
