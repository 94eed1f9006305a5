namespace Reckoner.Cli.Tests;

/// <summary>
/// What may stand in which element of an item, as far as items of ours use it: read from the information model of IMS QTI 2.1 (and 3, which
/// puts a content body into feedback). It is a reading of its own and no schema: what the schema says beyond it is not looked at.
/// </summary>
internal static class QtiShape
{
    private const string Expression = "(and |or |match |variable |basevalue )";

    /// <summary>For each element the names of its children, each with a blank behind it, as a pattern.</summary>
    public static IReadOnlyDictionary<string, string> Content { get; } =
        new Dictionary<string, string>
        {
            ["assessmentitem"] =
                "(responsedeclaration )*(outcomedeclaration )*(itembody )?(responseprocessing )?(modalfeedback )*",
            ["responsedeclaration"] = "(correctresponse )?",
            ["correctresponse"] = "(value )+",
            ["outcomedeclaration"] = "(defaultvalue )?",
            ["defaultvalue"] = "(value )+",
            ["value"] = "",
            ["itembody"] = "(p |pre |table |choiceinteraction )*",
            ["p"] = "(textentryinteraction |code )*",
            ["pre"] = "",
            ["code"] = "",
            ["table"] = "(thead )?(tbody )+",
            ["thead"] = "(tr )+",
            ["tbody"] = "(tr )+",
            ["tr"] = "(th |td )*",
            ["th"] = "",
            ["td"] = "(textentryinteraction |code )*",
            ["ul"] = "(li )*",
            ["li"] = "",
            ["textentryinteraction"] = "",
            ["choiceinteraction"] = "(prompt )?(simplechoice )+",
            ["simplechoice"] = "",
            ["responseprocessing"] = "(responsecondition |setoutcomevalue )*",
            ["responsecondition"] = "responseif (responseelseif )*(responseelse )?",
            ["responseif"] = $"{Expression}(responsecondition |setoutcomevalue )*",
            ["responseelseif"] = $"{Expression}(responsecondition |setoutcomevalue )*",
            ["responseelse"] = "(responsecondition |setoutcomevalue )*",
            ["setoutcomevalue"] = Expression,
            ["and"] = $"{Expression}+",
            ["or"] = $"{Expression}+",
            ["match"] = $"{Expression}{{2}}",
            ["variable"] = "",
            ["basevalue"] = "",
            ["modalfeedback"] = "((p |ul )*|contentbody )",
            ["contentbody"] = "(p |ul )*",
        };

    public static IEnumerable<string> Required(string element) =>
        element switch
        {
            "assessmentitem" => ["identifier", "title", "adaptive", "timedependent"],
            "responsedeclaration" or "outcomedeclaration" => ["identifier", "cardinality", "basetype"],
            "textentryinteraction" => ["responseidentifier"],
            "choiceinteraction" => ["responseidentifier", "shuffle", "maxchoices"],
            "simplechoice" or "setoutcomevalue" or "variable" => ["identifier"],
            "basevalue" => ["basetype"],
            "modalfeedback" => ["outcomeidentifier", "showhide", "identifier"],
            _ => [],
        };

    /// <summary>Elements in which letters stand between others.</summary>
    public static bool IsMixed(string element) => element is "p" or "td" or "th" or "li";
}
