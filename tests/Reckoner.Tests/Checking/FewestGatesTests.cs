using Reckoner.Checking;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Which expectation a check takes.</summary>
public class FewestGatesTests
{
    [Theory]
    [InlineData("divide-shared-register", true)]
    [InlineData("multiply-booth", true)]
    [InlineData("multiply-shared-register", false)]
    [InlineData("divide-signed-truncating", false)]
    public void The_expectation_is_stepped_along_where_that_takes_fewer_gates(string machine, bool isStepped)
    {
        var datapath = Walks.At(machine, 8);
        var taken = CheckProgram.OfFewestGates(datapath, null)!;
        Assert.Equal(isStepped, taken.Oracle is not null);
        var fewest = Enum.GetValues<OracleUse>().Min(use => Gates(CheckProgram.Of(datapath, null, use)));
        Assert.Equal(fewest, Gates(taken));
    }

    private static int Gates(CheckProgram program) => program.Program.Instructions.Count;

    [Fact]
    public void Where_a_claim_cannot_become_gates_there_is_none()
    {
        var machine = Machines.Of(
            """
            machine powers

            width n = 8 in 2..16

            operand word : n

            register A : n loads word

            step keep
              hold

            result same = A

            law 2^same = 2^word
            """
        );
        Assert.Null(CheckProgram.OfFewestGates(Machines.Bound(machine, 8), null));
        Assert.NotNull(CheckProgram.OfFewestGates(Machines.Bound(machine, 3), null));
    }
}
