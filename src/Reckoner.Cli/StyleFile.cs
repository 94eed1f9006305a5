using Reckoner.Diagnostics;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>
/// Finds the house style of a request: the file that --style names; else house.style beside the description (for a machine of
/// the catalogue, in the folder that the command is given in), else in the user's configuration folder.
/// </summary>
internal static class StyleFile
{
    private const string Name = "house.style";
    public const string Without = "none";

    /// <summary>The style, none if there is no file, or null with what is wrong said. Sets the session's language to its own.</summary>
    public static HouseStyle? Of(Session session, Request request)
    {
        if (Path(request) is not { } path)
        {
            if (!request.Report.HasErrors)
            {
                return HouseStyle.None;
            }
            session.Refuse(request);
            return null;
        }
        var asked = request[Option.Style];
        if (MachineFiles.ReadText(path, asked?.Span ?? request.Whole, request.Report) is not { } text)
        {
            session.Refuse(request);
            return null;
        }
        var (style, found) = StyleReader.Read(new Source(System.IO.Path.GetFileName(path), text));
        if (style is null)
        {
            session.Refuse(found);
            return null;
        }
        if (style.Language is { } language && request[Option.Language] is null)
        {
            session.Words = Vocabulary.Of(language)!;
        }
        return style;
    }

    private static string? Path(Request request)
    {
        if (request[Option.Style] is not { } asked)
        {
            return Places(request)
                .Select(folder => System.IO.Path.Combine(folder, Name))
                .FirstOrDefault(PlainFile.HasLength);
        }
        if (asked.Text == Without)
        {
            return null;
        }
        if (File.Exists(asked.Text) || Directory.Exists(asked.Text))
        {
            return asked.Text;
        }
        request.Report.Add(Id.NoSuchStyle, asked.Span, ("file", asked.Text), ("near", Near(asked.Text)));
        return null;
    }

    private static IEnumerable<string> Places(Request request)
    {
        if (request.Machine is { } machine && MachineFiles.IsFile(machine.Text))
        {
            yield return System.IO.Path.GetDirectoryName(System.IO.Path.GetFullPath(machine.Text)) ?? "";
        }
        else
        {
            yield return Environment.CurrentDirectory;
        }
        if (ConfigurationFolder() is { Length: > 0 } folder)
        {
            yield return System.IO.Path.Combine(folder, "reckoner");
        }
    }

    /// <summary>%APPDATA% on Windows; elsewhere XDG_CONFIG_HOME or ~/.config (XDG Base Directory Specification).</summary>
    private static string ConfigurationFolder() =>
        !OperatingSystem.IsWindows() && Environment.GetEnvironmentVariable("XDG_CONFIG_HOME") is { Length: > 0 } folder
            ? folder
            : Environment.GetFolderPath(Environment.SpecialFolder.ApplicationData);

    /// <summary>Styles in the same folder whose names are like the one that is not there.</summary>
    private static IReadOnlyList<string> Near(string path)
    {
        var folder = System.IO.Path.GetDirectoryName(System.IO.Path.GetFullPath(path));
        return folder is null || !Directory.Exists(folder)
            ? []
            : NearNames.Of(
                System.IO.Path.GetFileName(path),
                Directory.EnumerateFiles(folder, "*.style").Select(f => System.IO.Path.GetFileName(f))
            );
    }
}
