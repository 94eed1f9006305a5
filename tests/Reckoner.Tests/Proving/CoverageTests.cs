using Reckoner.Catalogue;
using Reckoner.Proving;
using Reckoner.Reporting;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests.Proving;

/// <summary>
/// The handbook's table of what is proved of the catalogue is what is proved. With RECKONER_RENEW=yes the long run writes it anew.
/// </summary>
public class CoverageTests
{
    private const string Page = "docs/handbook/proving.md";
    private const string Begin = "| `";

    private static readonly IReadOnlyList<string> Sound =
    [
        .. MachineCatalogue.Entries.Where(e => e.Family != "wrong-on-purpose").Select(e => e.Name),
    ];

    /// <summary>Those that are proved elsewhere too, and one of which the reasoning says at once that it does not reach it.</summary>
    public static TheoryData<string> Few =>
        [.. Proofs.Base.Append(Sound.First(n => !LiftedMachine.IsReached(Machines.Bound(Machines.Named(n)))))];

    [Fact]
    public void Every_sound_machine_has_its_row() =>
        Assert.Equal(Sound, Rows().Select(r => r[Begin.Length..r.IndexOf('`', Begin.Length)]));

    [Theory]
    [MemberData(nameof(Few))]
    public void A_row_is_what_is_proved(string name) => Assert.Contains(Row(name), Rows());

    [Fact]
    [Trait("Length", "long")]
    public void All_rows_are_what_is_proved()
    {
        var (now, pinned) = (Sound.Select(Row).ToList(), Rows());
        if (!now.SequenceEqual(pinned) && Environment.GetEnvironmentVariable("RECKONER_RENEW") == "yes")
        {
            var file = Sources.File(Page);
            var lines = File.ReadAllText(file).Split('\n').ToList();
            var at = lines.FindIndex(l => l.StartsWith(Begin, StringComparison.Ordinal));
            lines.RemoveAll(l => l.StartsWith(Begin, StringComparison.Ordinal));
            lines.InsertRange(at, now);
            File.WriteAllText(file, string.Join('\n', lines));
        }
        Assert.Equal(now, pinned);
    }

    private static IReadOnlyList<string> Rows() =>
        [.. File.ReadAllText(Sources.File(Page)).Split('\n').Where(l => l.StartsWith(Begin, StringComparison.Ordinal))];

    private static string Row(string name)
    {
        var (report, machine) = (Proofs.Of(name), Machines.Named(name));
        Assert.Null(report.Refusal);
        var isAny = report.Sections.Any(s => s.Claims.Any(c => c.IsProved));
        var (_, high) = Machines.Range(machine);
        string[] cells =
        [
            $"`{name}`",
            Proved(report.Laws),
            report.Outside is { } outside ? Proved(outside) : "",
            isAny ? $"{report.Least}..{high}" : "",
            report.IsWhole ? "" : string.Join(" ", Why(report).Distinct()),
        ];
        return $"| {string.Join(" | ", cells)} |";
    }

    private static string Proved(ProofSection section) =>
        section.Claims.All(c => c.IsProved) ? "all"
        : section.Claims.Any(c => c.IsProved) ? $"{section.Claims.Count(c => c.IsProved)} of {section.Claims.Count}"
        : "none";

    private static IEnumerable<string> Why(ProofReport report)
    {
        foreach (var section in report.Sections.Where(s => s.Claims.Any(c => !c.IsProved)))
        {
            var ends = section
                .Claims.Select(c => c.Proof?.Obstacle)
                .OfType<NotReachedException>()
                .Select(e => (e.Obstacle, e.What))
                .ToList();
            if (section.Obstacle is { } own)
            {
                ends.Insert(0, (own, section.What));
            }
            foreach (var (obstacle, what) in ends)
            {
                Assert.NotEqual(Obstacle.Budget, obstacle);
                yield return Vocabulary.English.Say(ProofDocument.Key(obstacle), ("what", what));
            }
            if (ends.Count == 0)
            {
                yield return "Not found: nothing that goes on holding and is enough.";
            }
        }
    }
}
