using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Running;
using Reckoner.Slips;

namespace Reckoner.Classroom;

/// <summary>
/// The single slips of a machine, each as it would act in one row alone: whoever works by hand mostly slips once and goes on rightly.
/// </summary>
internal sealed class Lapses(Datapath datapath)
{
    /// <summary>Made when first asked for: each is the whole machine once more.</summary>
    private readonly Lazy<IReadOnlyList<Slipped>> all = new(() => Slipped.Of(datapath));

    /// <summary>The slips that make just this row, in the order of the text; none where it is right.</summary>
    /// <param name="before">What the registers held, by whoever wrote the row.</param>
    /// <param name="row">What they wrote, by the registers' index.</param>
    public IReadOnlyList<Slip> Giving(
        IReadOnlyList<BigInteger> before,
        CycleAddress at,
        IReadOnlyList<BigInteger> row
    ) =>
        SingleStep.Of(datapath, before, at).Registers.SequenceEqual(row)
            ? []
            : [.. all.Value.Where(s => s.After(before, at)?.SequenceEqual(row) == true).Select(s => s.Slip)];

    /// <summary>A slip that has the registers of the right machine.</summary>
    /// <param name="Places">For each register of the right machine its index there.</param>
    private sealed record Slipped(Slip Slip, Datapath Datapath, IReadOnlySet<CycleAddress> Cycles, int[] Places)
    {
        public static IReadOnlyList<Slipped> Of(Datapath right)
        {
            var widths = right.Widths.ToDictionary(w => w.Name, w => w.Value);
            return
            [
                .. from slip in Slip.Of(right.Machine)
                let built = slip.Machine.Built(widths)
                where built is not null && HasSameRegisters(right, built)
                select new Slipped(
                    slip,
                    built,
                    Cycle.Of(built).Select(c => c.Address).ToHashSet(),
                    [.. right.Registers.Select(r => built.Registers.First(b => b.Name == r.Name).Index)]
                ),
            ];
        }

        private static bool HasSameRegisters(Datapath right, Datapath slipped) =>
            right
                .Registers.Select(r => (r.Name, r.Width))
                .Order()
                .SequenceEqual(slipped.Registers.Select(r => (r.Name, r.Width)).Order());

        /// <summary>What it leaves in the right machine's registers; null where it has no such cycle.</summary>
        public IEnumerable<BigInteger>? After(IReadOnlyList<BigInteger> before, CycleAddress at)
        {
            if (!Cycles.Contains(at))
            {
                return null;
            }
            var own = new BigInteger[Places.Length];
            for (var i = 0; i < own.Length; i++)
            {
                own[Places[i]] = before[i];
            }
            var after = SingleStep.Of(Datapath, own, at).Registers;
            return Places.Select(p => after[p]);
        }
    }
}
