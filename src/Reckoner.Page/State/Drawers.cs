namespace Reckoner.Page.State;

/// <summary>What can be folded out above the figure, one at a time.</summary>
public static class Drawers
{
    public const string Machines = "machines";
    public const string Versions = "versions";
    public const string Slips = "slips";
    public const string Operands = "operands";
    public const string Share = "share";
    public const string Looks = "looks";
    public const string Help = "help";

    public static IReadOnlyList<string> All { get; } = [Machines, Versions, Slips, Operands, Share, Looks, Help];

    /// <summary>The key of its title.</summary>
    public static string Title(string drawer) =>
        drawer switch
        {
            Machines => "page.machines",
            Versions => "page.versions",
            Slips => "page.slips",
            Operands => "page.operands",
            Share => "page.share",
            Looks => "page.looks",
            Help => "page.help",
            _ => throw new ArgumentException(drawer, nameof(drawer)),
        };
}
