using System.Diagnostics;
using System.IO.Compression;
using Reckoner.Page.Tests.Browser;
using Xunit;

namespace Reckoner.Page.Tests;

/// <summary>
/// The packages, made, and installed into an empty folder from the folder that they lie in and from nowhere else, with a home and a
/// store of packages of their own.
/// </summary>
[Trait("Length", "long")]
public sealed class PackageTests : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromHours(1);

    private static string Packages => Path.Combine(PageFolder.Repository, "artifacts/packages");

    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-packages-").FullName;

    public PackageTests()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "not applicable: bash");
        File.WriteAllText(
            Path.Combine(folder, "nuget.config"),
            $"""
            <configuration>
              <packageSources>
                <clear />
                <add key="local" value="{Packages}" />
              </packageSources>
            </configuration>
            """
        );
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private Ended Run(string program, params string[] words)
    {
        var start = new ProcessStartInfo(program, words) { WorkingDirectory = folder };
        start.Environment["NUGET_PACKAGES"] = Path.Combine(folder, "store");
        start.Environment["DOTNET_CLI_HOME"] = Path.Combine(folder, "home");
        start.Environment["DOTNET_NOLOGO"] = "1";
        start.Environment["DOTNET_CLI_TELEMETRY_OPTOUT"] = "1";
        start.Environment["DOTNET_SKIP_FIRST_TIME_EXPERIENCE"] = "1";
        start.Environment["DOTNET_GENERATE_ASPNET_CERTIFICATE"] = "false";
        using var child = Child.Start(start, Patience);
        return child.End();
    }

    private static string Version =>
        File.ReadAllText(Path.Combine(PageFolder.Repository, "Directory.Build.props")).Split("<Version>")[1].Split('<')[
            0
        ];

    [Fact]
    public void Packages_are_made_installed_and_run()
    {
        var made = Run(Path.Combine(PageFolder.Repository, ".ci/packages"), "linux-x64");
        Assert.True(made.Status == 0, made.Output + made.Errors);
        string[] names = ["Command", "Command.any", "Command.linux-x64", "Engines", "Verifier"];
        Assert.Equal(
            names
                .Select(n => $"artifacts/packages/Reckoner.{n}.{Version}.nupkg")
                .Append($"artifacts/packages/Reckoner.{Version}.nupkg")
                .Order(StringComparer.Ordinal),
            made.Output.TrimEnd().Split('\n').Order(StringComparer.Ordinal)
        );
        CheckSums.AreRight(Packages, "*.*nupkg");
        TheCommand();
        ThePartsOfALibrary();
        AProgram();
    }

    private void TheCommand()
    {
        var install = new[] { "tool", "install", "Reckoner.Command", "--tool-path", "tools" };
        Assert.Equal(0, Run("dotnet", install).Status);
        var reckoner = Path.Combine(folder, "tools/reckoner");
        Assert.Equal(
            new Ended(0, $"reckoner {Version}, for descriptions of edition 1\n", ""),
            Run(reckoner, "--version")
        );
        var walk = Run(reckoner, "walk", "divide-still-divisor", "--width", "5", "29", "6");
        Assert.Contains("quotient  = 4 = 00100", walk.Output, StringComparison.Ordinal);
        // Sets code in pages, and pictures by a library of the system's own kind.
        Assert.Equal((0, ""), (Run(reckoner, "open", "-o", "page.html") is var page ? page.Status : 1, page.Errors));
        Assert.Equal(
            new Ended(0, "", ""),
            Run(reckoner, "draw", "divide-still-divisor", "weave", "29", "6", "-o", "weave.png")
        );
        Assert.True(new FileInfo(Path.Combine(folder, "page.html")).Length > 1_000_000);
        var twice = Run("dotnet", install);
        Assert.DoesNotContain("   at ", twice.Output + twice.Errors, StringComparison.Ordinal);
        Assert.Equal(0, Run(reckoner, "--version").Status);
    }

    private static void ThePartsOfALibrary()
    {
        foreach (
            var (package, assembly) in new[] { ("Reckoner", "Reckoner.Core"), ("Reckoner.Engines", "Reckoner.Engines") }
        )
        {
            using var zip = ZipFile.OpenRead(Path.Combine(Packages, $"{package}.{Version}.nupkg"));
            var names = zip.Entries.Select(e => e.FullName).ToHashSet();
            var wanted = new[] { $"lib/net10.0/{assembly}.dll", $"lib/net10.0/{assembly}.xml", "PACKAGE.md" };
            Assert.Equal([], wanted.Except(names));
            using var symbols = ZipFile.OpenRead(Path.Combine(Packages, $"{package}.{Version}.snupkg"));
            Assert.Contains(symbols.Entries, e => e.FullName == $"lib/net10.0/{assembly}.pdb");
        }
    }

    /// <summary>The program of the handbook, and a check run by the engines.</summary>
    private void AProgram()
    {
        File.WriteAllText(
            Path.Combine(folder, "sample.csproj"),
            $"""
            <Project Sdk="Microsoft.NET.Sdk">
              <PropertyGroup>
                <OutputType>Exe</OutputType>
                <TargetFramework>net10.0</TargetFramework>
                <Nullable>enable</Nullable>
                <ImplicitUsings>enable</ImplicitUsings>
                <TreatWarningsAsErrors>true</TreatWarningsAsErrors>
                <EnableDefaultCompileItems>false</EnableDefaultCompileItems>
              </PropertyGroup>
              <ItemGroup>
                <Compile Include="Program.cs" />
                <PackageReference Include="Reckoner.Engines" Version="{Version}" />
              </ItemGroup>
            </Project>
            """
        );
        var program = File.ReadAllText(Path.Combine(PageFolder.Repository, "examples/library/Program.cs"))
            .Replace("new InterpretedRunner()", "new ThreadedRunner(EngineChoice.Widest, 2)", StringComparison.Ordinal);
        File.WriteAllText(Path.Combine(folder, "Program.cs"), "using Reckoner.Engines;\n" + program);
        var ran = Run("dotnet", "run", "--project", "sample.csproj");
        Assert.True(ran.Status == 0, ran.Output + ran.Errors);
        Assert.Contains("every law holds: True", ran.Output, StringComparison.Ordinal);
        Assert.Contains(" cases, 0 failures", ran.Output, StringComparison.Ordinal);
    }
}
