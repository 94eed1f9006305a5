using System.Numerics;

namespace Reckoner.Tests;

/// <summary>
/// A cycle table from a book or a lecture, as text: head lines (source, machine, perhaps slip, width, operands, results), then a table whose
/// first column is the cycle, or cycle.moment for what stands on the wires inside it. The other columns are registers, parts
/// or named values in binary, or places of them (A[3..0]); "." is what the publication does not print, and columns in round
/// brackets are its own words. A publication that is wrong tells in its head where it first differs from the machine.
/// </summary>
internal sealed record PublishedTable(
    string Source,
    string Machine,
    string? Slip,
    int Width,
    IReadOnlyList<BigInteger> Operands,
    IReadOnlyDictionary<string, BigInteger> Results,
    string? FirstWrong,
    IReadOnlyList<string> Columns,
    IReadOnlyList<IReadOnlyList<string>> Rows
)
{
    public static PublishedTable Read(string text)
    {
        var lines = text.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        var head = lines
            .TakeWhile(l => !l.StartsWith('|'))
            .Select(l => l.Split(' ', 2))
            .ToDictionary(l => l[0], l => l[1]);
        var table = lines.SkipWhile(l => !l.StartsWith('|')).Select(Cells).ToList();
        return new PublishedTable(
            head["source"],
            head["machine"],
            head.GetValueOrDefault("slip"),
            int.Parse(head["width"]),
            [.. head["operands"].Split(' ').Select(BigInteger.Parse)],
            head["results"].Split(' ').Select(r => r.Split('=')).ToDictionary(r => r[0], r => BigInteger.Parse(r[1])),
            head.GetValueOrDefault("first-wrong"),
            table[0],
            [.. table.Skip(2)]
        );
    }

    private static List<string> Cells(string line) => [.. line.Trim().Trim('|').Split('|').Select(c => c.Trim())];

    /// <summary>Where the machine's walk and the table differ, a line each.</summary>
    public IReadOnlyList<string> Differences()
    {
        var walk = Walks.Of(Walks.At(Machine, Slip, Width), Operands);
        var found = new List<string>();
        foreach (var row in Rows)
        {
            for (var i = 1; i < Columns.Count; i++)
            {
                if (row[i] != "." && !Columns[i].StartsWith('('))
                {
                    var printed = row[i].Replace(" ", "");
                    var computed = WalkPlace.Bits(walk, row[0], Columns[i]);
                    if (printed != computed)
                    {
                        found.Add($"{row[0]} {Columns[i]}: published {printed}, computed {computed}");
                    }
                }
            }
        }
        found.AddRange(
            Results
                .Where(r => walk.Result(r.Key) != r.Value)
                .Select(r => $"{r.Key}: published {r.Value}, computed {walk.Result(r.Key)}")
        );
        return found;
    }
}
