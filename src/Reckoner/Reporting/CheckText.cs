using System.Globalization;
using System.Numerics;
using System.Text;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>What a check found, in words. Nothing says "all operands" unless all of them were covered.</summary>
public sealed class CheckText
{
    private const string Indent = "   ";

    private readonly CheckReport check;
    private readonly Vocabulary words;
    private readonly int columns;
    private readonly StringBuilder text = new();

    private CheckText(CheckReport check, Vocabulary words, int columns)
    {
        this.check = check;
        this.words = words;
        this.columns = columns;
    }

    private CheckResult Result => check.Result;

    private Datapath Datapath => Result.Datapath;

    /// <param name="notBegun">Widths that were asked for too, which a stop left out.</param>
    public static string Of(
        IReadOnlyList<CheckReport> checks,
        IReadOnlyList<Datapath> notBegun,
        Vocabulary words,
        int columns
    )
    {
        var texts = checks.Select(c => new CheckText(c, words, columns)).ToList();
        texts.ForEach(t => t.Whole());
        texts[^1].NotBegun(notBegun);
        return string.Join('\n', texts.Select(t => t.text));
    }

    private void Whole()
    {
        Head();
        Sections();
        Strength(check.Strength);
        Averages(check.Averages);
        if (check.AreAveragesStopped)
        {
            text.Append('\n');
            Filled(words.Say("check.averages-stopped"), Indent.Length, Indent);
        }
    }

    private void NotBegun(IReadOnlyList<Datapath> datapaths)
    {
        if (datapaths.Count == 0)
        {
            return;
        }
        text.Append('\n');
        var key = datapaths.Count == 1 ? "check.not-begun" : "check.not-begun-many";
        Filled(words.Say(key, ("first", Widths(datapaths[0])), ("last", Widths(datapaths[^1]))), 0, "");
    }

    private static string Widths(Datapath datapath) => WidthText.Of(datapath.Widths);

    private void Filled(string said, int indent, string lead)
    {
        foreach (var line in Wrapping.Lines(said, Math.Max(20, columns - indent)))
        {
            text.Append((Wrapping.Padded(lead, indent) + line).TrimEnd()).Append('\n');
            lead = "";
        }
    }

    private void Head()
    {
        Filled(Names.Of(Datapath, words), 0, "");
        if (Datapath.Machine.Title is { } title)
        {
            Filled(title.In(words.Language), 0, "");
        }
        var how =
            Result.IsExhaustive ? "check.exhaustive"
            : check.Sample is not null ? (Result.Complete ? "check.sampled" : "check.sample-stopped")
            : Result.Complete ? "check.part"
            : "check.stopped";
        var share = Result.Steps is { } s ? Share(s.To - s.From, Result.Space.Steps) : "";
        var inWords = Result.Method == WordCheck.Method ? " " + words.Say("check.word-by-word") : "";
        var (seed, asked) = check.Sample ?? default;
        var said = words.Say(how, ("share", share), ("tried", Result.Tried ?? 0), ("asked", asked), ("seed", seed));
        Filled(said + inWords, 0, "");
        text.Append('\n');
    }

    /// <summary>Never 0 % of something, nor 100 % of what is not everything.</summary>
    private static string Share(long part, long whole)
    {
        var share = 100.0 * part / whole;
        if (share > 99.99 && part < whole)
        {
            return "99.99";
        }
        var places = share is > 0 and < 0.01 ? 1 - (int)Math.Floor(Math.Log10(share)) : 2;
        return share.ToString("0." + new string('#', places), CultureInfo.InvariantCulture);
    }

