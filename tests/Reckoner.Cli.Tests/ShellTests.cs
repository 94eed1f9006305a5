using System.Diagnostics;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>The scripts in real shells: a line is typed on a terminal, the Tab key pressed, and the line looked at.</summary>
public sealed class ShellTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-shell-").FullName;

    public ShellTests()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: terminals of POSIX");
        var program = Path.Combine(folder, "reckoner");
        File.WriteAllText(program, $"#!/bin/sh\nexec dotnet '{AppContext.BaseDirectory}reckoner.dll' \"$@\"\n");
        Child.Run("chmod", "+x", program);
        File.WriteAllText(Path.Combine(folder, "mine.machine"), "");
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    /// <summary>What the line became.</summary>
    private string Typed(string shell, string line)
    {
        var start = new ProcessStartInfo(
            "python3",
            [Path.Combine(WorkFolder.Repository, "tests/Reckoner.Cli.Tests/typed.py"), shell, line]
        )
        {
            WorkingDirectory = folder,
        };
        start.Environment["PATH"] = $"{folder}:{Environment.GetEnvironmentVariable("PATH")}";
        start.Environment["HOME"] = folder;
        var (status, output, errors) = Child.Run(start);
        Assert.Equal((0, ""), (status, errors));
        return output.TrimEnd();
    }

    [Theory]
    [InlineData("bash", "reckoner walk divide-still", "reckoner walk divide-still-divisor")]
    [InlineData("bash", "reckoner draw --size 16:", "reckoner draw --size 16:9")]
    public void Bash_finishes_words(string shell, string line, string becomes) =>
        Assert.Equal(becomes, Typed(shell, line));

    [Theory]
    [InlineData("bash")]
    [InlineData("zsh")]
    [InlineData("fish")]
    [Trait("Length", "long")]
    public void Every_shell_of_the_system_finishes_words(string shell)
    {
        Assert.Equal("reckoner walk divide-still-divisor", Typed(shell, "reckoner walk divide-still"));
        Assert.Equal(
            "reckoner show divide-still-divisor --hardware",
            Typed(shell, "reckoner show divide-still-divisor --har")
        );
        Assert.Equal("reckoner draw --size 16:9", Typed(shell, "reckoner draw --size 16:"));
        Assert.Equal(
            "reckoner walk divide-still-divisor dividend=",
            Typed(shell, "reckoner walk divide-still-divisor divid")
        );
        Assert.Equal("reckoner show mine.machine", Typed(shell, "reckoner show min"));
        Assert.Equal(
            "reckoner check divide-still-divisor --slip loop-longer-repeat",
            Typed(shell, "reckoner check divide-still-divisor --slip loop-l")
        );
    }

    /// <summary>
    /// PowerShell, where its package for .NET can be had: what Tab would write, asked of the shell itself, behind another command too.
    /// </summary>
    [Fact]
    [Trait("Length", "long")]
    public void PowerShell_finishes_words()
    {
        var place = Path.Combine(WorkFolder.Repository, "artifacts/powershell");
        var shell = Path.Combine(place, "pwsh");
        if (!File.Exists(shell))
        {
            string[] install = ["tool", "install", "PowerShell", "--version", "7.6.9", "--tool-path", place];
            Assert.SkipUnless(Child.Run("dotnet", install).Status == 0, "the package of PowerShell cannot be had");
        }
        var script = Path.Combine(folder, "typed.ps1");
        File.WriteAllText(
            script,
            """
            reckoner completions powershell | Out-String | Invoke-Expression
            foreach ($line in $args) {
                $found = TabExpansion2 -inputScript $line -cursorColumn $line.Length
                $line.Substring(0, $found.ReplacementIndex) + ($found.CompletionMatches.CompletionText -join '|')
            }
            """
        );
        (string Typed, string Becomes)[] lines =
        [
            ("reckoner walk divide-still", "reckoner walk divide-still-divisor"),
            ("1 + 1; reckoner walk divide-still", "1 + 1; reckoner walk divide-still-divisor"),
            ("reckoner show divide-still-divisor --har", "reckoner show divide-still-divisor --hardware"),
            ("reckoner draw --size 16:", "reckoner draw --size 16:9"),
            ("reckoner walk divide-still-divisor divid", "reckoner walk divide-still-divisor dividend="),
            ("reckoner hdl divide-still-divisor --as", "reckoner hdl divide-still-divisor --as-built"),
            (
                "reckoner check divide-still-divisor --slip loop-l",
                "reckoner check divide-still-divisor --slip loop-longer-repeat"
            ),
        ];
        var start = new ProcessStartInfo(
            shell,
            ["-NoProfile", "-NonInteractive", "-File", script, .. lines.Select(l => l.Typed)]
        );
        start.Environment["PATH"] = $"{folder}:{Environment.GetEnvironmentVariable("PATH")}";
        start.Environment["HOME"] = folder;
        var (status, output, errors) = Child.Run(start);
        Assert.Equal((0, ""), (status, errors));
        Assert.Equal(lines.Select(l => l.Becomes), output.TrimEnd().Split('\n').Select(l => l.TrimEnd('\r')));
    }

    /// <summary>A linter for manual pages has nothing to say but that the page has no date: the same text is the same page.</summary>
    [Theory]
    [InlineData("en")]
    [InlineData("de")]
    [Trait("Length", "long")]
    public void The_manual_page_is_one(string language)
    {
        var page = Path.Combine(folder, "reckoner.1");
        Assert.Equal(new Command(0, "", ""), Command.Run("help", "-o", page, "--language", language));
        var said = Child.Run("mandoc", "-T", "lint", "-W", "warning", page).Output;
        Assert.Equal(
            [],
            said.Split('\n').Where(l => l.Length > 0 && !l.Contains("missing date", StringComparison.Ordinal))
        );
        var read = Child.Run("mandoc", "-T", "utf8", page).Output;
        Assert.All(Verb.All, verb => Assert.Contains($"{verb.Name}", read, StringComparison.Ordinal));
    }
}
