using Reckoner.Costing;
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

/// <summary>A machine as hardware text, with the bench that holds it against its walks. The bench is made when it is asked for.</summary>
internal sealed class HdlFiles
{
    private readonly HdlLanguage language;
    private readonly IReadOnlyList<string> head;
    private readonly Vocabulary words;
    private readonly Lazy<HdlVectors> vectors;

    private HdlFiles(HdlModule module, HdlLanguage language, Vocabulary words)
    {
        this.language = language;
        this.words = words;
        Module = module;
        Names = HdlFileNames.Of(module.Name, language);
        head =
        [
            .. HdlHead.Of(module.Datapath, words),
            words.Say("hdl.caution"),
            .. module.Changed.Select(c => words.Say("hdl.renamed", ("wanted", c.Wanted), ("given", c.Given))),
        ];
        vectors = new(() => HdlVectors.Of(module.Datapath));
    }

    public HdlModule Module { get; }

    public HdlFileNames Names { get; }

    /// <summary>What the bench tries: walks of many operands.</summary>
    public HdlVectors Vectors => vectors.Value;

    /// <summary>The adders of a module that is written as it is built; null where it is written as the description is.</summary>
    private AdderChoice? Built { get; init; }

    /// <param name="gap">What is left out for a lab; null for nothing.</param>
    /// <param name="built">The adders of a Verilog module that is written as it is built; null for as it is described.</param>
    public static HdlFiles Of(
        Datapath datapath,
        HdlLanguage language,
        Vocabulary words,
        HdlGap? gap = null,
        AdderChoice? built = null
    )
    {
        var whole = HdlModule.Of(datapath, words.Language);
        return new HdlFiles(gap is null ? whole : whole.Without(gap), language, words) { Built = built };
    }

    public string ModuleText =>
        language switch
        {
            HdlLanguage.Verilog when Built is { } adders => AsBuilt.Of(
                Module,
                adders,
                head,
                text => VerilogWriter.Ports(text, Module, words)
            ),
            HdlLanguage.Verilog => VerilogWriter.Of(Module, head, words),
            HdlLanguage.Vhdl => VhdlWriter.Of(Module, head, words),
        };

    public string BenchText =>
        language switch
        {
            HdlLanguage.Verilog => VerilogBench.Of(Module, Vectors, Names, head),
            HdlLanguage.Vhdl => VhdlBench.Of(Module, Vectors, Names, head),
        };

    /// <summary>Every file, with its text.</summary>
    public IEnumerable<(string Name, string Text)> All =>
        [
            (Names.Module, ModuleText),
            (Names.Bench, BenchText),
            (Names.Operations, Vectors.OperationLines(Module.Datapath)),
            (Names.Edges, Vectors.EdgeLines(Module.Datapath)),
        ];
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
