using System.Runtime.CompilerServices;
using Xunit;

namespace Reckoner.Page.Tests.Browser;

/// <summary>The page as it was published before the tests, by ./test or by ./reckoner open.</summary>
internal static class PageFolder
{
    public static string Repository => Path.GetFullPath(Path.Combine(Path.GetDirectoryName(Here())!, "../../.."));

    public static string Place => Path.Combine(Repository, "artifacts/page/wwwroot");

    public static void SkipWhenMissing()
    {
        Assert.SkipWhen(Chromium.Program.Length == 0, "chromium is missing");
        Assert.SkipUnless(File.Exists(Path.Combine(Place, "index.html")), "the page is not published; ./test does it");
    }

    private static string Here([CallerFilePath] string path = "") => path;
}