    private void Sections()
    {
        var width = Result.Sections.Max(s => s.Name.Length) + Indent.Length + 2;
        foreach (var section in Result.Sections)
        {
            var (cases, failures) = (section.Count.Cases, section.Count.Failures);
            var isNone = section.Name == "laws" && Datapath.Laws.Count == 0;
            var key = isNone ? "check.laws.none" : $"check.{section.Name}{(failures.IsZero ? "" : ".fail")}";
            var followed = Datapath.Machine.Followed?.Name ?? "";
            Filled(
                words.Say(key, ("cases", cases), ("failures", failures), ("machine", followed)),
                width,
                Indent + section.Name
            );
            if (section.Count.Smallest is { } smallest)
            {
                Filled(
                    words.Say(
                        "check.smallest",
                        ("operands", Numbers(Datapath.Operands.Zip(smallest.Operands, Spoken))),
                        ("results", Results(section.Given!))
                    ),
                    width,
                    ""
                );
                if (section.Expected is not null)
                {
                    Filled(words.Say("check.expected", ("results", Results(section.Expected))), width, "");
                }
            }
        }
    }

    private static string Numbers(IEnumerable<string> spoken) => string.Join(", ", spoken);

    private static string Spoken(Operand operand, BigInteger bits) =>
        Wrapping.Equation(operand.Name, Evaluator.Number(operand, bits));

    private string Results(IReadOnlyList<BigInteger> bits) =>
        Numbers(Datapath.Results.Zip(bits, (r, b) => Wrapping.Equation(r.Name, r.Number(b))));

    private void Strength(LawStrength? strength)
    {
        if (strength is null || Datapath.Laws.Count == 0)
        {
            return;
        }
        text.Append('\n');
        var main = Datapath.Widths.Count > 0 ? Datapath.Widths[0].Name : "";
        if (strength.Width is not { } width)
        {
            Filled(words.Say("check.strength-unknown"), Indent.Length, Indent);
            return;
        }
        var at = Wrapping.Equation(main, width);
        if (strength.Fixes)
        {
            Filled(words.Say("check.strength-fixed", ("at", at)), Indent.Length, Indent);
            return;
        }
        var operands = Numbers(strength.At!.Operands.Zip(strength.Operands!, Spoken));
        var results = Numbers(
            strength.At.Results.Zip(strength.Results!, (r, b) => Wrapping.Equation(r.Name, r.Number(b)))
        );
        Filled(
            words.Say("check.strength-loose", ("at", at), ("operands", operands), ("results", results)),
            Indent.Length,
            Indent
        );
    }

    private void Averages(Averages? averages)
    {
        if (averages is null)
        {
            return;
        }
        text.Append('\n');
        Filled(words.Say("check.averages", ("cases", averages.Cases)), Indent.Length, Indent);
        var rows = new List<(string Left, string Right)>
        {
            (
                words.Say("check.cycles"),
                averages.Cycles.Count == 1 ? Exact(averages.AverageCycles) : Approximate(averages.AverageCycles)
            ),
        };
        if (averages.Cycles.Count > 1)
        {
            rows.AddRange(
                averages.Cycles.Select(c =>
                    (
                        Indent + words.Say("walk.cycles", ("count", c.Cycles)),
                        words.Say("check.times", ("cases", c.Cases))
                    )
                )
            );
        }
        rows.AddRange(
            averages.Outcomes.Select(o =>
                (
                    words.Say("check.outcome", ("line", o.Line), ("text", o.Text)),
                    words.Say("check.of", ("average", Approximate(o.Average)), ("possible", o.Possible))
                )
            )
        );
        var width = Math.Min(columns / 2, rows.Max(r => Wrapping.Columns(r.Left))) + 2 * Indent.Length + 2;
        foreach (var (left, right) in rows)
        {
            Filled(
                right,
                width,
                Indent + Indent + left + (Wrapping.Columns(left) + 2 * Indent.Length >= width ? "  " : "")
            );
        }
    }

    private static string Exact(Rational value) => value.ToString();

    /// <summary>The exact fraction where it is short, else three places; a rounded number is marked so.</summary>
    private static string Approximate(Rational value)
    {
        if (value.IsWhole)
        {
            return value.ToString();
        }
        var thousandths = Rational.Round(value * 1000);
        var rounded = $"{thousandths / 1000}.{BigInteger.Abs(thousandths % 1000):000}".TrimEnd('0').TrimEnd('.');
        return value * 1000 == thousandths ? rounded : $"{rounded} ({value})";
    }
}
