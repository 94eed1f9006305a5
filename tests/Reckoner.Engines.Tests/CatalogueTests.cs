using System.Numerics;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Xunit;

namespace Reckoner.Engines.Tests;

/// <summary>Every machine of the catalogue, also those wrong on purpose, against the walk of each of its operands.</summary>
public sealed class CatalogueTests
{
    /// <summary>A walk takes some hundredths of a millisecond a cycle.</summary>
    private const int MostBits = 10;

    /// <summary>So many bits of operands are walked in the quick run, where a machine has so few.</summary>
    private const int QuickBits = 8;

    /// <summary>Those that can be so narrow. Units for floating-point numbers cannot, and have tests of their own.</summary>
    public static IReadOnlyList<string> Narrow { get; } =
    [.. MachineCatalogue.Names.Where(name => Machines.Within(name, MostBits) is not null)];

    public static IEnumerable<TheoryDataRow<string>> Names => Narrow.Select(name => new TheoryDataRow<string>(name));

    [Fact]
    public void Only_floating_point_is_passed_over() =>
        Assert.All(MachineCatalogue.Names.Except(Narrow), name => Assert.Contains("-floating", name));

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_engine_finds_what_walking_every_operand_finds(string name) => FindTheSame(name, QuickBits);

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Names))]
    public void So_it_does_for_more_operands(string name) => FindTheSame(name, MostBits);

    private static void FindTheSame(string name, int bits)
    {
        var datapath = Machines.Within(name, bits) ?? Machines.Within(name, MostBits);
        Assert.NotNull(datapath);
        var walked = Machines.Line(Machines.Walked(datapath));
        foreach (var use in Enum.GetValues<OracleUse>())
        {
            var check = CheckProgram.Of(datapath, null, use);
            Assert.All(Runs.Engines, engine => Assert.Equal(walked, Runs.Line(check, engine)));
        }
    }

    [Fact]
    public void So_does_the_worker_under_node()
    {
        Node.SkipWhenMissing();
        var checks = Narrow
            .Select(name =>
                CheckProgram.Of(
                    (Machines.Within(name, QuickBits) ?? Machines.Within(name, MostBits))!,
                    null,
                    OracleUse.Stepped
                )
            )
            .ToList();
        Assert.Equal(checks.Select(c => Runs.Line(c, Runs.Engines[0])), Node.Lines(checks));
    }

    /// <summary>The operands inside "given" counted by a formula, at widths of one step of lanes and of many.</summary>
    [Theory]
    [InlineData("divide-shared-register", 5)]
    [InlineData("divide-shared-register", 9)]
    [InlineData("divide-non-restoring", 7)]
    [InlineData("multiply-shared-register", 9)]
    [InlineData("multiply-booth", 8)]
    [InlineData("divide-signed-truncating", 7)]
    [InlineData("root-restoring", 8)]
    [InlineData("divide-double-length", 5)]
    public void Cases_are_as_many_as_the_formula_says(string name, int n)
    {
        var all = BigInteger.One << n;
        var expected = name switch
        {
            "divide-shared-register" or "divide-non-restoring" => all * (all - 1),
            // Neither zero nor the smallest number by -1.
            "divide-signed-truncating" => all * (all - 1) - 1,
            "root-restoring" => all * all,
            "divide-double-length" => all * all * all,
            _ => all * all,
        };
        var check = CheckProgram.Of(Machines.At(name, n), null, OracleUse.Stepped);
        Assert.All(
            Runs.Engines,
            engine =>
            {
                var counts = Runs.Counts(check, engine, 0, check.Space.Steps);
                Assert.Equal(expected, counts[0].Cases);
                if (counts is [var inside, { Section: CheckSection.Outside } outside])
                {
                    Assert.Equal(BigInteger.One << check.Space.Bits, inside.Cases + outside.Cases);
                }
            }
        );
    }

    [Theory]
    [InlineData("divide-shared-register", 8)]
    [InlineData("multiply-booth", 7)]
    [InlineData("multiply-high-signed-unsigned", 7)]
    [InlineData("divide-double-length", 5)]
    public void Stepping_from_anywhere_gives_what_writing_out_gives(string name, int width)
    {
        var datapath = Machines.At(name, width);
        var stepped = CheckProgram.Of(datapath, null, OracleUse.Stepped);
        var written = CheckProgram.Of(datapath, null, OracleUse.Written);
        for (long from = 0; from < stepped.Space.Steps; from++)
        {
            var to = Math.Min(stepped.Space.Steps, from + 3);
            Assert.Equal(Line(written, from, to), Line(stepped, from, to));
        }

        static string Line(CheckProgram check, long from, long to) =>
            Machines.Line(Runs.Counts(check, Runs.Engines[0], from, to));
    }
}
