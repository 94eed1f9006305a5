using System.Runtime.InteropServices;
using Reckoner.Checking;

namespace Reckoner.Engines;

/// <summary>What a launch of a kernel left: the counts of its sections, and a mark for each row and section in which something fails.</summary>
internal sealed record GraphicsOutcome(ulong[] Counts, byte[] Marks);

/// <summary>Something that runs kernels: a graphics processor, or what tests put in its place.</summary>
internal interface IGraphicsProcessor
{
    string Name { get; }

    /// <summary>Made ready once. Asked by one thread at a time.</summary>
    /// <exception cref="GraphicsException">It cannot.</exception>
    IGraphicsKernel Load(PtxKernel kernel);
}

internal interface IGraphicsKernel : IDisposable
{
    /// <summary>That of its processor.</summary>
    string Name { get; }

    /// <summary>Runs steps from..to (to not included) to their end.</summary>
    /// <exception cref="GraphicsException">It could not, and nothing of it counts.</exception>
    GraphicsOutcome Run(long from, long to);
}

/// <summary>A graphics processor of this machine.</summary>
internal sealed class GraphicsProcessor : IGraphicsProcessor
{
    private readonly GraphicsDriver driver;
    private readonly int device;
    private nint context;

    private GraphicsProcessor(GraphicsDriver driver, int device)
    {
        this.driver = driver;
        this.device = device;
        Name = driver.NameOf(device);
    }

    /// <summary>All that are here; none without a driver.</summary>
    public static IReadOnlyList<GraphicsProcessor> All() => All(GraphicsDriver.Find());

    internal static IReadOnlyList<GraphicsProcessor> All(GraphicsDriver? found) =>
        found is { } driver
            ? [.. Enumerable.Range(0, driver.Count).Select(i => new GraphicsProcessor(driver, driver.Device(i)))]
            : [];

    public string Name { get; }

    public int Multiprocessors => driver.Multiprocessors(device);

    /// <summary>The highest clock of a multiprocessor.</summary>
    public double Hertz => driver.Hertz(device);

    /// <summary>Registers of 32 bits that a thread of one of its kernels takes, and bytes of memory for what does not fit there.</summary>
    public (int Registers, int Spilled) Taken(IGraphicsKernel kernel) => driver.Taken(((Kernel)kernel).Function);

    private void Enter()
    {
        if (context == 0)
        {
            context = driver.Context(Name, device);
        }
        driver.Enter(Name, context);
    }

    public IGraphicsKernel Load(PtxKernel kernel)
    {
        Enter();
        return new Kernel(this, kernel);
    }

    private sealed class Kernel : IGraphicsKernel
    {
        private const uint ThreadsInBlock = 128;

        private readonly GraphicsProcessor processor;
        private readonly PtxKernel kernel;
        private readonly nint module;
        private readonly ulong counts;
        private (ulong Address, int Bytes) marks;

        public Kernel(GraphicsProcessor processor, PtxKernel kernel)
        {
            this.processor = processor;
            this.kernel = kernel;
            module = Driver.Module(Name, kernel.Text);
            try
            {
                Function = Driver.Function(Name, module, PtxKernel.Entry);
                counts = Driver.Memory(Name, CountBytes);
            }
            catch (GraphicsException)
            {
                Dispose();
                throw;
            }
        }

        public nint Function { get; }

        private GraphicsDriver Driver => processor.driver;

        public string Name => processor.Name;

        private int CountBytes => kernel.CountWords * sizeof(ulong);

        public GraphicsOutcome Run(long from, long to)
        {
            processor.Enter();
            var rows = kernel.Rows(from, to);
            var bytes = kernel.MarkBytes(rows);
            if (marks.Bytes < bytes)
            {
                Driver.Free(marks.Address);
                marks = default;
                marks = (Driver.Memory(Name, bytes), bytes);
            }
            Driver.Clear(Name, counts, CountBytes);
            Driver.Clear(Name, marks.Address, bytes);
            var blocks = (uint)((kernel.Threads(rows) + ThreadsInBlock - 1) / ThreadsInBlock);
            Driver.Run(Name, Function, blocks, ThreadsInBlock, (ulong)from, (ulong)to, counts, marks.Address);
            var counted = MemoryMarshal.Cast<byte, ulong>(Driver.Read(Name, counts, CountBytes)).ToArray();
            var fails = counted.Where((_, i) => i % 2 != 0).Any(count => count != 0);
            return new GraphicsOutcome(counted, fails ? Driver.Read(Name, marks.Address, bytes) : []);
        }

        /// <summary>From whatever thread; what a device had that is gone went with it.</summary>
        public void Dispose()
        {
            if (!Driver.IsEntered(processor.context))
            {
                return;
            }
            Driver.Free(marks.Address);
            Driver.Free(counts);
            Driver.Unload(module);
        }
    }
}
