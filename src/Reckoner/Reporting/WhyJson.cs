using System.Text.Json;
using Reckoner.Explaining;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Why somebody got what they got, as JSON.</summary>
internal static class WhyJson
{
    public static string Of(Verdict verdict, Vocabulary words) =>
        Json.Document(json =>
        {
            json.Subject(verdict.Datapath);
            json.Operands(verdict.Datapath, WhyDocument.Big(verdict.Operands));
            json.WriteString("verdict", Word(verdict.Kind.ToString()));
            json.WriteNumber("causes", verdict.Causes);
            json.WriteNumber("tried", verdict.MostCauses);
            json.Objects("explanations", verdict.Explanations, e => Write(json, e, verdict, words));
            if (verdict.TellingApart is { } operands)
            {
                json.Object("telling_apart", () => Telling(json, verdict, operands));
            }
            json.Objects("rows", verdict.Rows?.Rows ?? [], r => Write(json, r));
            json.WriteNumber("too_few", verdict.Rows?.TooFew ?? 0);
            json.WriteNumber("too_many", verdict.Rows?.TooMany ?? 0);
            json.List("assumed", verdict.Seen.Assumed, a => json.WriteStringValue(Word(a.ToString())));
        });

    private static void Telling(Utf8JsonWriter json, Verdict verdict, ulong[] operands)
    {
        json.Operands(verdict.Datapath, WhyDocument.Big(operands));
        json.Objects(
            "each",
            verdict.Explanations.Take(2),
            e => json.Results("results", verdict.Datapath, WhyDocument.Big(e.Final(verdict.Ways, operands)!))
        );
    }

    private static void Write(Utf8JsonWriter json, FollowedRow row)
    {
        json.WriteNumber("cycle", row.Row);
        json.WriteString("standing", Word(row.Standing.ToString()));
    }

    private static void Write(Utf8JsonWriter json, Explanation explanation, Verdict verdict, Vocabulary words)
    {
        if (explanation.Way != verdict.Ways.Right)
        {
            json.WriteString("machine", WhyDocument.Way(explanation));
        }
        json.Objects("causes", explanation.Mishaps, m => Write(json, m, verdict, words));
        if (explanation.FirstSeen is { } first)
        {
            json.WriteNumber("first_seen", first);
        }
    }

    private static void Write(Utf8JsonWriter json, Mishap mishap, Verdict verdict, Vocabulary words)
    {
        json.WriteString("kind", Kind(mishap));
        json.WriteString("text", MishapText.Of(mishap, verdict.Datapath, words));
        if (mishap is Slipped slipped)
        {
            json.WriteString("slip", slipped.Slip.Name);
            json.WriteNumber("line", slipped.Slip.Line);
        }
        if (mishap.Row is { } row)
        {
            json.WriteNumber("cycle", row);
        }
    }

    /// <summary>What it is, in the same words in every language.</summary>
    private static string Kind(Mishap mishap) =>
        mishap.Match(
            slipped: m => $"slip-{Word(m.Extent.ToString())}",
            workedOtherwise: _ => "other-machine",
            misread: m => $"read-{Word(m.Reading.Kind.ToString())}",
            miscopied: m => $"copied-{Word(m.How.ToString())}",
            rowsOff: m => $"rows-{Word(m.How.ToString())}",
            resultOff: m => $"result-{Word(m.How.ToString())}"
        );

    private static string Word(string name) => JsonNamingPolicy.KebabCaseLower.ConvertName(name);
}
