using System.Runtime.InteropServices;
using Reckoner.Checking;
using Reckoner.Diagnostics;

namespace Reckoner.Engines.Tests;

/// <summary>A processor that runs the text of kernels here, thread after thread.</summary>
internal sealed class PtxProcessor : IGraphicsProcessor
{
    public string Name => "interpreted PTX";

    /// <summary>After so many launches it is taken away.</summary>
    public int Lasts { get; init; } = int.MaxValue;

    /// <summary>What becomes of a text before it is run.</summary>
    public Func<string, string> Changed { get; init; } = text => text;

    /// <summary>What becomes of what a launch left before it is told.</summary>
    public Func<GraphicsOutcome, GraphicsOutcome> Told { get; init; } = outcome => outcome;

    /// <summary>Done at the beginning of each launch, whose number it is given.</summary>
    public Action<int> Begins { get; init; } = _ => { };

    public int Launches { get; private set; }

    public HashSet<string> Executed { get; } = [];

    /// <summary>Done before each text is made ready.</summary>
    public Action<PtxKernel> Loads { get; init; } = _ => { };

    public IGraphicsKernel Load(PtxKernel kernel)
    {
        Loads(kernel);
        return new Kernel(this, kernel);
    }

    private sealed class Kernel(PtxProcessor processor, PtxKernel kernel) : IGraphicsKernel
    {
        private const int ThreadsInBlock = 32;

        private readonly PtxMachine machine = new(processor.Changed(kernel.Text));

        public string Name => processor.Name;

        public GraphicsOutcome Run(long from, long to)
        {
            processor.Begins(processor.Launches);
            if (processor.Launches++ >= processor.Lasts)
            {
                throw new GraphicsException(processor.Name, new Term("graphics.gone"));
            }
            var rows = kernel.Rows(from, to);
            var countBytes = kernel.CountWords * sizeof(ulong);
            var memory = new byte[countBytes + kernel.MarkBytes(rows)];
            var blocks = (int)((kernel.Threads(rows) + ThreadsInBlock - 1) / ThreadsInBlock);
            machine.Run(blocks, ThreadsInBlock, [(ulong)from, (ulong)to, 0, (ulong)countBytes], memory);
            processor.Executed.UnionWith(machine.Executed);
            return processor.Told(
                new GraphicsOutcome(
                    MemoryMarshal.Cast<byte, ulong>(memory.AsSpan(0, countBytes)).ToArray(),
                    memory[countBytes..]
                )
            );
        }

        public void Dispose() { }
    }
}
