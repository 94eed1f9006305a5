using Reckoner.Claims;
using Reckoner.Datapaths;

namespace Reckoner.Proving;

/// <summary>
/// Finds what is so in every round of a machine, and shows by induction, for every width at once, that it is and that the claims
/// follow. Whatever it finds is a proposal; that it is a proof is for the verifier to say.
/// </summary>
internal sealed class Prover
{
    private readonly LiftedMachine machine;
    private readonly OperandPart part;
    private readonly Proposal? proposal;
    private readonly Variables variables = new();
    private readonly Induction induction;
    private readonly Candidates candidates;
    private readonly Pieces pieces;
    private readonly List<LoopInvariant> loops = [];
    private readonly List<Dropped> dropped = [];
    private readonly List<Shortcut> known = [];

    /// <summary>The steps before each loop, and behind the last.</summary>
    private readonly List<List<Step>> between =
    [
        [],
    ];

    private Prover(LiftedMachine machine, Allowance allowance, OperandPart part, Proposal? proposal)
    {
        this.machine = machine;
        this.part = part;
        this.proposal = proposal;
        foreach (var operand in machine.Datapath.Operands)
        {
            variables.Operand(operand.Name);
        }
        var traces = Traces.Of(machine, part);
        candidates = new Candidates(machine, traces, variables);
        pieces = new Pieces(machine, traces, variables);
        induction = new Induction(machine, variables, candidates.Loads(), allowance, part);
    }

    /// <exception cref="NotReachedException">The machine has something that this way of reasoning does not reach.</exception>
    /// <param name="proposal">What is to hold at the head of every round; null where that is to be found.</param>
    public static SectionProof Of(
        LiftedMachine machine,
        Allowance allowance,
        OperandPart part,
        Proposal? proposal = null
    ) => new Prover(machine, allowance, part, proposal).Run();

    private SectionProof Run()
    {
        Guess();
        Narrow();
        var claims = new List<ClaimProof>();
        if (IsNotKept)
        {
            return new SectionProof(
                part,
                variables,
                loops,
                [],
                [.. induction.Claims.Select(c => new ClaimProof(c, null, null, null))],
                dropped
            );
        }
        foreach (var claim in induction.Claims)
        {
            claims.Add(Shown(claim));
        }
        if (claims.TrueForAll(c => c.End is null))
        {
            return new SectionProof(part, variables, loops, [], claims, dropped);
        }
        var whole = Obligations()!;
        var (heads, exits) = (loops.ConvertAll(l => l.Head.ToList()), loops.ConvertAll(l => l.Exit.ToList()));
        if (!Minimise(whole, claims, withNumbers: false))
        {
            return new SectionProof(part, variables, loops, whole, claims, dropped);
        }
        if (
            Obligations() is { } fewer
            && claims.ConvertAll(c => c.End is null ? c : Shown(c.Claim)) is var again
            && again.Zip(claims).All(c => c.First.End is null == c.Second.End is null)
        )
        {
            // What was proposed stays in the certificate, all of it: the verifier is to see what somebody says.
            return proposal is null ? new SectionProof(part, variables, loops, fewer, again, dropped) : WithIdle();
        }
        // A bound may be needed for what is multiplied out on its account, though no sum has it: all of them stay. What is needed
        // to believe it is what the sums have, and what no sum can have since it was put in the place of a variable or ended a path.
        Restore();
        Minimise(whole, claims, withNumbers: true);
        return WithIdle();

        // Everything again, with what is left now as what is needed.
        SectionProof WithIdle()
        {
            foreach (var (loop, l) in loops.Select((loop, l) => (loop, l)))
            {
                loop.IdleHead = [.. heads[l].Except(loop.Head)];
                loop.IdleExit = [.. exits[l].Except(loop.Exit)];
            }
            Restore();
            return new SectionProof(part, variables, loops, whole, claims, dropped);
        }

        void Restore()
        {
            for (var l = 0; l < loops.Count; l++)
            {
                loops[l].Head.Clear();
                loops[l].Head.AddRange(heads[l]);
                loops[l].Exit.Clear();
                loops[l].Exit.AddRange(exits[l]);
            }
        }
    }

    private void Guess()
    {
        for (var s = 0; s < machine.Datapath.Schedule.Count; s++)
        {
            var segment = machine.Datapath.Schedule[s];
            if (!segment.IsLoop)
            {
                between[^1].AddRange(segment.Steps);
                continue;
            }
            if (segment.While is not null)
            {
                throw new NotReachedException(Obstacle.StopsEarly);
            }
            var (head, exit) = (pieces.AtHead(s, loops.Count), pieces.AtExit(s));
            List<Fact> atHead;
            States headStates;
            if (proposal is null)
            {
                (atHead, headStates) = candidates.Of(loops.Count, isExit: false, head);
            }
            else
            {
                var proposed = proposal(machine, variables, head, machine.Count(segment));
                (head, atHead) = ([.. proposed.Pieces], [.. proposed.Facts]);
                headStates = candidates.Met(loops.Count, isExit: false, head);
            }
            var (atExit, exitStates) = candidates.Of(loops.Count, isExit: true, exit);
            loops.Add(new(segment, loops.Count, head, exit, atHead, atExit, headStates, exitStates));
            between.Add([]);
        }
    }

