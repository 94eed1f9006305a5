using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Operands and results as they stand in sentences.</summary>
internal static class OperandsText
{
    /// <summary>"dividend = 29, divisor = 6"; no line parts a name from its number.</summary>
    /// <param name="bits">Those of each operand, at its width.</param>
    public static string Operands(Datapath datapath, IEnumerable<BigInteger> bits, Vocabulary words) =>
        string.Join(", ", datapath.Operands.Zip(bits, (o, b) => Wrapping.Equation(o.In(words.Language), o.Number(b))));

    /// <summary>"quotient = 4, remainder = 5".</summary>
    public static string Results(Datapath datapath, IEnumerable<BigInteger> bits, Vocabulary words) =>
        string.Join(", ", datapath.Results.Zip(bits, (r, b) => Wrapping.Equation(r.In(words.Language), r.Number(b))));

    /// <summary>"4, 5", where it is known which is which.</summary>
    public static string Numbers(Datapath datapath, IEnumerable<BigInteger> bits) =>
        string.Join(", ", datapath.Results.Zip(bits, (r, b) => $"{r.Number(b)}"));

    /// <summary>Pairs, where there are two operands; inside "given", where something is.</summary>
    public static Term What(Datapath datapath)
    {
        var what = datapath.Operands.Count switch
        {
            1 => new Term("operands.single"),
            2 => new Term("operands.pairs"),
            _ => new Term("operands.sets"),
        };
        return datapath.Given.Count > 0 ? new Term("operands.given", ("what", what)) : what;
    }
}
