using Reckoner.Datapaths;
using Reckoner.Words;

namespace Reckoner.Hdl;

internal enum HdlLanguage
{
    Verilog,
    Vhdl,
}

/// <summary>The files that are handed out together.</summary>
internal sealed record HdlFileNames(string Module, string Bench, string Operations, string Edges)
{
    public static HdlFileNames Of(string module, HdlLanguage language)
    {
        var ending = language switch
        {
            HdlLanguage.Verilog => ".v",
            HdlLanguage.Vhdl => ".vhd",
        };
        return new(module + ending, module + "_bench" + ending, module + "_vectors.txt", module + "_edges.txt");
    }
}

/// <summary>A machine as hardware text, with the bench that holds it against its walks.</summary>
internal sealed record HdlFiles(
    HdlModule Module,
    HdlFileNames Names,
    string ModuleText,
    string BenchText,
    string Operations,
    string Edges,
    HdlVectors Vectors
)
{
    /// <param name="gap">What is left out for a lab; null for nothing.</param>
    public static HdlFiles Of(Datapath datapath, HdlLanguage language, Vocabulary words, HdlGap? gap = null)
    {
        var whole = HdlModule.Of(datapath);
        var module = gap is null ? whole : whole.Without(gap);
        var names = HdlFileNames.Of(module.Name, language);
        var vectors = HdlVectors.Of(datapath);
        IReadOnlyList<string> head =
        [
            .. HdlHead.Of(datapath, words),
            words.Say("hdl.caution"),
            .. module.Changed.Select(c => words.Say("hdl.renamed", ("wanted", c.Wanted), ("given", c.Given))),
        ];
        var (text, bench) = language switch
        {
            HdlLanguage.Verilog => (VerilogWriter.Of(module, head), VerilogBench.Of(module, vectors, names, head)),
            HdlLanguage.Vhdl => (VhdlWriter.Of(module, head), VhdlBench.Of(module, names, head)),
        };
        return new HdlFiles(
            module,
            names,
            text,
            bench,
            vectors.OperationLines(datapath),
            vectors.EdgeLines(datapath),
            vectors
        );
    }

    public IEnumerable<(string Name, string Text)> All =>
        [(Names.Module, ModuleText), (Names.Bench, BenchText), (Names.Operations, Operations), (Names.Edges, Edges)];
}

/// <summary>What stands above every file: what it is, and where it comes from.</summary>
internal static class HdlHead
{
    public static IReadOnlyList<string> Of(Datapath datapath, Vocabulary words)
    {
        var machine = datapath.Machine;
        var widths = string.Join(", ", datapath.Widths.Select(w => $"{w.Name} = {w.Value}"));
        return
        [
            machine.Title is { } title ? $"{machine.Name}: {title.In(words.Language)}" : machine.Name,
            .. widths.Length > 0 ? [widths] : Array.Empty<string>(),
            machine.Hash,
            .. machine.Slip is { } slip ? [words.Say("hdl.slip", ("slip", slip))] : Array.Empty<string>(),
        ];
    }
}
