using System.Reflection;
using Reckoner.Notation;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>Which reckoner this is.</summary>
internal static class ProductVersion
{
    /// <summary>The number that stands in Directory.Build.props; what builds put behind it is left out.</summary>
    public static string Number { get; } =
        typeof(ProductVersion)
            .Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!
            .InformationalVersion.Split('+')[0];

    /// <summary>One line, with the edition of the notation that it reads.</summary>
    public static string Text(Vocabulary words) =>
        words.Say("version", ("version", Number), ("edition", Edition.Number)) + "\n";
}
