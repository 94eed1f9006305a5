namespace Reckoner.Testing;

/// <summary>The system's browser; no other is fetched.</summary>
internal static class Chromium
{
    /// <summary>Empty where there is none.</summary>
    public static string Program { get; } =
        (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .Select(folder => Path.Combine(folder, "chromium"))
            .FirstOrDefault(File.Exists)
        ?? "";

    /// <summary>
    /// A container's user may be root, whom the sandbox refuses. The address bar's own pages would be started with each profile, a fifth of
    /// its work. Of two lists of features the last one counts, so what the driver leaves out is named once more.
    /// </summary>
    public static IReadOnlyList<string> Arguments { get; } =
    [
        "--no-sandbox",
        "--disable-gpu",
        "--disable-features=WebUIOmniboxPopup,WebUIOmniboxAimPopup,WebUIOmniboxFullPopup,"
            + "AvoidUnnecessaryBeforeUnloadCheckSync,DestroyProfileOnBrowserClose,HttpsUpgrades,NetworkTimeServiceQuerying,"
            + "OptimizationHints,PaintHolding,ThirdPartyStoragePartitioning,Translate",
    ];
}
