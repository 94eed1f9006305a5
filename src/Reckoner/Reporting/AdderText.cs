using Reckoner.Costing;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Which adders were chosen: the kind everywhere, then units that have another by name.</summary>
internal static class AdderText
{
    public static string Of(AdderChoice choice, Vocabulary words) =>
        string.Join(
            ", ",
            choice
                .Named.Select(n => words.Say("cost.output", ("name", n.Key), ("output", Adders.Name(n.Value))))
                .Prepend(Adders.Name(choice.Everywhere))
        );
}
