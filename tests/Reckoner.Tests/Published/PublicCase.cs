using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Tests;

/// <summary>One line of a case: operands, and the results and rows that they must give.</summary>
internal sealed record CaseRun(IReadOnlyList<BigInteger> Operands, IReadOnlyList<string[]> Results)
{
    /// <summary>Label of a row (cycle, or cycle.moment), and what registers hold there.</summary>
    public List<(string Place, IReadOnlyList<string[]> Registers)> Rows { get; } = [];
}

/// <summary>
/// A machine at a width, its text changed or not: by how many operands it breaks its laws, and what it gives for some. The form is
/// told in tests/cases/public/README.md.
/// </summary>
internal sealed class CaseMachine(string name)
{
    public string Name { get; } = name;
    public List<(string Old, string New)> Changes { get; } = [];
    public Dictionary<string, BigInteger> Widths { get; } = [];
    public (BigInteger Failing, BigInteger Cases)? Failing { get; set; }
    public List<CaseRun> Runs { get; } = [];

    public Datapath Datapath()
    {
        var source = Walks.Text(Name);
        var text = source.Text;
        foreach (var (old, changed) in Changes)
        {
            if (text.Split(old).Length != 2)
            {
                throw new FormatException($"{Name} does not have {old} exactly once");
            }
            text = text.Replace(old, changed);
        }
        var machine = Walks.Read(new Source(source.Name, text));
        var widths = Widths.Select(w => (w.Key.Length > 0 ? w.Key : Machines.MainWidth(machine), w.Value));
        return Machines.Bound(machine, [.. widths]);
    }

    /// <summary>Where the machine gives something else than the case says, a line each.</summary>
    public IEnumerable<string> Differences(Datapath datapath) => Runs.SelectMany(run => Differences(datapath, run));

    private static IEnumerable<string> Differences(Datapath datapath, CaseRun run)
    {
        var walk = Walks.Of(datapath, run.Operands);
        foreach (var result in run.Results)
        {
            var computed = result[0] == "cycles" ? walk.Cycles : walk.Result(result[0]);
            if (computed != BigInteger.Parse(result[1]))
            {
                yield return $"{string.Join(' ', run.Operands)}: {result[0]} is {computed}, not {result[1]}";
            }
        }
        foreach (var (place, registers) in run.Rows)
        {
            foreach (var register in registers)
            {
                var computed = WalkPlace.Bits(walk, place, register[0]);
                if (computed != register[1].Replace("_", ""))
                {
                    yield return $"{string.Join(' ', run.Operands)} at {place}: {register[0]} is {computed}, not {register[1]}";
                }
            }
        }
    }
}

/// <summary>A file of tests/cases/public: what was said in public about machines, and where.</summary>
internal sealed record PublicCase(string Title, string Source, IReadOnlyList<CaseMachine> Machines)
{
    public static PublicCase Read(string text)
    {
        string title = "",
            source = "";
        var machines = new List<CaseMachine>();
        foreach (var line in text.Split('\n').Where(l => l.Length > 0 && l[0] != '#'))
        {
            var word = line.Split(' ')[0];
            var rest = line[word.Length..].Trim();
            switch (word)
            {
                case "title":
                    title = rest;
                    break;
                case "source":
                    source = rest;
                    break;
                case "machine":
                    machines.Add(new CaseMachine(rest));
                    break;
                case "width":
                    foreach (var width in rest.Split(',').Select(w => w.Split('=')))
                    {
                        machines[^1].Widths[width.Length > 1 ? width[0] : ""] = BigInteger.Parse(width[^1]);
                    }
                    break;
                case "change":
                    var change = rest.Split(" => ");
                    machines[^1].Changes.Add((change[0], change[1]));
                    break;
                case "fails":
                    var counts = rest.Split(" of ");
                    machines[^1].Failing = (BigInteger.Parse(counts[0]), BigInteger.Parse(counts[1]));
                    break;
                case "":
                    var row = rest.Split(' ', 2);
                    machines[^1].Runs[^1].Rows.Add((row[0], Pairs(row[1])));
                    break;
                default:
                    var sides = line.Split("->", StringSplitOptions.TrimEntries);
                    machines[^1].Runs.Add(new([.. sides[0].Split(' ').Select(BigInteger.Parse)], Pairs(sides[1])));
                    break;
            }
        }
        return new PublicCase(title, source, machines);
    }

    private static List<string[]> Pairs(string words) =>
        [.. words.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(w => w.Split('='))];
}
