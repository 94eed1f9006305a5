using System.Diagnostics;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>Where a house style is found. Files are made in a folder of the test's own.</summary>
public sealed class StyleFileTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-style-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string Machine
    {
        get
        {
            var path = Path.Combine(folder, "halve.machine");
            File.Copy(Path.Combine(WorkFolder.Cases, "halve.machine"), path, overwrite: true);
            return path;
        }
    }

    private string Beside(string heading, string file = "house.style")
    {
        var path = Path.Combine(folder, file);
        File.WriteAllText(path, $"column cycle \"{heading}\"\n");
        return path;
    }

    private static string Heads(params string[] arguments)
    {
        var (status, output, errors) = Command.Run(["walk", .. arguments, "--format", "csv"]);
        Assert.Equal((0, ""), (status, errors));
        return output.Split("\r\n")[0];
    }

    [Fact]
    public void Beside_the_description_a_style_is_found_by_itself()
    {
        Beside("beside");
        Assert.Equal("beside", Heads(Machine, "5", "3"));
    }

    [Fact]
    public void A_style_that_is_named_comes_first_and_none_is_none()
    {
        Beside("beside");
        var named = Beside("named", "other.style");
        Assert.Equal("named", Heads(Machine, "5", "3", "--style", named));
        Assert.NotEqual("beside", Heads(Machine, "5", "3", "--style", "none"));
    }

    /// <summary>In a process of its own, since other tests run beside this one and read the same environment.</summary>
    [Fact]
    public void The_configuration_folder_comes_last()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: bash");
        Directory.CreateDirectory(Path.Combine(folder, "configuration", "reckoner"));
        Beside("configured", "configuration/reckoner/house.style");
        Assert.Equal("configured", Started(Machine, "5", "3"));
        Assert.Equal("configured", Started("divide-still-divisor", "5", "3"));
        Beside("beside");
        Assert.Equal("beside", Started(Machine, "5", "3"));
    }

    private string Started(params string[] arguments)
    {
        var start = new ProcessStartInfo(
            Path.Combine(WorkFolder.Repository, "reckoner"),
            ["walk", .. arguments, "--format", "csv"]
        )
        {
            WorkingDirectory = Path.Combine(folder, "configuration"),
        };
        start.Environment["XDG_CONFIG_HOME"] = Path.Combine(folder, "configuration");
        return Child.Run(start).Output.Split("\r\n")[0];
    }

    [Fact]
    public void Text_follows_a_style_and_json_does_not()
    {
        var plain = Command.Run("walk", Machine, "5", "3", "--format", "json");
        Beside("beside");
        Assert.Equal(plain, Command.Run("walk", Machine, "5", "3", "--format", "json"));
        Assert.Contains("beside", Command.Run("walk", Machine, "5", "3").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_wrong_style_that_is_found_stops_the_walk()
    {
        File.WriteAllText(Path.Combine(folder, "house.style"), "colum A\n");
        var (status, output, errors) = Command.Run("walk", Machine, "5", "3");
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("line 1 of house.style", errors, StringComparison.Ordinal);
    }
}