    /// <summary>Lets go of what does not follow, until what is left does.</summary>
    private void Narrow()
    {
        foreach (var loop in loops)
        {
            Drop(Duty.Entry, loop, loop.Head);
            while (!IsNotKept && (Drop(Duty.Round, loop, loop.Head) || Drop(Duty.Entry, loop, loop.Head))) { }
            if (IsNotKept)
            {
                return;
            }
            while (Drop(Duty.Last, loop, loop.Exit)) { }
        }
    }

    /// <summary>Whether something that was proposed does not follow, so that not all of it can be shown.</summary>
    private bool IsNotKept => proposal is not null && dropped.Exists(d => d.Duty is Duty.Entry or Duty.Round);

    private (Exploration Exploration, List<Induction.End> Ends) Walk(Duty duty, LoopInvariant loop) =>
        duty switch
        {
            Duty.Entry => induction.Entry(Before(loop.Number), between[loop.Number], loop),
            Duty.Round => induction.Round(loop),
            Duty.Last => induction.Last(loop),
            Duty.End => throw new InvalidOperationException("belongs to no loop"),
        };

    private LoopInvariant? Before(int loop) => loop == 0 ? null : loops[loop - 1];

    /// <summary>Takes out of a list what is not shown on some path, even with all the others; whether anything was.</summary>
    private bool Drop(Duty duty, LoopInvariant loop, List<Fact> list)
    {
        if (Known(duty, loop) is not null)
        {
            return false;
        }
        var isGone = new bool[list.Count];
        var walked = Walk(duty, loop);
        foreach (var end in walked.Ends)
        {
            var proofs = new List<GoalProof>();
            for (var g = 0; g < list.Count; g++)
            {
                if (!isGone[g])
                {
                    isGone[g] = !Show(end.Path, end.Goals[g], g, proofs);
                    if (isGone[g])
                    {
                        dropped.Add(new(duty, list[g], end.Path, end.Goals[g]));
                    }
                }
            }
            end.Path.Case.Goals = proofs;
        }
        if (!Array.Exists(isGone, gone => gone))
        {
            known.Add(new(Done(duty, loop.Number, walked), Mark(duty, loop)));
            return false;
        }
        var left = list.Where((_, g) => !isGone[g]).ToList();
        list.Clear();
        list.AddRange(left);
        return true;
    }

    private static Obligation Done(Duty duty, int loop, (Exploration Exploration, List<Induction.End> Ends) walked) =>
        new(
            duty,
            loop,
            walked.Exploration.Region,
            walked.Exploration.Root,
            [.. walked.Ends.Select(e => e.Path)],
            walked.Exploration.Decisive
        );

    /// <summary>A duty that was done, with how much held before and behind it then; lists only become shorter.</summary>
    private sealed record Shortcut(Obligation Obligation, string Mark);

    private string Mark(Duty duty, LoopInvariant loop) =>
        $"{duty} {loop.Number} {Before(loop.Number)?.Exit.Count} {loop.Head.Count} {(duty == Duty.Last ? loop.Exit.Count : 0)}";

    private Obligation? Known(Duty duty, LoopInvariant loop) => known.Find(k => k.Mark == Mark(duty, loop))?.Obligation;

    /// <summary>Shows a goal and knows it from then on.</summary>
    private static bool Show(Path path, Fact goal, int number, List<GoalProof> proofs)
    {
        path.ShownFrom = Math.Min(path.ShownFrom, path.Facts.Count);
        if (Goals.Shown(path, goal) is not { } proof)
        {
            return false;
        }
        proofs.Add(proof);
        path.KnowOf(number, goal);
        return true;
    }

    private ClaimProof Shown(Claim claim)
    {
        try
        {
            var walked = induction.Results(loops.LastOrDefault(), between[^1], claim);
            var done = Shown(Duty.End, loops.Count, walked, out var open);
            return new ClaimProof(claim, done, open, null);
        }
        catch (NotReachedException end) when (end.Obstacle != Obstacle.Budget)
        {
            return new ClaimProof(claim, null, null, end);
        }
    }

    private static Obligation? Shown(
        Duty duty,
        int loop,
        (Exploration Exploration, List<Induction.End> Ends) walked,
        out OpenGoal? open
    )
    {
        open = null;
        foreach (var end in walked.Ends)
        {
            var proofs = new List<GoalProof>();
            for (var g = 0; g < end.Goals.Count; g++)
            {
                if (!Show(end.Path, end.Goals[g], g, proofs))
                {
                    open = new OpenGoal(end.Path, end.Goals[g]);
                    return null;
                }
            }
            end.Path.Case.Goals = proofs;
        }
        return Done(duty, loop, walked);
    }

