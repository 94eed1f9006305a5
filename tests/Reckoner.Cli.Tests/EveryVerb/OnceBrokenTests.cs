using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>What machines drawn by lot have broken, each as small as it could be made.</summary>
public class OnceBrokenTests
{
    public static TheoryData<string, string, int> Requests =>
        new()
        {
            {
                "draw ./it.machine datapath 1 --cycle 2",
                "operand a : n\nregister R : n loads a\nstep s\nstep t\n  note \"so\"\nresult r = R\n",
                Exit.Done
            },
            { "draw ./it.machine datapath", "step s\n", Exit.Done },
            { "check ./it.machine", "step s\n", Exit.Done },
            { "check ./it.machine --sample 3", "step s\n", Exit.Done },
            { "draw ./it.machine weave", "step s\n  if 0b1\n    if 0b1\n      hold\n    end\n  end\n", Exit.Done },
            {
                "check ./it.machine",
                "operand a : 186\nregister R : 186 loads a\nregister Q : 1 loads a[0]\nresult r = R\nresult q = Q\nlaw q = 0\n",
                Exit.Wrong
            },
            { "operands ./it.machine --telling-apart", "operand a : n\nregister R : n loads a\n", Exit.DoesNotHold },
            {
                "draw ./it.machine blocks",
                "operand a : n\nregister A : n loads a\nregister B : 1 loads 0\nrepeat n\n  step s\n    if B\n    else\n"
                    + "      let s1, c1 = csa(signed(extend(signed(A[1..0]), 3)), signed(0b011), signed(shl(A[2..0], A[1..0])))\n"
                    + "      A[n - 1..1]:B <- (-unsigned(A))\n    end\n  then\n  if B\n  end\nend\nresult r = A\n",
                Exit.Done
            },
            {
                "prove ./it.machine",
                "operand a : n + 40\nregister R : n + 40 loads a\nrepeat n\n  R <- R + 1\nend\nresult r = R\nlaw r >= a\n",
                Exit.DoesNotHold
            },
        };

    [Theory]
    [MemberData(nameof(Requests))]
    public void It_ends_as_it_should(string line, string text, int status)
    {
        WorkFolder.Enter();
        using var folder = new TemporaryFolder();
        var file = folder.At("it.machine");
        File.WriteAllText(file, $"machine it\nwidth n = 3 in 1..9\n{text}");
        var command = Command.Run(line.Replace("./it.machine", file, StringComparison.Ordinal).Split(' '));
        Assert.Equal((status, ""), (command.Status, command.Status == status ? "" : command.Errors));
    }

    private sealed class TemporaryFolder : IDisposable
    {
        private readonly string path = Directory.CreateTempSubdirectory("reckoner-once-").FullName;

        public string At(string file) => Path.Combine(path, file);

        public void Dispose() => Directory.Delete(path, recursive: true);
    }
}
