using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Execution;

namespace Reckoner.Running;

/// <summary>Where the bits of a walk's rows and results come from.</summary>
internal sealed record BitTrace(IReadOnlyList<ProvenanceRow> Rows, IReadOnlyList<IReadOnlyList<BitSource>> Results);

/// <summary>What an execution of a whole datapath on one set of operands gives.</summary>
internal sealed record WalkRun(IReadOnlyList<Row> Rows, IReadOnlyList<BigInteger> Results)
{
    /// <summary>With numbers alone.</summary>
    public static WalkRun Of(Datapath datapath, IReadOnlyList<BigInteger> operands)
    {
        var recorder = new Recorder<BigInteger>(n => n);
        var results = Executed(datapath, new NumberWords(operands), recorder);
        return new WalkRun(recorder.Rows, results);
    }

    /// <summary>With the places that bits come from beside the numbers, at once.</summary>
    public static (WalkRun Run, BitTrace Trace) Traced(Datapath datapath, IReadOnlyList<BigInteger> operands)
    {
        var tracer = new Tracer(datapath);
        var results = Executed(datapath, new TracedWords(datapath, operands), tracer);
        var run = new WalkRun(tracer.Rows, Array.AsReadOnly([.. results.Select(r => r.Bits)]));
        return (run, new BitTrace(tracer.Provenance, [.. results.Select(r => r.Sources)]));
    }

    private static IReadOnlyList<TWord> Executed<TWord>(
        Datapath datapath,
        IWordDomain<TWord> domain,
        Recorder<TWord> recorder
    )
    {
        var execution = new Execution<TWord>(domain, recorder);
        execution.Load(datapath);
        recorder.EndsLoad();
        execution.Run(datapath);
        return Array.AsReadOnly([.. datapath.Results.Select(r => execution.Word(r.Value))]);
    }
}
