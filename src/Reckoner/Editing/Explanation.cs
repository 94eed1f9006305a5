using Reckoner.Datapaths;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Editing;

/// <summary>What can be said of a place of a description, in paragraphs: the thing named there at its width, the hardware of a line.</summary>
internal static class Explanation
{
    /// <param name="datapath">At the chosen widths; null where something is wrong, and then less is said.</param>
    public static IReadOnlyList<string> At(Mentions mentions, int position, Datapath? datapath, Vocabulary words)
    {
        if (mentions.At(position) is { } named)
        {
            return Of(named, datapath, mentions.Description.Source, words);
        }
        return datapath is null ? [] : Units(mentions.Description.Source, position, datapath, words);
    }

    private static List<string> Of(Named named, Datapath? datapath, Source source, Vocabulary words)
    {
        var said = new List<string>
        {
            words.Say("editor.named", ("kind", words.Say(named.Word)), ("name", named.Name)),
        };
        if (named.Phrase is { } phrase)
        {
            said.Add(phrase.In(words.Language));
        }
        if (datapath is null)
        {
            return said;
        }
        if (Size(named, datapath, source) is var (size, isSigned))
        {
            said.Add(
                words.Say(
                    "editor.width",
                    ("bits", words.Say(isSigned ? "bits-signed" : "bits", ("size", size))),
                    ("widths", Widths(datapath))
                )
            );
        }
        if (
            datapath.Numbers.TryGetValue(named.Name, out var number)
            && named.Kind is NamedKind.Width or NamedKind.Parameter or NamedKind.Constant
        )
        {
            said.Add($"{named.Name} = {number}");
        }
        if (named.Kind == NamedKind.Unit && datapath.Units.FirstOrDefault(u => u.Name == named.Name) is { } unit)
        {
            said.Add(Unit(unit, words));
        }
        return said;
    }

    private static (Numbers.Size Size, bool IsSigned)? Size(Named named, Datapath datapath, Source source)
    {
        if (
            named.Kind == NamedKind.Register
            && datapath.Registers.FirstOrDefault(r => r.Name == named.Name) is { } register
        )
        {
            return (register.Size, register.IsSigned);
        }
        if (
            named.Kind == NamedKind.Operand
            && datapath.Operands.FirstOrDefault(o => o.Name == named.Name) is { } operand
        )
        {
            return (operand.Size, operand.IsSigned);
        }
        var value = named.Kind switch
        {
            NamedKind.Result => datapath.Results.FirstOrDefault(r => r.Name == named.Name)?.Value,
            NamedKind.Wire => Wire(named, datapath, source)?.Value,
            _ => null,
        };
        return value is null ? null : (value.Size, value.Reading == Reading.Signed);
    }

    private static Wire? Wire(Named named, Datapath datapath, Source source) =>
        datapath
            .Steps.SelectMany(s => s.Moments)
            .SelectMany(m => m)
            .SelectMany(a => a.All)
            .SelectMany(a => a.Names)
            .FirstOrDefault(w =>
                w.Name == named.Name && w.Source == source && w.Line == source.LineOf(named.Place.Start)
            );

    /// <summary>The units that act on the line of a position, where an operation or the beginning of the line stands there.</summary>
    private static List<string> Units(Source source, int position, Datapath datapath, Vocabulary words)
    {
        var line = source.LineOf(position);
        var own = datapath.Steps.Where(s => s.Source == source).Select(s => s.Number).ToHashSet();
        return
        [
            .. datapath
                .Units.Where(u => u.Uses.Any(use => use.Line == line && own.Contains(use.Step)))
                .Select(u => Unit(u, words)),
        ];
    }

    private static string Unit(Unit unit, Vocabulary words)
    {
        var lines = unit.Uses.Select(u => u.Line).Distinct().Select(l => $"{l}").ToList();
        return words.Say(
            "editor.unit",
            ("kind", UnitText.KindOf(unit, words) + (unit.Name is { } name ? $" {name}" : "")),
            ("width", UnitText.WidthOf(unit)),
            ("count", lines.Count),
            ("lines", lines)
        );
    }

    private static string Widths(Datapath datapath) =>
        string.Join(", ", datapath.Widths.Select(w => $"{w.Name} = {w.Value}"));
}
