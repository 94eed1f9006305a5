using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Notation;
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

    /// <summary>The second slip of what A loads, and the first of A[2], would be called alike.</summary>
    [Fact]
    public void A_number_is_passed_over_that_a_place_has_in_its_name()
    {
        var machine = Machine.Read(
            new Source(
                "alike",
                """
                machine alike

                width n = 5 in 5..8

                operand a : n

                register A : 3 loads a[3..1]
                register B : 1 loads 0

                step look
                  if A[2]
                    B <- not B
                  end

                result b = B
                """
            ),
            _ => null
        );
        var off = Slip.Of(machine).Where(s => s.Kind == "place-off-by-one").Select(s => (s.Name, s.Line)).ToList();
        Assert.Equal(off.Count, off.Select(s => s.Name).Distinct().Count());
        Assert.Contains(off, s => s.Line == 7);
        Assert.Contains(off, s => s.Line == 11);
    }

    /// <summary>A name and what it stands for: the same edit of the same text, apart from what was added.</summary>
    [Theory]
    [InlineData("operand dividend de", "-- A comment.\noperand dividend de")]
    [InlineData("operand dividend de", "note \"A line more.\"\n\noperand dividend de")]
    [InlineData("part left", "register spare \"nothing to do with it\" : 3 loads 5\npart left")]
    [InlineData("  then\n", "  -- Two moments.\n  then\n")]
    public void Names_stay_when_unrelated_lines_change(string stretch, string replacement)
    {
        var source = MachineCatalogue.Find("divide-shared-register")!;
        Assert.Equal(2, source.Text.Split(stretch).Length);
        var longer = new Source(source.Name, source.Text.Replace(stretch, replacement, StringComparison.Ordinal));

        var before = Slip.Of(Machine.Read(source, MachineCatalogue.Find)).ToDictionary(s => s.Name, Text);
        var after = Slip.Of(Machine.Read(longer, MachineCatalogue.Find)).ToDictionary(s => s.Name, Text);

        Assert.All(before, slip => Assert.Equal(slip.Value, after.GetValueOrDefault(slip.Key)));
        Assert.All(after.Keys.Except(before.Keys), name => Assert.Contains("spare", name, StringComparison.Ordinal));
    }

    private static string Text(Slip slip) =>
        string.Join(
            '\n',
            Printer
                .Text(slip.Machine.Description, comments: false)
                .Split('\n', StringSplitOptions.RemoveEmptyEntries)
                .Where(line => !line.StartsWith("note", StringComparison.Ordinal) && !line.Contains("spare"))
        );

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
        var twin = new SlipTwin(datapath);

        Assert.Equal(twin.Given.Count, study.Cases);
        Assert.NotEmpty(study.Slips);
        foreach (var studied in study.Slips)
        {
            var exposing = twin.Exposing(studied.Slip);

            Assert.True(
                exposing.Count == studied.Exposed,
                $"{studied.Slip.Name}: {studied.Exposed}, by running {exposing.Count}"
            );
            var smallest = exposing
                .Select(i => twin.Given[i])
                .OrderBy(o => Rank.Of(datapath.Operands, o))
                .FirstOrDefault();
            Assert.Equal(smallest, studied.Smallest);
        }
    }

    /// <summary>A table is filled once for all slips that leave it, and anew where its sentence or the width is another.</summary>
    [Fact]
    public void Slips_that_leave_a_table_as_it_is_share_it()
    {
        var machine = Named("divide-srt-radix-2");
        var right = machine.At(4).Datapath!;
        var slips = Slip.Of(machine);
        Table At(string slip, int width) => slips.Single(s => s.Name == slip).Machine.At(width).Datapath!.Tables[0];

        Assert.Same(right.Tables[0], At("loop-longer-repeat", 4));
        Assert.NotSame(right.Tables[0], At("row-left-out-digit", 4));
        Assert.NotSame(right.Tables[0], At("loop-longer-repeat", 5));
    }
}
