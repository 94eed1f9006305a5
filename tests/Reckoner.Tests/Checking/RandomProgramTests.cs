using CsCheck;
using Reckoner.Checking;
using Xunit;

namespace Reckoner.Tests.Checking;

/// <summary>Folding, packing, placing, planning and running of gates, against tables computed beside them.</summary>
public sealed class RandomProgramTests
{
    [Theory]
    [InlineData(64)]
    [InlineData(128)]
    [InlineData(256)]
    [InlineData(512)]
    public void Interpreted_planes_give_what_the_tables_say(int bits)
    {
        var engine = new InterpretedEngine(bits);
        Try(1000, random => engine.Compile(random.Program));
    }

    [Theory]
    [InlineData(StretchPlan.LeastLocals)]
    [InlineData(30)]
    public void Plans_of_lookups_do(int locals) =>
        Try(500, random => new PlanKernel(random.Program, locals, gates: 40, twoInputs: false));

    [Theory]
    [InlineData(StretchPlan.LeastLocals, 40)]
    [InlineData(StretchPlan.LeastLocals, 7)]
    [InlineData(14, 100)]
    public void Plans_of_two_input_operations_do(int locals, int gates) =>
        Try(500, random => new PlanKernel(random.Program, locals, gates, twoInputs: true));

    private static void Try(int times, Func<RandomProgram, IPlaneKernel> kernel) =>
        Gen.Int[0, int.MaxValue - 1]
            .Sample(
                seed =>
                {
                    var random = new RandomProgram(seed);
                    var wrong = random.Wrong(kernel(random));
                    Assert.True(wrong is null, $"program {seed}: {wrong}");
                },
                iter: times,
                threads: 1
            );
}