    /// <summary>Everything below the claims, shown with what is known now; null where something is not shown.</summary>
    private List<Obligation>? Obligations()
    {
        var done = new List<Obligation?>();
        foreach (var loop in loops)
        {
            foreach (var duty in new[] { Duty.Entry, Duty.Round, Duty.Last })
            {
                done.Add(Known(duty, loop) ?? Shown(duty, loop.Number, Walk(duty, loop), out _));
            }
        }
        return done.Contains(null) ? null : [.. done.OfType<Obligation>()];
    }

    /// <summary>Keeps of the invariants what the claims need, directly or by way of others; whether anything went.</summary>
    /// <param name="withNumbers">Whether what says which number a variable is, or that a path is none, is kept in any case.</param>
    private bool Minimise(IReadOnlyList<Obligation> obligations, IReadOnlyList<ClaimProof> claims, bool withNumbers)
    {
        var heads = loops.ConvertAll(_ => new HashSet<int>());
        var exits = loops.ConvertAll(_ => new HashSet<int>());
        foreach (var end in claims.Select(c => c.End).OfType<Obligation>())
        {
            Need(end, null);
        }
        for (var before = -1; before != Count(); )
        {
            before = Count();
            foreach (var obligation in obligations)
            {
                Need(obligation, obligation.Duty == Duty.Last ? exits[obligation.Loop] : heads[obligation.Loop]);
            }
        }
        var all = loops.Sum(l => l.Head.Count + l.Exit.Count);
        for (var l = 0; l < loops.Count; l++)
        {
            Keep(loops[l].Head, heads[l]);
            Keep(loops[l].Exit, exits[l]);
        }
        return loops.Sum(l => l.Head.Count + l.Exit.Count) < all;

        int Count() => heads.Sum(h => h.Count) + exits.Sum(e => e.Count);

        static void Keep(List<Fact> list, HashSet<int> needed)
        {
            var left = list.Where((_, k) => needed.Contains(k)).ToList();
            list.Clear();
            list.AddRange(left);
        }

        // What choices and the wanted goals of an obligation use, of what is known at its beginning and of goals before them.
        void Need(Obligation obligation, HashSet<int>? wanted)
        {
            var from = obligation.Duty switch
            {
                Duty.Round or Duty.Last => heads[obligation.Loop],
                Duty.Entry or Duty.End => obligation.Loop == 0 ? null : exits[obligation.Loop - 1],
            };
            if (withNumbers)
            {
                from?.UnionWith(obligation.Decisive);
            }
            var uses = obligation
                .Root.All.SelectMany(c => c.Refuted)
                .OfType<Refutation>()
                .SelectMany(r => r.Uses)
                .ToHashSet();
            foreach (var path in obligation.Ends)
            {
                var shown = path.Case.Goals!;
                Note(path, uses);
                var isAnyBehind = false;
                for (var g = shown.Count - 1; g >= 0; g--)
                {
                    if (withNumbers && isAnyBehind && path.Decisive.Contains(g))
                    {
                        wanted?.Add(g);
                    }
                    if (wanted is null || wanted.Contains(g))
                    {
                        isAnyBehind = true;
                        Note(path, shown[g].Parts.SelectMany(p => p.Refutation.Uses));
                    }
                }
            }

            void Note(Path path, IEnumerable<int> facts)
            {
                foreach (var fact in facts.Where(path.KnownOf.ContainsKey))
                {
                    (fact < path.ShownFrom ? from : wanted)?.Add(path.KnownOf[fact]);
                }
            }
        }
    }
}

/// <summary>A goal that was not shown, on the path where it was not.</summary>
internal sealed record OpenGoal(Path Path, Fact Goal);

/// <summary>A claim, and its proof from what is so behind the last loop; null where it was not found.</summary>
/// <param name="Obstacle">What in the claim the reasoning does not reach; null where it reaches all of it.</param>
internal sealed record ClaimProof(Claim Claim, Obligation? End, OpenGoal? Open, NotReachedException? Obstacle);

/// <summary>What held in every run and was not shown, on the path where it was not.</summary>
internal sealed record Dropped(Duty Duty, Fact Fact, Path Path, Fact Goal);

/// <summary>What was found for a part of the operands.</summary>
internal sealed record SectionProof(
    OperandPart Part,
    Variables Variables,
    IReadOnlyList<LoopInvariant> Loops,
    IReadOnlyList<Obligation> Obligations,
    IReadOnlyList<ClaimProof> Claims,
    IReadOnlyList<Dropped> Dropped
)
{
    public bool IsWhole => Claims.All(c => c.End is not null);

    public bool HasAny => Claims.Any(c => c.End is not null);
}
