using CsCheck;
using Reckoner.Tests.Checking;
using Xunit;

namespace Reckoner.Engines.Tests;

/// <summary>Emitted code on programs made at random, against tables computed beside them.</summary>
public sealed class RandomProgramTests
{
    [Fact]
    public void Emitted_code_gives_what_the_tables_say()
    {
        var engines = Runs.Engines.Where(e => e is EmittedEngine).ToList();
        Gen.Int[0, int.MaxValue - 1]
            .Sample(
                seed =>
                {
                    var random = new RandomProgram(seed);
                    foreach (var engine in engines)
                    {
                        var wrong = random.Wrong(engine.Compile(random.Program));
                        Assert.True(wrong is null, $"{engine.Name}, program {seed}: {wrong}");
                    }
                },
                iter: 150,
                threads: 1
            );
    }
}
