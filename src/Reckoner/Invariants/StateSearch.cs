using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Proving;

namespace Reckoner.Invariants;

/// <summary>
/// States of a machine at one width in which an invariant holds, reached or not: operands inside "given", the small ones first,
/// with the fillings of the registers, as many of both together as is allowed for a round. What an equation says of a piece once the
/// others are known is not searched for. It computes roughly: that the invariant does hold is for the caller to ask exactly.
/// </summary>
internal sealed class StateSearch
{
    /// <summary>A piece that is given a value: what equation says it, and which facts can be judged then.</summary>
    private sealed record Choice(Piece Piece, (Form Beside, Form Others)? Solved, IReadOnlyList<Fact> Judged);

    private readonly Datapath datapath;
    private readonly int n;
    private readonly Variables variables;
    private readonly Proposed proposed;
    private readonly List<Choice> choices = [];
    private readonly List<Fact> first;
    private readonly int most;
    private int left;

    /// <param name="most">So many fillings are begun for each round.</param>
    public StateSearch(Datapath datapath, int n, Variables variables, Proposed proposed, int most)
    {
        this.datapath = datapath;
        this.n = n;
        this.variables = variables;
        this.proposed = proposed;
        this.most = most;
        var known = datapath
            .Operands.SelectMany(o =>
                new[] { variables.Operand(o.Name), variables.Sign(o.Name), variables.Magnitude(o.Name) }
            )
            .ToHashSet();
        var open = proposed.Facts.ToList();
        first = Judged();
        for (var pieces = proposed.Pieces.ToList(); pieces.Count > 0; )
        {
            var next = pieces.Find(p => Solved(p) is not null) ?? pieces.MinBy(p => p.Width.At(n, 1))!;
            pieces.Remove(next);
            var solved = Solved(next);
            known.Add(next.Variable);
            known.Add(variables.Sign(next.Name));
            choices.Add(new(next, solved, Judged()));
        }

        List<Fact> Judged()
        {
            var now = open.FindAll(f => f.Form.Variables.All(known.Contains));
            open.RemoveAll(now.Contains);
            return now;
        }

        (Form, Form)? Solved(Piece piece)
        {
            foreach (var form in open.Where(f => f.IsEquation && f.Form.Has(piece.Variable)).Select(f => f.Form))
            {
                var (beside, others) = form.Apart(piece.Variable);
                if (beside.Variables.Concat(others.Variables).All(known.Contains))
                {
                    return (beside, others);
                }
            }
            return null;
        }
    }

    /// <summary>States after so many rounds.</summary>
    public IEnumerable<GuessState> At(int round)
    {
        left = most;
        foreach (var operands in Trials.All(datapath).TakeWhile(_ => left-- > 0).Where(datapath.IsGiven))
        {
            var instance = new Instance(n, round);
            foreach (var operand in datapath.Operands)
            {
                Set(
                    instance,
                    operand.Name,
                    operand.IsSigned,
                    variables.Operand(operand.Name),
                    (long)operand.Number(operands[operand.Index])
                );
            }
            if (first.TrueForAll(f => f.IsSoIn(instance)))
            {
                foreach (var _ in From(0, instance))
                {
                    yield return new(datapath, n, round, operands, Registers(instance));
                }
            }
        }
    }

    private void Set(Instance instance, string name, bool isSigned, int variable, long number)
    {
        instance[variable] = number;
        if (isSigned)
        {
            instance[variables.Sign(name)] = number < 0 ? 1 : 0;
            instance[variables.Magnitude(name)] = Math.Abs(number);
        }
    }

    private IEnumerable<Instance> From(int at, Instance instance)
    {
        if (at == choices.Count)
        {
            yield return instance;
            yield break;
        }
        var (piece, solved, judged) = choices[at];
        foreach (var number in Numbers(piece, solved, instance).TakeWhile(_ => left-- > 0))
        {
            Set(instance, piece.Name, piece.IsSigned, piece.Variable, number);
            if (judged.All(f => f.IsSoIn(instance)))
            {
                foreach (var found in From(at + 1, instance))
                {
                    yield return found;
                }
            }
        }
    }

    private static IEnumerable<long> Numbers(Piece piece, (Form Beside, Form Others)? solved, Instance instance)
    {
        var width = Math.Max(0, piece.Width.At(instance.N, instance.I));
        var (low, count) = piece.IsSigned ? (-(1L << (width - 1)), 1L << width) : (0, 1L << width);
        if (solved is var (beside, others) && beside.At(instance) is not 0 and var factor)
        {
            var number = -others.At(instance) / factor;
            return number == Math.Floor(number) && number >= low && number < low + count ? [(long)number] : [];
        }
        return All();

        IEnumerable<long> All()
        {
            for (var k = 0L; k < count; k++)
            {
                yield return low + k;
            }
        }
    }

    private BigInteger[] Registers(Instance instance)
    {
        var registers = new BigInteger[datapath.Registers.Count];
        foreach (var piece in proposed.Pieces)
        {
            var (width, low) = (Math.Max(0, piece.Width.At(n, instance.I)), piece.Low.At(n, instance.I));
            registers[piece.Register.Index] |= Bits.Wrap((long)instance[piece.Variable], width) << low;
        }
        return registers;
    }
}
