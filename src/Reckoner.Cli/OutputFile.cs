using System.Text;
using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>Writes files whole or not at all; what is there stays unless --overwrite is said.</summary>
internal static class OutputFile
{
    public static bool Write(Request request, RequestWord file, string text)
    {
        var replaces = request.Has(Option.Overwrite);
        if (File.Exists(file.Text) && !replaces)
        {
            request.Report.Add(Id.FileExists, file.Span, ("file", file.Text));
            return false;
        }
        var beside = $"{file.Text}.{Path.GetRandomFileName()}";
        try
        {
            File.WriteAllText(beside, text, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false));
            File.Move(beside, file.Text, replaces);
            return true;
        }
        catch (Exception e)
            when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            request.Report.Add(Id.FileUnwritable, file.Span, ("file", file.Text), ("reason", e.Message));
            return false;
        }
        finally
        {
            // Nothing is left where the move failed; what cannot be removed could not be written either.
            if (File.Exists(beside))
            {
                File.Delete(beside);
            }
        }
    }
}
