using System.Globalization;
using System.Numerics;
using System.Text.RegularExpressions;
using Reckoner.Classroom;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Explaining;

/// <summary>
/// Reads what was got: results as numbers ("quotient=4 remainder=5"), registers as bits in a cycle ("cycle 3: R=00101 Q=01100",
/// several behind semicolons), or registers in the end.
/// </summary>
internal static partial class GotReader
{
    /// <param name="cycles">How many cycles the right walk has: those that registers without a cycle belong to.</param>
    /// <returns>Null with the reason in the report.</returns>
    public static Seen? Of(Datapath datapath, string got, int cycles, Report report)
    {
        var rows = new SortedDictionary<int, HandWord[]>();
        var results = new BigInteger?[datapath.Results.Count];
        foreach (var part in got.Split(';', StringSplitOptions.RemoveEmptyEntries))
        {
            var colon = part.IndexOf(':', StringComparison.Ordinal);
            int? cycle = null;
            if (colon >= 0)
            {
                cycle = Cycle(part[..colon]);
                if (cycle is null || cycle > datapath.MostCycles)
                {
                    Wrong(Id.GotCycle, part[..colon].Trim(), ("most", datapath.MostCycles));
                    return null;
                }
            }
            var equations = Equation().Replace(part[(colon + 1)..], "=");
            foreach (var word in equations.Split([' ', ','], StringSplitOptions.RemoveEmptyEntries))
            {
                if (!Read(word, cycle))
                {
                    return null;
                }
            }
        }
        // A row of which nothing is known says nothing.
        foreach (var unknown in rows.Where(r => r.Value.All(w => w.Written.IsZero)).Select(r => r.Key).ToList())
        {
            rows.Remove(unknown);
        }
        if (rows.Count == 0 && results.All(r => r is null))
        {
            Wrong(Id.GotForm, got.Trim());
            return null;
        }
        return new Seen(Rows(), results) { IsPart = rows.Count > 0 };

        bool Read(string word, int? cycle)
        {
            var equals = word.IndexOf('=', StringComparison.Ordinal);
            if (equals <= 0)
            {
                Wrong(Id.GotForm, word);
                return false;
            }
            var (name, value) = (word[..equals], word[(equals + 1)..]);
            var result = datapath.Results.ToList().FindIndex(r => r.Name == name);
            if (cycle is null && result >= 0)
            {
                results[result] = Number(datapath.Results[result], value);
                return results[result] is not null
                    || Wrong(Id.GotValue, word, ("size", datapath.Results[result].Width));
            }
            if (datapath.Registers.FirstOrDefault(r => r.Name == name) is not { } register)
            {
                List<string> names =
                [
                    .. cycle is null ? datapath.Results.Select(r => r.Name) : [],
                    .. datapath.Registers.Select(r => r.Name),
                ];
                return Wrong(
                    Id.GotName,
                    name,
                    ("names", names.Distinct().ToList()),
                    ("near", NearNames.Of(name, names)),
                    ("results", result >= 0 ? new Term("why.results-no-cycle") : "")
                );
            }
            if (HandCell.Of(value, register.Width, []) is not { } bits)
            {
                return Wrong(Id.GotValue, word, ("size", register.Width));
            }
            var at = cycle ?? cycles;
            if (!rows.TryGetValue(at, out var row))
            {
                rows[at] = row = [.. datapath.Registers.Select(_ => HandWord.Blank)];
            }
            row[register.Index] = bits;
            return true;
        }

        IReadOnlyList<SeenRow> Rows()
        {
            if (rows.Count == 0)
            {
                return [];
            }
            var layout = RowLayout.Of(datapath)!;
            return
            [
                .. Enumerable
                    .Range(0, rows.Keys.Max() + 1)
                    .Select(i => rows.TryGetValue(i, out var row) ? SeenRow.Of(layout, row) : default),
            ];
        }

        bool Wrong(Id id, string word, params ReadOnlySpan<Fact> facts)
        {
            report.Add(id, default, [("machine", datapath.Machine.Name), ("word", Excerpt.Of(word)), .. facts]);
            return false;
        }
    }

    [GeneratedRegex(@"\s*=\s*")]
    private static partial Regex Equation();

    /// <summary>The number in "cycle 3", "Takt 3", "3" or "load".</summary>
    private static int? Cycle(string text)
    {
        var last = text.Split(' ', StringSplitOptions.RemoveEmptyEntries).LastOrDefault() ?? "";
        return last == "load" ? 0
            : int.TryParse(last, NumberStyles.None, CultureInfo.InvariantCulture, out var cycle) ? cycle
            : null;
    }

    private static BigInteger? Number(Result result, string text)
    {
        if (OperandReader.Number(text) is not { } number)
        {
            return null;
        }
        // A result that is taken for unsigned where it has a sign, or the other way round, still says which bits were meant.
        var fits = Bits.Fits(number, result.Width, isSigned: true) || Bits.Fits(number, result.Width, isSigned: false);
        return fits ? Bits.Wrap(number, result.Width) : null;
    }
}
