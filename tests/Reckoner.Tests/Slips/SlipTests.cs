using System.Numerics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests.Slips;

public class SlipTests
{
    public static TheoryData<string> Machines =>
        [
            "divide-shared-register",
            "divide-non-restoring",
            "multiply-booth",
            "multiply-early-out",
            "root-restoring",
            "divide-srt-radix-2",
        ];

    private static Machine Named(string name) => Machine.Read(MachineCatalogue.Find(name)!, MachineCatalogue.Find);

    [Theory]
    [MemberData(nameof(Machines))]
    public void Names_are_different_and_need_no_quoting(string machine)
    {
        var names = Slip.Of(Named(machine)).Select(s => s.Name).ToList();

        Assert.NotEmpty(names);
        Assert.Equal(names.Count, names.Distinct().Count());
        Assert.All(names, n => Assert.All(n, c => Assert.True(char.IsLetterOrDigit(c) || c is '-' or '_', n)));
    }

    [Fact]
    public void Names_stay_when_unrelated_lines_change()
    {
        var source = MachineCatalogue.Find("divide-shared-register")!;
        var longer = new Source(
            source.Name,
            source.Text.Replace(
                "operand dividend",
                "note \"A line more.\"\n\noperand dividend",
                StringComparison.Ordinal
            )
        );

        var before = Slip.Of(Machine.Read(source, MachineCatalogue.Find)).Select(s => s.Name);
        var after = Slip.Of(Machine.Read(longer, MachineCatalogue.Find)).Select(s => s.Name);

        Assert.Equal(before, after);
    }

    [Theory]
    [MemberData(nameof(Machines))]
    public void A_slip_prints_as_a_description_that_is_the_same_machine(string machine)
    {
        var widths = Named(machine).At(4).Datapath!.Widths.ToDictionary(w => w.Name, w => w.Value);
        foreach (var slip in Slip.Of(Named(machine)))
        {
            if (slip.Machine.Built(widths) is not { } built)
            {
                continue;
            }
            var text = Printer.Text(slip.Machine.Description);
            var again = Machine.Read(new Source(slip.Name, text), MachineCatalogue.Find).Built(widths);

            Assert.NotNull(again);
            foreach (var operands in OperandCorners.Crossed(built).Take(40))
            {
                Assert.Equal(Walk.Of(built, operands).Results, Walk.Of(again, operands).Results);
            }
        }
    }

    /// <summary>Counts and smallest operands from planes, against running every pair statement by statement.</summary>
    [Theory]
    [MemberData(nameof(Machines))]
    public void Counts_agree_with_running_every_operand(string machine)
    {
        var datapath = Named(machine).At(machine == "root-restoring" ? 2 : 3).Datapath!;
        var study = SlipStudy.Of(datapath, InterpretedEngine.Widest, sample: null, withConditions: true);
        var judge = new ClaimJudge(datapath);
        var given = OperandCorners.Of(datapath).Where(judge.IsGiven).ToList();
        var right = given.Select(o => Walk.Of(datapath, o).Results).ToList();

        Assert.Equal(given.Count, study.Cases);
        Assert.NotEmpty(study.Slips);
        foreach (var studied in study.Slips)
        {
            var slipped = studied.Slip.Machine.Built(datapath.Widths.ToDictionary(w => w.Name, w => w.Value))!;
            var exposing = Enumerable
                .Range(0, given.Count)
                .Where(i => !Walk.Of(slipped, given[i]).Results.SequenceEqual(right[i]))
                .ToList();

            Assert.True(
                exposing.Count == studied.Exposed,
                $"{studied.Slip.Name}: {studied.Exposed}, by running {exposing.Count}"
            );
            var smallest = exposing.Select(i => given[i]).OrderBy(o => Rank.Of(datapath.Operands, o)).FirstOrDefault();
            Assert.Equal(smallest, studied.Smallest);
            if (studied.When is { } when)
            {
                Assert.Equal(
                    exposing,
                    Enumerable.Range(0, given.Count).Where(i => IsSo(when, datapath, given[i], right[i]))
                );
            }
        }
    }

    /// <summary>A condition as its words say, judged with numbers.</summary>
    private static bool IsSo(
        Condition when,
        Datapath datapath,
        IReadOnlyList<BigInteger> operands,
        IReadOnlyList<BigInteger> results
    )
    {
        var names = new Dictionary<string, Rational>();
        foreach (var operand in datapath.Operands)
        {
            names[operand.Name] = Evaluator.Number(operand, operands[operand.Index]);
        }
        foreach (var (result, bits) in datapath.Results.Zip(results))
        {
            names[result.Name] = result.Number(bits);
        }
        bool IsOdd(string name) => !names[name].Numerator.IsEven;
        return when.Key switch
        {
            "slips.always" => true,
            "slips.odd" => when.Text.Split(" and ").All(IsOdd)
                || (when.Text.Contains(" or ", StringComparison.Ordinal) && when.Text.Split(" or ").Any(IsOdd)),
            "slips.even" => when.Text.Split(" and ").All(n => !IsOdd(n)),
            _ => Law(when.Text, names),
        };
    }

    private static bool Law(string text, Dictionary<string, Rational> names)
    {
        var (description, found) = Parser.Read(new Source("", $"machine m\nlaw {text}\n"));
        Assert.Empty(found);
        return new Formulas(names).Truth(description.Declarations.OfType<ClaimLine>().Single().Formula)!.Value;
    }
}
