using System.Diagnostics;
using System.Runtime.CompilerServices;
using Xunit;

namespace Reckoner.Testing;

/// <summary>Programs of others out of npm's registry, as tests/clients names them, and the scripts there that use them.</summary>
internal static class NodeClients
{
    private static readonly string Clients = Path.GetFullPath(Path.Combine(Here(), "..", "..", "clients"));

    private static readonly string Repository = Path.GetFullPath(Path.Combine(Clients, "..", ".."));

    private static readonly Lazy<string?> Modules = new(Installed);

    private static string Here([CallerFilePath] string here = "") => here;

    public static bool Has(string program) =>
        (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(Path.PathSeparator)
            .Any(folder => File.Exists(Path.Combine(folder, program)));

    /// <summary>Runs a script of tests/clients. Where node or its packages are missing, the test is left out.</summary>
    public static Ended Run(string script, IEnumerable<string> arguments, params IReadOnlyList<string> input)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: programs named as on POSIX");
        Assert.SkipUnless(Has("node") && Has("npm"), "node or npm is missing");
        Assert.SkipWhen(Modules.Value is null, "the packages of tests/clients cannot be installed here");
        var start = new ProcessStartInfo("node", [Path.Combine(Clients, script), .. arguments]);
        start.Environment["NODE_PATH"] = Modules.Value;
        return Child.Run(start, input);
    }

    /// <summary>
    /// Where they lie; null where they cannot be had. Installed once for each list of them, beside what builds leave behind: made under
    /// another name first, since several projects of tests may want them at a time.
    /// </summary>
    private static string? Installed()
    {
        var list = Path.Combine(Clients, "package.json");
        var artifacts = Path.Combine(Repository, "artifacts", "clients");
        var folder = Path.Combine(artifacts, "installed");
        var copy = Path.Combine(folder, "package.json");
        if (File.Exists(copy) && File.ReadAllText(copy) == File.ReadAllText(list))
        {
            return Path.Combine(folder, "node_modules");
        }
        var made = Directory.CreateDirectory(Path.Combine(artifacts, Path.GetRandomFileName())).FullName;
        File.Copy(list, Path.Combine(made, "package.json"));
        var install = new ProcessStartInfo(
            "npm",
            // Where the registry does not answer, the tests that need it are left out soon.
            [
                "install",
                "--no-audit",
                "--no-fund",
                "--no-package-lock",
                "--ignore-scripts",
                "--fetch-timeout=20000",
                "--fetch-retries=1",
            ]
        )
        {
            WorkingDirectory = made,
        };
        if (Child.Run(install).Status != 0)
        {
            Directory.Delete(made, recursive: true);
            return null;
        }
        try
        {
            if (Directory.Exists(folder) && File.ReadAllText(copy) != File.ReadAllText(list))
            {
                Directory.Delete(folder, recursive: true);
            }
            Directory.Move(made, folder);
        }
        catch (IOException)
        {
            // Another has just put the same there.
            Directory.Delete(made, recursive: true);
        }
        return Path.Combine(folder, "node_modules");
    }
}
