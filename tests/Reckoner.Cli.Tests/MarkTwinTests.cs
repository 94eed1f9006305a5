using System.Text.Json;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Classroom;
using Reckoner.Explaining;
using Reckoner.Marking;
using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>
/// A program that shares nothing with ours says of each row of tables with something wrong in them whether it follows from the row
/// above; ours says the same, and nobody gets less than what that program counts.
/// </summary>
public sealed class MarkTwinTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-rows-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private static readonly (string Name, int Width)[] Quick =
    [
        ("divide-still-divisor", 5),
        ("multiply-booth", 4),
        ("divide-early-out", 4),
        ("root-non-restoring", 6),
    ];

    [Fact]
    public void Rows_stand_as_the_outside_program_says() => Agree(Quick, 60);

    [Fact]
    [Trait("Length", "long")]
    public void So_they_do_in_many_tables_of_more_machines() =>
        Agree(
            [
                .. Quick,
                ("divide-shared-register", 6),
                ("divide-non-restoring", 5),
                ("multiply-shared-register", 6),
                ("multiply-in-steps", 4),
                ("divide-signed-restoring", 4),
                ("multiply-early-out", 5),
            ],
            2000
        );

    private void Agree(IReadOnlyList<(string Name, int Width)> machines, int each)
    {
        var seed = Seeds.Next();
        var random = new Random(seed);
        var texts = MachineCatalogue.Entries.ToDictionary(e => e.Name, e => e.Source.Text);
        var tables = new List<(Ways Ways, ulong[] Operands, List<UInt128> Rows)>();
        var widths = new Dictionary<string, Dictionary<string, string>>();
        foreach (var (name, width) in machines)
        {
            var datapath = Machine.Read(MachineCatalogue.Find(name)!, MachineCatalogue.Find).At(width).Datapath!;
            widths[name] = datapath.Widths.ToDictionary(w => w.Name, w => $"{w.Value}");
            var ways = Ways.Of(datapath, [])!;
            tables.AddRange(Enumerable.Range(0, each).Select(_ => Drawn(ways, random)));
        }
        var file = Path.Combine(folder, "tables.json");
        File.WriteAllText(
            file,
            JsonSerializer.Serialize(
                new
                {
                    texts,
                    widths,
                    tables = tables.Select(t => new
                    {
                        machine = t.Ways.Datapath.Machine.Name,
                        operands = t.Operands,
                        rows = t.Rows.Select(r => t.Ways.Layout.Registers(r).Select(b => (long)b)),
                    }),
                }
            )
        );
        var said = JsonDocument.Parse(OutsideTwinTests.Python("rows.py", file)).RootElement;
        Assert.Equal(tables.Count, said.GetArrayLength());
        var wrong = 0;
        foreach (var (table, theirs) in tables.Zip(said.EnumerateArray()))
        {
            var seen = new Seen(
                [.. table.Rows.Select(r => new SeenRow(r, table.Ways.Layout.Mask))],
                [.. table.Ways.Datapath.Results.Select(_ => (System.Numerics.BigInteger?)null)]
            );
            var rows = FollowThrough.Of(table.Ways, table.Operands, seen.Rows);
            var (stand, missing, extra) = (theirs[0].GetString()!, theirs[1].GetInt32(), theirs[2].GetInt32());
            var what =
                $"RECKONER_SEED={seed}, {table.Ways.Datapath.Machine.Name}, {string.Join(' ', table.Operands)}: {string.Join(' ', table.Rows)}";
            Assert.True(stand == string.Concat(rows.Rows.Select(r => Letter(r.Standing))), $"{what}: {stand}");
            Assert.True((missing, extra) == (rows.TooFew, rows.TooMany), what);
            var form = TableForm.Whole(table.Ways.Datapath, table.Ways.Right.Table(table.Operands).Count - 1);
            var mark = TableMark.Of(table.Ways, table.Operands, seen, form, MarkScheme.FollowThrough, 1);
            var counted = stand.Count(s => s == 'W') + missing + extra;
            Assert.True(mark.Credit.Lost <= counted, $"{what}: {mark.Credit.Lost} instead of {counted}");
            wrong += counted > 0 ? 1 : 0;
        }
        // Most have something wrong in them, or it was no test.
        Assert.True(wrong > tables.Count / 2, $"{wrong} of {tables.Count}");
    }

    private static char Letter(RowStanding standing) =>
        standing switch
        {
            RowStanding.Right => 'R',
            RowStanding.Follows => 'F',
            RowStanding.Wrong => 'W',
            RowStanding.Unfinished => '?',
        };

    /// <summary>Up to three bits flipped, each worked on with or not, now and then a row left out, written twice or at the end missing.</summary>
    private static (Ways, ulong[], List<UInt128>) Drawn(Ways ways, Random random)
    {
        var operands = ways.Samples[random.Next(ways.Samples.Count)];
        var rows = ways.Right.Table(operands);
        for (var flips = random.Next(4); flips > 0; flips--)
        {
            var at = random.Next(rows.Count);
            rows[at] ^= UInt128.One << random.Next(ways.Layout.Bits);
            if (random.Next(2) == 0)
            {
                rows = [.. rows[..(at + 1)], .. Onward(ways, rows, at)];
            }
        }
        var odd = random.Next(rows.Count);
        if (random.Next(4) == 0 && rows.Count > 2 && odd > 0)
        {
            rows.RemoveAt(odd);
        }
        else if (random.Next(4) == 0)
        {
            rows.Insert(odd, rows[odd]);
        }
        return (ways, operands, rows);
    }

    private static IEnumerable<UInt128> Onward(Ways ways, List<UInt128> rows, int from)
    {
        var (place, row) = (0, rows[0]);
        for (var i = 1; i <= from && place < ways.Right.MostCycles; i++)
        {
            place = ways.Right.Next(place, rows[i - 1]) + 1;
        }
        row = rows[from];
        for (
            place = ways.Right.Next(place, row);
            place < ways.Right.MostCycles;
            place = ways.Right.Next(place + 1, row)
        )
        {
            yield return row = ways.Right.After(place, row);
        }
    }
}
