using System.Text;
using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Chosen operands as they are read. Nothing says "all" unless all were tried.</summary>
/// <param name="condition">What was asked for, as it was asked; null for nothing particular.</param>
public sealed partial class OperandsReport(Candidates candidates, string? condition, int seed)
{
    private readonly Datapath datapath = candidates.Datapath;

    /// <param name="slips">What slips that were asked for give for them; null where none was.</param>
    public string Best(IReadOnlyList<ChosenOperands> best, SlipsShown? slips, Vocabulary words, int columns)
    {
        var text = new StringBuilder();
        Head(text, words, columns);
        var none = Scoped("operands.none", "operands.none-sampled");
        var some = Scoped("operands.found", "operands.found-sampled");
        Filled(text, words.Say(best.Count == 0 ? none : some, Facts()), columns);
        if (best.Count == 0)
        {
            return text.ToString();
        }
        if (best.Count > 1)
        {
            Filled(text, words.Say("operands.order"), columns);
        }
        text.Append('\n');
        OperandsTable.Write(text, datapath, best, words, columns, slips is null ? null : SlipTable.Marks(best.Count));
        if (slips is not null)
        {
            SlipTable.Write(text, datapath, slips, words, columns);
        }
        return text.ToString();
    }

    private void Head(StringBuilder text, Vocabulary words, int columns)
    {
        Filled(text, Reporting.Names.Of(datapath, words), columns);
        if (datapath.Machine.Title is { } title)
        {
            Filled(text, title.In(words.Language), columns);
        }
        if (condition is not null)
        {
            Filled(text, words.Say("operands.asked", ("condition", condition)), columns);
        }
        text.Append('\n');
    }

    /// <summary>What is said of all operands, or of those of a sample.</summary>
    private string Scoped(string all, string sampled) => candidates.IsExhaustive ? all : sampled;

    private Fact[] Facts() =>
        [("count", candidates.Count), ("cases", candidates.Cases), ("what", What(datapath)), ("seed", seed)];

    /// <summary>Pairs, where there are two operands; inside "given", where something is.</summary>
    internal static Term What(Datapath datapath)
    {
        var what = datapath.Operands.Count switch
        {
            1 => new Term("operands.single"),
            2 => new Term("operands.pairs"),
            _ => new Term("operands.sets"),
        };
        return datapath.Given.Count > 0 ? new Term("operands.given", ("what", what)) : what;
    }

    private static void Filled(StringBuilder text, string said, int columns)
    {
        foreach (var line in Wrapping.Lines(said, columns))
        {
            text.Append(line).Append('\n');
        }
    }
}
