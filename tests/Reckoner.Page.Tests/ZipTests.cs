using System.Diagnostics;
using System.IO.Compression;
using Reckoner.Page.Tests.Browser;
using Xunit;

namespace Reckoner.Page.Tests;

/// <summary>The zips for systems without .NET. That of this system is started, the others are looked into.</summary>
[Trait("Length", "long")]
public sealed class ZipTests
{
    /// <summary>The first one builds everything for another system.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromHours(1);

    private static ZipArchive Made(string system)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "not applicable: bash");
        using var zips = Child.Start(
            new ProcessStartInfo(Path.Combine(PageFolder.Repository, ".ci/zips"), [system]),
            Patience
        );
        var (status, said, _) = zips.End();
        Assert.Equal((0, $"artifacts/zips/reckoner-{system}.zip\n"), (status, said));
        CheckSums.AreRight(Path.Combine(PageFolder.Repository, "artifacts/zips"), "*.zip");
        return ZipFile.OpenRead(Path.Combine(PageFolder.Repository, said.TrimEnd()));
    }

    [Theory]
    [InlineData("win-x64", "reckoner.exe", "coreclr.dll")]
    [InlineData("osx-arm64", "reckoner", "libcoreclr.dylib")]
    public void A_zip_holds_the_program_its_runtime_and_the_page(string system, string program, string runtime)
    {
        using var zip = Made(system);
        var names = zip.Entries.Select(e => e.FullName).ToHashSet();
        var wanted = new[] { program, runtime, "page/index.html", "page/_framework/dotnet.native.wasm", "LICENSE" };
        Assert.Equal([], wanted.Select(n => "reckoner/" + n).Except(names));
    }

    [Fact]
    public async Task The_one_for_this_system_serves_the_page_without_any_dotnet()
    {
        using var zip = Made("linux-x64");
        var folder = Directory.CreateTempSubdirectory("reckoner-zip-").FullName;
        zip.ExtractToDirectory(folder);
        var start = new ProcessStartInfo(Path.Combine(folder, "reckoner/reckoner"), ["open", "--no-browser"]);
        start.Environment.Clear();
        using var opened = Child.Start(start);
        try
        {
            var said = opened.Line()!;
            using var client = new HttpClient();
            var address = said.Split(' ').Single(w => w.StartsWith("http://", StringComparison.Ordinal));
            Assert.Contains(
                "<div id=\"page\">",
                await client.GetStringAsync(new Uri(address), TestContext.Current.CancellationToken),
                StringComparison.Ordinal
            );
        }
        finally
        {
            opened.Dispose();
            Directory.Delete(folder, recursive: true);
        }
    }
}
