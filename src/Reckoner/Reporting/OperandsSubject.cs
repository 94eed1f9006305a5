using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Out of which operands some were chosen. Nothing says "all" unless all were tried.</summary>
/// <param name="Condition">What was asked for, as it was asked; null for nothing particular.</param>
/// <param name="Seed">Of the sample, where not all were tried.</param>
internal sealed record OperandsSubject(Candidates Candidates, string? Condition, int Seed)
{
    internal Datapath Datapath => Candidates.Datapath;

    /// <summary>What is said of all operands, or of those of a sample.</summary>
    internal string Scoped(string all, string sampled) => Candidates.IsExhaustive ? all : sampled;

    internal Fact[] Facts =>
        [
            ("count", Candidates.Count),
            ("cases", Candidates.Cases),
            ("what", OperandsText.What(Datapath)),
            ("seed", Seed),
        ];

    internal Document Document(IEnumerable<Block> blocks, Vocabulary words) =>
        new(
            Datapath.Machine.Name,
            words.Language,
            Names.Of(Datapath, words),
            Datapath.Machine.Title?.In(words.Language),
            [.. blocks]
        )
        {
            Leads = Condition is null ? [] : [words.Spell("operands.asked", ("condition", Condition))],
        };
}
