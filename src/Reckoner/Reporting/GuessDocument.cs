using System.Numerics;
using Reckoner.Invariants;
using Reckoner.Numbers;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>What became of something that is said to hold in every round, with the state that shows it.</summary>
internal static class GuessDocument
{
    public static Document Of(Guessed guessed, Vocabulary words)
    {
        var blocks = new List<Block>();
        if (guessed.Formulas.Count > 0)
        {
            blocks.Add(new Pairs([.. guessed.Formulas.Select(f => new Pair(Run.Formula(f), Content.Empty))]));
        }
        if (guessed.State is { } state)
        {
            blocks.Add(
                new Paragraph(
                    words.Spell(
                        StateKey(guessed.Kind),
                        ("widths", WidthText.Of(state.Datapath.Widths)),
                        ("operands", OperandsText.Operands(state.Datapath, state.Operands, words)),
                        ("rounds", state.Round)
                    )
                )
            );
            blocks.Add(new Pairs([.. Registers(state)]));
            blocks.Add(new Pairs([.. Shown(state, words)]));
        }
        if (guessed.Idle.Count > 0)
        {
            blocks.Add(new Paragraph(words.Spell("guess.idle")));
            blocks.Add(new Pairs([.. guessed.Idle.Select(f => new Pair(Run.Formula(f), Content.Empty))]));
        }
        if (guessed.End is var (obstacle, what))
        {
            blocks.Add(new Paragraph(words.Spell(ProofDocument.Key(obstacle), ("what", what)), ParagraphRole.Note));
        }
        return ProofDocument.Titled(guessed.Machine, Key(guessed.Kind), guessed.Proof?.Least ?? 0, blocks, words);
    }

    /// <summary>What says it in words; its last part is the same in every language.</summary>
    public static string Key(GuessKind kind) =>
        kind switch
        {
            GuessKind.False => "guess.false",
            GuessKind.NotKept => "guess.not-kept",
            GuessKind.TooWeak => "guess.too-weak",
            GuessKind.LawFails => "guess.law-fails",
            GuessKind.Proof => "guess.proof",
            GuessKind.Open => "guess.open",
            GuessKind.NotReached => "guess.not-reached",
        };

    /// <summary>What says where the state is from that shows it.</summary>
    private static string StateKey(GuessKind kind) =>
        kind switch
        {
            GuessKind.False => "guess.false.state",
            GuessKind.NotKept => "guess.not-kept.state",
            GuessKind.TooWeak => "guess.too-weak.state",
            GuessKind.LawFails => "guess.law-fails.state",
            GuessKind.Proof or GuessKind.Open or GuessKind.NotReached => throw new InvalidOperationException(
                $"{kind} has no state"
            ),
        };

    private static IEnumerable<Pair> Registers(GuessState state) =>
        state.Datapath.Registers.Select(r =>
        {
            var before = Columns.Text(r, state.Registers[r.Index]);
            return new Pair(
                Content.Phrase(r.Name),
                Content.Text(state.After is { } after ? $"{before} -> {Columns.Text(r, after[r.Index])}" : before)
            );
        });

    private static IEnumerable<Pair> Shown(GuessState state, Vocabulary words)
    {
        if (state.Broken is var (formula, numbers))
        {
            yield return new Pair(words.Spell("guess.broken"), [Run.Formula(formula), Run.Formula(numbers)]);
        }
        if (state.Fails is var (law, results))
        {
            yield return new Pair(
                words.Spell("prove.wrong"),
                [
                    Run.Formula(ClaimText.Of(law, state.Datapath, words)),
                    Run.Formula(ClaimText.WithNumbers(law, Numbers(state, results), state.Datapath, words)),
                ]
            );
        }
    }

    private static Dictionary<string, BigInteger> Numbers(GuessState state, IReadOnlyList<BigInteger> results)
    {
        var numbers = state.Datapath.Widths.ToDictionary(w => w.Name, w => w.Value);
        foreach (var operand in state.Datapath.Operands)
        {
            numbers[operand.Name] = operand.Number(state.Operands[operand.Index]);
        }
        foreach (var (result, bits) in state.Datapath.Results.Zip(results))
        {
            numbers[result.Name] = result.Number(bits);
        }
        return numbers;
    }
}
