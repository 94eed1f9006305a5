using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Tests;

/// <summary>Happenings in full sentences of English, whatever machine they are of.</summary>
internal static class Spoken
{
    public static string Of(params IReadOnlyList<Happening> happenings) =>
        $"{Sentences.Told(happenings, new Speech(Vocabulary.English, new Digits(2, 0), ByComplement: false))}";
}
