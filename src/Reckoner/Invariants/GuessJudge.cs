using System.Numerics;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Execution;
using Reckoner.Proving;
using Fact = Reckoner.Proving.Fact;

namespace Reckoner.Invariants;

/// <summary>
/// Judges what somebody says to hold in every round: whether operands show that it does not, whether a state shows that it does not
/// go on holding or that a law does not follow, or whether it is a proof. Whatever it says, it has in hand: operands, a state that
/// was stepped, or a certificate that was verified.
/// </summary>
internal sealed class GuessJudge
{
    /// <summary>Besides the three smallest widths, of which all operands are run, these with some.</summary>
    private static readonly int[] Wide = [5, 6, 7, 8, 9, 17, 33, 65];
    private const int RunsEach = 16;

    /// <summary>States are looked for at so many widths before a proof is tried, and at as many more where it fails.</summary>
    private const int WidthsBefore = 2;
    private const int MostStates = 40_000;

    /// <summary>Of operands together: so many and all are run, and so many and all states are looked at.</summary>
    private const int MostBitsRun = 12;
    private const int MostBitsSearched = 16;

    private readonly LiftedMachine machine;
    private readonly Variables variables = new();
    private readonly Segment loop;
    private readonly Proposed proposed;
    private readonly Allowance allowance;

    private GuessJudge(LiftedMachine machine, string text, Report report, Func<bool> isSpent)
    {
        this.machine = machine;
        allowance = new Allowance(isSpent);
        foreach (var operand in machine.Datapath.Operands)
        {
            variables.Operand(operand.Name);
        }
        var loops = machine.Datapath.Schedule.Where(s => s.IsLoop).ToList();
        loop = loops is [{ While: null } only] ? only : throw new NotReachedException(Obstacle.NotOneLoop);
        var traces = Traces.Of(machine, OperandPart.Inside);
        var usual = new Pieces(machine, traces, variables).AtHead(At(machine.Datapath), 0);
        proposed =
            InvariantReader.Read(text, machine, variables, usual, machine.Count(loop), report)
            ?? new Proposed([], usual);
    }

    /// <summary>Null with the reason in the report where the text says nothing that could hold.</summary>
    public static Guessed? Of(IMachine machine, Datapath datapath, string text, Report report, Func<bool> isSpent)
    {
        try
        {
            if (datapath.Laws.Count == 0)
            {
                throw new NotReachedException(Obstacle.NoLaws);
            }
            var judge = new GuessJudge(LiftedMachine.Of(machine), text, report, isSpent);
            return report.HasErrors ? null : judge.Judged(datapath, text, isSpent);
        }
        catch (NotReachedException end)
        {
            return report.HasErrors
                ? null
                : new Guessed(machine, [], GuessKind.NotReached) { End = (end.Obstacle, end.What) };
        }
    }

    private static int At(Datapath datapath) => datapath.Schedule.ToList().FindIndex(s => s.IsLoop);

    private Guessed Judged(Datapath datapath, string text, Func<bool> isSpent)
    {
        var machineAt = datapath.Machine;
        var formulas = proposed.Facts.Select(f => InvariantText.Of(f, variables)).ToList();
        Guessed Said(GuessKind kind) => new(machineAt, formulas, kind);
        try
        {
            return Judged(datapath, text, isSpent, Said);
        }
        catch (NotReachedException end) when (end.Obstacle == Obstacle.Budget)
        {
            return Said(GuessKind.Open) with { End = (end.Obstacle, end.What) };
        }
    }

