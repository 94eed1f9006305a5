using System.Numerics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Datapaths;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What the outside interpreter left: its descriptions, and its walks of them.</summary>
internal static class TwinFiles
{
    private const string Folder = "twin";

    public static IReadOnlyList<string> Machines { get; } = CaseFiles.Names(Folder, ".walks");

    /// <summary>The description that the twin was given.</summary>
    public static Machine Given(string name) => Machine.Read(Find(name)!, Find);

    /// <summary>The catalogue's description of that name, which may say more and must do the same.</summary>
    public static Machine Present(string name) => Machine.Read(MachineCatalogue.Find(name)!, MachineCatalogue.Find);

    private static Source? Find(string name) =>
        CaseFiles.Exists(Folder, $"machines/{name}.machine")
            ? new Source(name + ".machine", CaseFiles.Read(Folder, $"machines/{name}.machine"))
            : null;

    /// <summary>The recorded walks: each its text from "walk" to the line end behind "end".</summary>
    public static IReadOnlyList<string> Blocks(string name)
    {
        var text = CaseFiles.Read(Folder, name + ".walks");
        var head = text.IndexOf("\nwalk", StringComparison.Ordinal) + 1;
        Assert.All(text[..head].TrimEnd().Split('\n'), line => Assert.StartsWith("#", line));
        var blocks = text[head..].Split("end\n");
        Assert.Equal("", blocks[^1]);
        return [.. blocks[..^1].Select(b => b + "end\n")];
    }

    /// <summary>The digests of a machine: main width, number of walks, SHA-256 over their texts.</summary>
    public static IEnumerable<(int Width, int Walks, string Digest)> Digests(string name) =>
        from line in CaseFiles.Read(Folder, "digests.txt").Split('\n')
        where line.StartsWith(name + " ", StringComparison.Ordinal)
        let words = line.Split([' ', '='])
        select (int.Parse(words[2]), int.Parse(words[4]), words[6]);

    /// <summary>All operands in the order of the digests: the first operand outermost, each ascending as a number.</summary>
    public static IEnumerable<BigInteger[]> AllOperands(Datapath datapath)
    {
        IEnumerable<BigInteger[]> tuples =
        [
            [],
        ];
        foreach (var operand in datapath.Operands)
        {
            var low = operand.IsSigned ? -(1 << (operand.Width - 1)) : 0;
            var words = Enumerable
                .Range(low, 1 << operand.Width)
                .Select(number => Numbers.Bits.Wrap(number, operand.Width))
                .ToList();
            tuples = tuples.SelectMany(t => words.Select(w => (BigInteger[])[.. t, w]));
        }
        return tuples;
    }
}
