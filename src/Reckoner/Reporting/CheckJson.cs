using System.Numerics;
using System.Text.Json;
using Reckoner.Checking;
using Reckoner.Numbers;

namespace Reckoner.Reporting;

/// <summary>
/// Checks as JSON: one at one width, or under "checks" those of a range of widths. The outer cases, failures and smallest are
/// those of the laws.
/// </summary>
internal static class CheckJson
{
    public static string Of(CheckReport check) =>
        Json.Document(json =>
        {
            json.Machine(check.Result.Datapath.Machine);
            Only(json, check);
            Write(json, check);
        });

    public static string Of(IReadOnlyList<CheckReport> checks) =>
        Json.Document(json =>
        {
            json.Machine(checks[0].Result.Datapath.Machine);
            Only(json, checks[0]);
            // One that is not complete is the last: those after it were not begun.
            json.WriteBoolean("complete", checks[^1].IsComplete);
            json.Objects("checks", checks, check => Write(json, check));
        });

    private static void Only(Utf8JsonWriter json, CheckReport check)
    {
        if (check.Result.Only is { } only)
        {
            json.WriteString("only", only.ToString());
        }
    }

    private static void Write(Utf8JsonWriter json, CheckReport check)
    {
        var result = check.Result;
        json.Width(result.Datapath);
        Section(json, result, result.Sections[0]);
        json.WriteString("method", result.Method);
        if (result.Gates is var (count, stepped))
        {
            json.WriteNumber("gates", count);
            json.List("stepped", stepped, a => json.WriteStringValue($"{a.Truth}"));
        }
        json.WriteNumber("seconds", Math.Round(check.Seconds, 3));
        json.WriteBoolean("complete", check.IsComplete);
        json.WriteBoolean("exhaustive", result.IsExhaustive);
        if (result.Steps is { } steps)
        {
            json.Object(
                "steps",
                () =>
                {
                    json.WriteString("from", Text(steps.From));
                    json.WriteString("to", Text(steps.To));
                    json.WriteString("of", Text(result.Space.Steps));
                }
            );
        }
        if (check.Sample is var (seed, asked))
        {
            json.Object(
                "sample",
                () =>
                {
                    json.WriteNumber("seed", seed);
                    json.WriteNumber("count", asked);
                    json.WriteNumber("tried", result.Tried!.Value);
                }
            );
        }
        json.Objects(
            "sections",
            result.Sections,
            section =>
            {
                json.WriteString("name", section.Name);
                Section(json, result, section);
            }
        );
        if (check.Strength is not null)
        {
            Write(json, check.Strength);
        }
        if (check.Averages is not null)
        {
            Write(json, check.Averages);
        }
    }

    private static string Text(BigInteger number) => Bits.Text(number);

    private static void Section(Utf8JsonWriter json, CheckResult result, SectionResult section)
    {
        json.WriteString("cases", Text(section.Count.Cases));
        json.WriteString("failures", Text(section.Count.Failures));
        if (section.Count.Smallest is not { } smallest)
        {
            json.WriteNull("smallest");
            return;
        }
        var datapath = result.Datapath;
        json.Object(
            "smallest",
            () =>
            {
                json.Operands(datapath, smallest.Operands);
                json.Results("results", datapath, section.Given);
                json.Results("expected", datapath, section.Expected);
            }
        );
    }

    private static void Write(Utf8JsonWriter json, LawStrength strength) =>
        json.Object(
            "laws_fix_results",
            () =>
            {
                json.WriteString("width", strength.Width is { } width ? Text(width) : null);
                if (strength.Width is not null)
                {
                    json.WriteBoolean("fixed", strength.Fixes);
                }
                if (strength.Operands is not null)
                {
                    json.Operands(strength.At!, strength.Operands);
                    json.Results("results", strength.At!, strength.Results);
                }
            }
        );

    private static void Write(Utf8JsonWriter json, Averages averages) =>
        json.Object(
            "averages",
            () =>
            {
                json.WriteString("cases", Text(averages.Cases));
                json.WriteString("cycles", averages.AverageCycles.ToString());
                json.Objects(
                    "distribution",
                    averages.Cycles,
                    c =>
                    {
                        json.WriteNumber("cycles", c.Cycles);
                        json.WriteString("cases", Text(c.Cases));
                    }
                );
                json.Objects(
                    "decisions",
                    averages.Outcomes,
                    o =>
                    {
                        json.WriteNumber("line", o.Line);
                        json.WriteString("text", o.Text);
                        json.WriteString("average", o.Average.ToString());
                        json.WriteNumber("possible", o.Possible);
                    }
                );
            }
        );
}
