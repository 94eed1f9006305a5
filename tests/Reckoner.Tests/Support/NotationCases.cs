using Reckoner.Binding;
using Reckoner.Catalogue;

namespace Reckoner.Tests;

/// <summary>The small descriptions, one per construct.</summary>
internal static class NotationCases
{
    private const string Folder = "notation";

    public static IReadOnlyList<string> Names { get; } = CaseFiles.Names(Folder, ".machine");

    public static Source Source(string name) => new(name + ".machine", CaseFiles.Read(Folder, name + ".machine"));

    public static Machine Machine(string name) => Binding.Machine.Read(Source(name), Find);

    public static Expectation Expected(string name) => Expectation.Read(CaseFiles.Read(Folder, name + ".expected"));

    private static Source? Find(string name) =>
        CaseFiles.Exists(Folder, name + ".machine") ? Source(name) : MachineCatalogue.Find(name);
}
