using Reckoner.Drawing;

namespace Reckoner.Cli.Tests;

/// <summary>
/// A way to ask for something: a verb with one of its forms, one of its options, or a view in a form. Whatever it needs besides is
/// drawn for each machine.
/// </summary>
internal sealed record Combination(Verb Verb)
{
    /// <summary>What --format asks for.</summary>
    public string? Format { get; init; }

    public Option? Option { get; init; }

    public View? View { get; init; }

    /// <summary>The ending of a figure's file.</summary>
    public string? Ending { get; init; }

    /// <summary>All there are, made from the verbs, their forms and options, and the views alone: what is added there comes in by itself.</summary>
    public static IReadOnlyList<Combination> All { get; } = [.. Verb.All.SelectMany(Of)];

    private static IEnumerable<Combination> Of(Verb verb) =>
        verb
            .Formats.Select(f => new Combination(verb) { Format = f })
            .Concat(verb.TakesView ? View.All.SelectMany(v => Of(verb, v)) : [])
            .Concat(verb.Options.Where(o => o != Option.Format).Select(o => new Combination(verb) { Option = o }));

    private static IEnumerable<Combination> Of(Verb verb, View view) =>
        FigureForm.All.Select(form => new Combination(verb) { View = view, Ending = form.Ending });

    public override string ToString() =>
        string.Join(
            ' ',
            new[]
            {
                Verb.Name,
                View?.Name,
                Ending,
                Format is null ? null : $"--format {Format}",
                Option?.Name,
            }.OfType<string>()
        );
}
