using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>Descriptions that ask for more than any machine has: each is refused with one diagnostic, and nothing is run.</summary>
public class HostileDescriptionTests
{
    private static string Description(string body, string name = "hostile") =>
        $"""
            machine {name}

            width n = 4 in 2..64

            operand a : n

            register A : n loads a

            {body}

            result x = A

            law x >= 0

            """;

    public static TheoryData<string, string, string> Hostile =>
        new()
        {
            {
                "brackets within brackets",
                "nesting-too-deep",
                $"step s\n  A <- {new string('(', 5000)}A{new string(')', 5000)}"
            },
            { "a literal of a megabyte", "description-too-long", $"step s\n  A <- 0b{new string('1', 1_000_000)}" },
            { "a number of 100,000 digits", "literal-too-long", $"constant c = {new string('9', 100_000)}" },
            { "bits of 100,000 digits", "literal-too-long", $"step s\n  A <- 0b{new string('1', 100_000)}" },
            { "a loop of 2^64 rounds", "too-many-operations", "repeat 2^64\n  A <- A + 1\nend" },
            { "a register of more bits than a machine has atoms", "too-many-bits", "register B : 10^80 loads 0" },
            { "a register of n^9 bits", "too-many-bits", "register B : n^9 loads 0" },
            { "a table of 2^40 cells", "table-too-large", "table t(i : 40) : 1\n  else: 0\nend" },
            { "a tower of powers", "number-too-large", "constant c = 9^9^9^9^9" },
            { "a core that names itself", "machine-circle", "core hostile\n  a = a\nend" },
        };

    [Theory]
    [MemberData(nameof(Hostile))]
    public void One_diagnostic_and_nothing_is_run(string what, string id, string body)
    {
        var file = $"{what.Replace(' ', '-').Replace('^', '-')}/hostile.machine";
        WorkFolder.Enter();
        Directory.CreateDirectory(Path.GetDirectoryName(file)!);
        File.WriteAllText(file, Description(body));
        foreach (
            var command in new[]
            {
                Command.Run("walk", file, "3", "--width", "32"),
                Command.Run("show", file, "--width", "32"),
            }
        )
        {
            Assert.Equal((2, ""), (command.Status, command.Output));
            var headings = command
                .Errors.Split('\n')
                .Where(l => l.StartsWith("line ", StringComparison.Ordinal))
                .ToList();
            Assert.EndsWith($" {id}", Assert.Single(headings), StringComparison.Ordinal);
            Assert.InRange(command.Errors.Length, 1, 2000);
        }
    }
}
