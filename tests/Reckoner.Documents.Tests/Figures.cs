using System.Numerics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Drawing;
using Reckoner.Running;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Documents.Tests;

/// <summary>Figures of walks, to be written.</summary>
internal static class Figures
{
    public static Figure Of(string name, int width, params IReadOnlyList<BigInteger> operands)
    {
        var machine = Machine.Read(MachineCatalogue.Find(name)!, MachineCatalogue.Find);
        var widths = new Dictionary<string, BigInteger> { [machine.Widths.First().Name.Text] = width };
        var datapath = machine.At(widths).Datapath;
        Assert.NotNull(datapath);
        return Figure.Of(Walk.Of(datapath, operands), Vocabulary.English);
    }

    public static Scene Weave(string name, int width, params IReadOnlyList<BigInteger> operands) =>
        Drawing.Weave.Of(Of(name, width, operands));
}
