using System.Globalization;
using System.IO.Compression;
using System.Xml.Linq;

namespace Reckoner.Cli.Tests;

/// <summary>
/// An item of QTI as a player reads it, from the text of the standard (IMS QTI 2.1, Assessment Test, Section and Item Information Model,
/// "Response Processing" and "Expressions"; version 3 says the same in other letters): responses go in, outcomes and what is shown come
/// out. Whatever is not read here fails, since a player would have to know it too.
/// </summary>
internal sealed class QtiReading(XElement item)
{
    public string Identifier => item.Attribute("identifier")!.Value;

    public XElement Xml => item;

    /// <summary>The items of a package, as its list names them.</summary>
    public static List<QtiReading> Package(string file)
    {
        using var archive = ZipFile.OpenRead(file);
        var manifest = Load(archive.GetEntry("imsmanifest.xml")!);
        return
        [
            .. manifest
                .Descendants()
                .Where(e => e.Name.LocalName == "resource")
                .Select(r => new QtiReading(Load(archive.GetEntry(r.Attribute("href")!.Value)!))),
        ];
    }

    private static XElement Load(ZipArchiveEntry entry)
    {
        using var stream = entry.Open();
        return XDocument.Load(stream, LoadOptions.PreserveWhitespace).Root!;
    }

    /// <summary>A name in both versions: without prefix, hyphens and capitals.</summary>
    public static string Plain(string name) =>
        (name.StartsWith("qti-", StringComparison.Ordinal) ? name[4..] : name)
            .Replace("-", "", StringComparison.Ordinal)
            .ToLowerInvariant();

    private static IEnumerable<XElement> All(XElement of, string name) =>
        of.Descendants().Where(e => Plain(e.Name.LocalName) == name);

    private static string Of(XElement element, string name) =>
        element.Attributes().First(a => Plain(a.Name.LocalName) == name).Value;

    private static string Name(XElement element) => Plain(element.Name.LocalName);

    /// <summary>The places in which something is written or chosen.</summary>
    public IReadOnlyList<string> Places =>
        [
            .. All(item, "itembody")
                .SelectMany(b => b.Descendants())
                .Where(e => Name(e) is "textentryinteraction" or "choiceinteraction")
                .Select(e => Of(e, "responseidentifier")),
        ];

    public IReadOnlyDictionary<string, string> Right =>
        All(item, "responsedeclaration").ToDictionary(d => Of(d, "identifier"), d => All(d, "value").Single().Value);

    /// <summary>The answers that are known to be wrong, each with the first way to write it.</summary>
    public IReadOnlyList<IReadOnlyDictionary<string, string>> Wrong =>
        [.. Known.Select(k => k.ToDictionary(g => g.Key, g => g.First()))];

    /// <summary>For each answer that is known to be wrong every way to write it, by place.</summary>
    public IReadOnlyList<ILookup<string, string>> Known =>
        [
            .. All(item, "responseelseif")
                .Select(e =>
                    All(e.Elements().First(), "match").Concat(Self(e)).ToLookup(Place, m => m.Elements().Last().Value)
                ),
        ];

    /// <summary>Every way to write what is right, by place.</summary>
    public ILookup<string, string> Accepted =>
        All(item, "responseif")
            .SelectMany(e => All(e.Elements().First(), "match").Concat(Self(e)))
            .ToLookup(Place, m => m.Elements().Last().Value);

    private static IEnumerable<XElement> Self(XElement rule) => rule.Elements().Take(1).Where(e => Name(e) == "match");

    private static string Place(XElement match) => Of(match.Elements().First(), "identifier");

    /// <summary>What the outcomes are for these responses; a place that is not among them is left empty.</summary>
    public QtiOutcome Graded(IReadOnlyDictionary<string, string> responses)
    {
        var outcomes = All(item, "outcomedeclaration")
            .ToDictionary(d => Of(d, "identifier"), d => All(d, "value").FirstOrDefault()?.Value);
        foreach (var rule in All(item, "responseprocessing").Single().Elements())
        {
            Apply(rule, responses, outcomes);
        }
        var shown = All(item, "modalfeedback")
            .Where(f => (outcomes[Of(f, "outcomeidentifier")] == Of(f, "identifier")) == (Of(f, "showhide") == "show"))
            .ToList();
        return new QtiOutcome(
            decimal.Parse(outcomes["SCORE"]!, CultureInfo.InvariantCulture),
            decimal.Parse(outcomes["MAXSCORE"]!, CultureInfo.InvariantCulture),
            shown
        );
    }

    private static void Apply(
        XElement rule,
        IReadOnlyDictionary<string, string> responses,
        Dictionary<string, string?> outcomes
    )
    {
        if (Name(rule) == "setoutcomevalue")
        {
            var value = rule.Elements().Single();
            outcomes[Of(rule, "identifier")] =
                Name(value) == "basevalue" ? value.Value : throw new NotSupportedException(Name(value));
            return;
        }
        if (Name(rule) != "responsecondition")
        {
            throw new NotSupportedException(Name(rule));
        }
        foreach (var arm in rule.Elements())
        {
            var isElse = Name(arm) == "responseelse";
            if (isElse || Truth(arm.Elements().First(), responses) == true)
            {
                foreach (var then in arm.Elements().Skip(isElse ? 0 : 1))
                {
                    Apply(then, responses, outcomes);
                }
                return;
            }
        }
    }

    /// <summary>Null where an operand of it is NULL, and nothing else decides.</summary>
    private static bool? Truth(XElement expression, IReadOnlyDictionary<string, string> responses)
    {
        var parts = expression.Elements().ToList();
        switch (Name(expression))
        {
            case "and":
                var each = parts.Select(p => Truth(p, responses)).ToList();
                return each.Contains(false) ? false
                    : each.Contains(null) ? null
                    : true;
            case "or":
                var any = parts.Select(p => Truth(p, responses)).ToList();
                return any.Contains(true) ? true
                    : any.Contains(null) ? null
                    : false;
            case "match":
                var (one, other) = (Text(parts[0], responses), Text(parts[1], responses));
                return one is null || other is null ? null : one == other;
            default:
                throw new NotSupportedException(Name(expression));
        }
    }

    private static string? Text(XElement expression, IReadOnlyDictionary<string, string> responses) =>
        Name(expression) switch
        {
            "variable" => responses.GetValueOrDefault(Of(expression, "identifier")) is { Length: > 0 } text
                ? text
                : null,
            "basevalue" => expression.Value,
            var name => throw new NotSupportedException(name),
        };
}

/// <param name="Shown">Feedback that is shown.</param>
internal sealed record QtiOutcome(decimal Score, decimal Most, IReadOnlyList<XElement> Shown)
{
    public string Text => string.Join('\n', Shown.Select(s => s.Value));
}
