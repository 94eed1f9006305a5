using Reckoner.Diagnostics;

namespace Reckoner.Tests;

/// <summary>Diagnostics as tests write them down.</summary>
internal static class Found
{
    /// <summary>"width-mismatch on line 12", in the order of the text; remarks and hints are left out.</summary>
    public static IEnumerable<string> Errors(IEnumerable<Diagnostic> found) =>
        found.Where(d => d.Severity == Severity.Error).Select(d => $"{d.Id} on line {d.Line}");

    /// <summary>"width-mismatch: size = n + 1 = 5, name = left, place = n = 4", with the place it points to in front.</summary>
    public static string Whole(Diagnostic diagnostic)
    {
        var facts = diagnostic.Facts.Select(f => $"{f.Name} = {Text(f.Value)}");
        return $"‹{diagnostic.Source?[diagnostic.Span]}› {diagnostic.Id}: {string.Join(", ", facts)}";
    }

    public static string Text(object fact) =>
        fact switch
        {
            IReadOnlyList<string> names => string.Join(' ', names),
            Term term => term.Key,
            _ => fact.ToString()!,
        };
}
