namespace Reckoner.Cli;

/// <summary>Something to be explained that is no verb: what words of a request mean. The words have its text.</summary>
/// <param name="Options">Those that have to do with it.</param>
internal sealed record HelpTopic(string Name, IReadOnlyList<Option> Options)
{
    public static readonly IReadOnlyList<HelpTopic> All =
    [
        new("machine", [Option.Slip]),
        new("width", [Option.Width]),
        new("numbers", [Option.Anyway]),
        new("files", [Option.Output, Option.Overwrite, Option.Format]),
        new("style", [Option.Style]),
        new("language", [Option.Language]),
        new("status", []),
    ];

    /// <summary>Every word that help can be asked about: verbs, these, and options without their hyphens.</summary>
    public static IReadOnlyList<string> Words { get; } =
    [
        .. Verb
            .All.Select(v => v.Name)
            .Concat(All.Select(t => t.Name))
            .Concat(Verb.All.SelectMany(v => v.Options).Select(o => o.Word))
            .Distinct(),
    ];
}
