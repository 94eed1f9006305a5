using System.Runtime.CompilerServices;
using System.Text;
using System.Text.RegularExpressions;
using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// Texts pinned in files beside the tests: Class.Method.verified.txt, line feeds only. What differs is written to
/// Class.Method.received.txt; when it is right, it takes the other's name.
/// </summary>
internal static class Snapshot
{
    /// <param name="test">The calling test, by nameof: that is how a file that belongs to no test is found.</param>
    public static void Match(string test, string text, string kind = "txt", [CallerFilePath] string caller = "")
    {
        var path = Path.Combine(Path.GetDirectoryName(caller)!, $"{Path.GetFileNameWithoutExtension(caller)}.{test}");
        if (Difference(path, text, kind) is { } difference)
        {
            Assert.Fail(difference);
        }
    }

    /// <summary>What differs from the pinned text, or null; leaves a received file exactly when something does.</summary>
    public static string? Difference(string path, string text, string kind)
    {
        var verified = $"{path}.verified.{kind}";
        var received = $"{path}.received.{kind}";
        var before = File.Exists(verified) ? File.ReadAllText(verified) : null;
        if (before == text && !text.Contains('\r'))
        {
            File.Delete(received);
            return null;
        }
        File.WriteAllText(received, text, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false));
        var next = $"If it is right now, rename {Path.GetFileName(received)} to {Path.GetFileName(verified)}.";
        return before is null ? $"Nothing is pinned yet. {next}"
            : text.Contains('\r') ? "The text has a carriage return; lines end in a line feed alone."
            : $"{FirstDifference(before, text)}\n{next}";
    }

    private static string FirstDifference(string before, string now)
    {
        var (pinned, given) = (before.Split('\n'), now.Split('\n'));
        var line = Enumerable.Range(0, pinned.Length + 1).First(i => LineAt(pinned, i) != LineAt(given, i));
        return $"Line {line + 1} differs.\npinned: {LineAt(pinned, line)}\nnow:    {LineAt(given, line)}";
    }

    private static string LineAt(string[] lines, int i) => i < lines.Length ? lines[i] : "(the end)";

    /// <summary>The pinned files in a folder of tests and below it that no test beside them asks for.</summary>
    public static IEnumerable<string> Strays(string folder) =>
        Directory
            .EnumerateFiles(folder, "*.verified.*", SearchOption.AllDirectories)
            .Where(file => !IsUsed(Path.GetDirectoryName(file)!, Path.GetFileName(file)))
            .Select(file => Path.GetRelativePath(folder, file).Replace('\\', '/'));

    private static bool IsUsed(string folder, string file)
    {
        if (file.Split('.') is not [var type, var method, "verified", var kind])
        {
            return false;
        }
        var source = Path.Combine(folder, type + ".cs");
        // The kind is the last argument and may be left out for a text.
        var rest = kind == "txt" ? @"(?![^;]*,\s*""\w+""\s*\)\s*;)" : $@"[^;]*""{Regex.Escape(kind)}""\s*\)\s*;";
        var call = $@"Snapshot\.Match\(\s*nameof\({Regex.Escape(method)}\){rest}";
        return File.Exists(source) && Regex.IsMatch(File.ReadAllText(source), call);
    }
}