    private Guessed Judged(Datapath datapath, string text, Func<bool> isSpent, Func<GuessKind, Guessed> said)
    {
        if (False() is { } wrong)
        {
            return said(GuessKind.False) with { State = wrong };
        }
        var widths = Enumerable
            .Range(machine.Least, 2 * WidthsBefore)
            .Select(Built)
            .OfType<Datapath>()
            .Where(d => Bits(d) <= MostBitsSearched && d.Registers.All(r => r.Width < 50))
            .ToList();
        var before = Shown(widths.Take(WidthsBefore));
        if (before is not null)
        {
            return before;
        }
        var report = Proved(datapath, text, isSpent, _ => true);
        if (IsProof(report))
        {
            var needed = report
                .Laws.Proofs.SelectMany(p => p.Loops.SelectMany(l => l.NeededHead.Select(f => Key(f, p.Variables))))
                .ToHashSet(StringComparer.Ordinal);
            var idle = proposed.Facts.Where(f => !needed.Contains(Key(f, variables))).ToList();
            // That something is not needed is said only where the verifier has accepted a proof without it.
            var isIdle = idle.Count > 0 && IsProof(Proved(datapath, text, isSpent, needed.Contains));
            return said(GuessKind.Proof) with
            {
                Proof = report,
                Idle = isIdle ? idle.ConvertAll(f => InvariantText.Of(f, variables)) : [],
            };
        }
        return Shown(widths.Skip(WidthsBefore)) ?? said(GuessKind.Open) with { End = WhyOpen(report) };

        Guessed? Shown(IEnumerable<Datapath> some)
        {
            var all = some.ToList();
            if (all.Select(NotKept).FirstOrDefault(s => s is not null) is { } lost)
            {
                return Leads(lost)
                    ? said(GuessKind.False) with
                    {
                        State = lost with { Round = lost.Round + 1, Registers = lost.After!, After = null },
                    }
                    : said(GuessKind.NotKept) with
                    {
                        State = lost,
                    };
            }
            return all.Select(TooWeak).FirstOrDefault(s => s is not null) is { } weak
                ? said(Leads(weak) ? GuessKind.LawFails : GuessKind.TooWeak) with
                {
                    State = weak,
                }
                : null;
        }
    }

    /// <summary>Only what the verifier has accepted, of laws that there are.</summary>
    private static bool IsProof(ProofReport report) =>
        report is { Refusal: null, Certificate: not null, IsWhole: true, Laws.Claims.Count: > 0 };

    /// <summary>What is tried with those of the proposed facts of which the key is asked for.</summary>
    private static ProofReport Proved(Datapath datapath, string text, Func<bool> isSpent, Func<string, bool> isAsked) =>
        ProofReport.Of(
            datapath.Machine,
            datapath,
            isSpent,
            Screening.None,
            (lifted, names, usual, count) =>
                InvariantReader.Read(text, lifted, names, usual, count, new Report(null)) is { } again
                    ? again with
                    {
                        Facts = [.. again.Facts.Where(f => isAsked(Key(f, names)))],
                    }
                    : throw new InvalidOperationException("what was read once is not read again")
        );

    private static (Obstacle, string)? WhyOpen(ProofReport report) =>
        report.Laws.Obstacle is { } obstacle ? (obstacle, report.Laws.What)
        : report.Laws.Claims.Select(c => c.Proof?.Obstacle).FirstOrDefault(o => o is not null) is { } end
            ? (end.Obstacle, end.What)
        : null;

    /// <summary>The same for the same fact, in whatever order its variables were numbered.</summary>
    private static string Key(Fact fact, Variables variables)
    {
        var parts = fact.Form.Parts.Select(p =>
            $"{p.Factor} {p.Product.N} {p.Product.I} {string.Join(' ', p.Product.Variables.Select(v => variables[v]).Order(StringComparer.Ordinal))}"
        );
        return $"{fact.IsEquation} {string.Join('+', parts.Order(StringComparer.Ordinal))}";
    }

    private Datapath? Built(int width) =>
        machine.Datapath.Machine.Built(
            new Dictionary<string, BigInteger> { [machine.Datapath.Widths[0].Name] = width }
        );

    private static int Bits(Datapath datapath) => datapath.Operands.Sum(o => o.Width);

    private static int Width(Datapath datapath) => (int)datapath.Widths[0].Value;

    // ---- operands

    /// <summary>The smallest width, and there the first operands and round, at which it does not hold.</summary>
    private GuessState? False()
    {
        for (var width = machine.Least; width < machine.Least + 3; width++)
        {
            if (Built(width) is { } datapath)
            {
                var all = Bits(datapath) <= MostBitsRun ? Trials.All(datapath) : Trials.Some(datapath, RunsEach);
                if (False(datapath, all) is { } found)
                {
                    return found;
                }
            }
        }
        foreach (var width in Wide.Where(w => w >= machine.Least + 3))
        {
            if (Built(width) is { } datapath && False(datapath, Trials.Some(datapath, RunsEach)) is { } found)
            {
                return found;
            }
        }
        return null;
    }

