using Reckoner.Running;

namespace Reckoner.Proving;

/// <summary>What a proof says to hold in every round, with the numbers that it has in one walk.</summary>
internal static class WalkHolding
{
    /// <summary>
    /// Null where nothing was proved that these operands are of, and where there are several loops: what holds in the rounds of one
    /// does not in those of another.
    /// </summary>
    public static Holding? Of(Walk walk, ProofReport report)
    {
        var proof = report
            .Sections.Where(s => s.Claims.Any(c => c.IsProved))
            .SelectMany(s => s.Proofs)
            .FirstOrDefault(p => p.Part.Has(walk.Datapath, walk.Operands));
        return proof is { Loops.Count: 1 } && walk.Datapath.Widths is [var width]
            ? Of(walk, proof, (int)width.Value)
            : null;
    }

    /// <summary>A list of facts at a row: at the head of a round, or behind the last.</summary>
    private sealed record At(Row Row, IReadOnlyList<Fact> Facts, ExactState State, bool IsExit);

    private static Holding Of(Walk walk, SectionProof proof, int n)
    {
        var (variables, loop) = (proof.Variables, proof.Loops[0]);
        var places = Places(walk, loop, variables, n).ToList();
        var moving = places.SelectMany(p => p.Facts).Distinct().Where(Moves).ToHashSet();
        return new Holding(
            Formulas(loop.NeededHead),
            Formulas(loop.NeededExit),
            places
                .GroupBy(p => p.Row.Cycle)
                .ToDictionary(
                    g => g.Key,
                    IReadOnlyList<string> (g) =>
                        [
                            .. g.SelectMany(p =>
                                    p.Facts.Where(f => p.IsExit || moving.Contains(f)).Select(f => Text(p, f))
                                )
                                .Distinct()
                                .Where(t => !IsPlain(t)),
                        ]
                )
        );

        // What has the same numbers in every row is said once, above them.
        bool Moves(Fact fact) =>
            places.Where(p => !p.IsExit && p.Facts.Contains(fact)).Select(p => Text(p, fact)).Distinct().Skip(1).Any();

        // 3 = 3 says nothing.
        static bool IsPlain(string text) => text.Split(" = ") is [var left, var right] && left == right;

        string Text(At at, Fact fact) => InvariantText.WithNumbers(fact, variables, at.State);

        IReadOnlyList<string> Formulas(IEnumerable<Fact> facts) =>
            [.. facts.OrderByDescending(moving.Contains).Select(f => InvariantText.Of(f, variables)).Distinct()];
    }

    private static IEnumerable<At> Places(Walk walk, LoopInvariant loop, Variables variables, int n)
    {
        var own = walk.Rows.Where(r => r.Repeat == loop.Segment.Repeat).ToList();
        var ends = own.GroupBy(r => r.Round).Select(g => g.Last()).ToList();
        if (own.Count == 0)
        {
            yield break;
        }
        yield return Head(walk.Rows[own[0].Cycle - 1], 0);
        foreach (var row in ends.SkipLast(1))
        {
            yield return Head(row, row.Round);
        }
        yield return new(ends[^1], loop.NeededExit, State(ends[^1], 0, loop.ExitPieces), true);

        At Head(Row row, int rounds) => new(row, loop.NeededHead, State(row, rounds, loop.HeadPieces), false);

        ExactState State(Row row, int rounds, IReadOnlyList<Piece> pieces) =>
            ExactState.Of(n, rounds, variables, walk.Datapath, walk.Operands, pieces, row.Registers);
    }
}
