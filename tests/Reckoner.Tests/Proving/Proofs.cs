using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Datapaths;
using Reckoner.Proving;
using Reckoner.Verifier;
using Xunit;

namespace Reckoner.Tests.Proving;

/// <summary>Proofs of machines, each made once.</summary>
internal static class Proofs
{
    private static readonly TimeSpan Most = TimeSpan.FromSeconds(60);
    private static readonly Dictionary<string, ProofReport> Made = new(StringComparer.Ordinal);

    public static readonly IReadOnlyList<string> Base =
    [
        "divide-moving-divisor",
        "divide-still-divisor",
        "divide-shared-register",
        "multiply-moving-multiplicand",
        "multiply-still-multiplicand",
        "multiply-shared-register",
    ];

    /// <summary>A machine of the catalogue with stretches of its text exchanged.</summary>
    public static Machine Changed(string name, params (string From, string To)[] changes)
    {
        var text = MachineCatalogue.Find(name)!.Text;
        foreach (var (from, to) in changes)
        {
            Assert.Contains(from, text, StringComparison.Ordinal);
            text = text.Replace(from, to, StringComparison.Ordinal);
        }
        return Machines.Of(text);
    }

    public static ProofReport Of(string name)
    {
        lock (Made)
        {
            return Made.TryGetValue(name, out var made) ? made : Made[name] = Of(Machines.Named(name));
        }
    }

    public static ProofReport Of(IMachine machine, Screening screening = Screening.Runs)
    {
        var begin = Environment.TickCount64;
        return ProofReport.Of(
            machine,
            Machines.Bound(machine),
            () => Environment.TickCount64 - begin > Most.TotalMilliseconds,
            screening
        );
    }

    public static Verdict Verified(IMachine machine, string certificate) =>
        Verification.Of(CanonicalTree.Of(machine), machine.Hash, certificate);
}