    private GuessState? False(Datapath datapath, IEnumerable<BigInteger[]> operands)
    {
        foreach (var some in operands.Where(datapath.IsGiven))
        {
            allowance.Spend();
            var execution = Entered(datapath, some);
            var own = datapath.Schedule[At(datapath)];
            for (var round = 0; round < own.Count; round++)
            {
                var state = new GuessState(datapath, Width(datapath), round, some, [.. execution.Registers]);
                if (Broken(state, round, state.Registers) is { } broken)
                {
                    return state with { Broken = broken };
                }
                Take(execution, own, round + 1);
            }
        }
        return null;
    }

    /// <summary>At the head of the first round.</summary>
    private static Execution<BigInteger> Entered(Datapath datapath, IReadOnlyList<BigInteger> operands)
    {
        var execution = new Execution<BigInteger>(new NumberWords(operands));
        execution.Load(datapath);
        foreach (var segment in datapath.Schedule.TakeWhile(s => !s.IsLoop))
        {
            Take(execution, segment, 1);
        }
        return execution;
    }

    /// <summary>Whether the operands of a state lead to it; no others can.</summary>
    private static bool Leads(GuessState state)
    {
        var execution = Entered(state.Datapath, state.Operands);
        for (var round = 0; round < state.Round; round++)
        {
            Take(execution, state.Datapath.Schedule[At(state.Datapath)], round + 1);
        }
        return state.Registers.SequenceEqual(execution.Registers);
    }

    private static void Take(Execution<BigInteger> execution, Segment segment, int round)
    {
        foreach (var step in segment.Steps)
        {
            execution.Take(new Cycle(0, segment, round, step));
        }
    }

    /// <summary>The first of the facts that does not hold for these registers.</summary>
    private (string, string)? Broken(GuessState state, int round, IReadOnlyList<BigInteger> registers)
    {
        var exact = ExactState.Of(
            state.Width,
            round,
            variables,
            state.Datapath,
            state.Operands,
            proposed.Pieces,
            registers
        );
        return proposed.Facts.FirstOrDefault(f => !exact.IsSo(f)) is { } fact
            ? (InvariantText.Of(fact, variables), InvariantText.WithNumbers(fact, variables, exact))
            : null;
    }

    // ---- states

    private GuessState? NotKept(Datapath datapath)
    {
        var own = datapath.Schedule[At(datapath)];
        var states = States(datapath);
        for (var round = 0; round + 1 < own.Count; round++)
        {
            foreach (var state in Exactly(states, round))
            {
                var execution = Begun(state);
                Take(execution, own, round + 1);
                BigInteger[] after = [.. execution.Registers];
                if (Broken(state, round + 1, after) is { } broken)
                {
                    return state with { After = after, Broken = broken };
                }
            }
        }
        return null;
    }

    private GuessState? TooWeak(Datapath datapath)
    {
        var at = At(datapath);
        var own = datapath.Schedule[at];
        foreach (var state in Exactly(States(datapath), own.Count - 1))
        {
            var execution = Begun(state);
            Take(execution, own, own.Count);
            foreach (var segment in datapath.Schedule.Skip(at + 1))
            {
                Take(execution, segment, 1);
            }
            BigInteger[] results = [.. datapath.Results.Select(r => execution.Word(r.Value))];
            if (datapath.Laws.FirstOrDefault(l => !ClaimJudge.Holds(l, state.Operands, results)) is { } law)
            {
                return state with { Fails = (law, results) };
            }
        }
        return null;
    }

    /// <summary>Those of the states that were found in which everything holds exactly: the search computes roughly.</summary>
    private IEnumerable<GuessState> Exactly(StateSearch states, int round)
    {
        foreach (var state in states.At(round))
        {
            allowance.Spend();
            if (Broken(state, round, state.Registers) is null)
            {
                yield return state;
            }
        }
    }

    private StateSearch States(Datapath datapath) => new(datapath, Width(datapath), variables, proposed, MostStates);

    private static Execution<BigInteger> Begun(GuessState state)
    {
        var execution = new Execution<BigInteger>(new NumberWords([]));
        execution.Begin(state.Registers);
        return execution;
    }
}
