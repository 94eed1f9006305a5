using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Proving;

namespace Reckoner.Refining;

/// <summary>
/// Some operands at great widths, at the end of the range, or 512, and where costs are compared, with what a machine gives for them. What is
/// right at every small width can be wrong from the one on at which a counter of five bits comes round.
/// </summary>
internal sealed class Beyond
{
    private const int Corners = 9;
    private const int Drawn = 3;

    /// <summary>Both sides of powers of two; what lies beyond the range becomes its end.</summary>
    private static readonly (int Main, int Other)[] Wanted =
    [
        (32, 17),
        (33, 18),
        (64, 33),
        (65, 32),
        (128, 65),
        (129, 64),
        (512, 257),
    ];

    private readonly IReadOnlyList<Run> runs;

    private Beyond(IReadOnlyList<Run> runs) => this.runs = runs;

    private sealed record Run(
        Datapath Datapath,
        IReadOnlyList<BigInteger[]> Operands,
        IReadOnlyList<IReadOnlyList<BigInteger>> Results
    );

    /// <param name="asked">The machine at the widths at which costs are compared.</param>
    public static Beyond Of(Datapath asked) =>
        new([
            .. new[] { asked }
                .Where(a => Settings.Same(a.Machine, a) is not null)
                .Concat(Settings.Of(asked.Machine, Wanted, withParameters: true))
                .DistinctBy(d => WidthText.Of(d.Widths))
                .Select(Ran),
        ]);

    private static Run Ran(Datapath datapath)
    {
        var some = Trials.Some(datapath, Corners).ToList();
        IReadOnlyList<BigInteger[]> operands =
        [
            .. some.Take(Corners)
                .Concat(some.TakeLast(Drawn))
                .Where(o => datapath.Outside.Count > 0 || datapath.IsGiven(o)),
        ];
        return new Run(datapath, operands, [.. operands.Select(o => Trials.Results(datapath, o))]);
    }

    /// <summary>Where they are run.</summary>
    public IEnumerable<IReadOnlyList<(string Name, BigInteger Value)>> Widths => runs.Select(r => r.Datapath.Widths);

    /// <summary>Whether another machine can be wherever this one is, and gives the same there.</summary>
    public bool IsSame(IMachine other) =>
        runs.All(r =>
            Settings.Same(other, r.Datapath) is { } there
            && r.Operands.Zip(r.Results).All(both => Trials.Results(there, both.First).SequenceEqual(both.Second))
        );
}
