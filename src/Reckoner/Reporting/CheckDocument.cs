using System.Globalization;
using Reckoner.Checking;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>What a check found. Nothing says "all operands" unless all of them were covered.</summary>
internal sealed class CheckDocument
{
    private readonly CheckReport check;
    private readonly Vocabulary words;

    private CheckDocument(CheckReport check, Vocabulary words)
    {
        this.check = check;
        this.words = words;
    }

    private CheckResult Result => check.Result;

    private Datapath Datapath => Result.Datapath;

    /// <summary>One for each width.</summary>
    /// <param name="notBegun">Widths that were asked for too, which a stop left out.</param>
    public static IReadOnlyList<Document> Of(
        IReadOnlyList<CheckReport> checks,
        IReadOnlyList<Datapath> notBegun,
        Vocabulary words
    )
    {
        var documents = checks.Select(c => new CheckDocument(c, words).Whole()).ToList();
        if (notBegun.Count > 0)
        {
            documents[^1] = documents[^1] with { Blocks = [.. documents[^1].Blocks, NotBegun(notBegun, words)] };
        }
        return documents;
    }

    private static Paragraph NotBegun(IReadOnlyList<Datapath> datapaths, Vocabulary words) =>
        new(
            words.Spell(
                datapaths.Count == 1 ? "check.not-begun" : "check.not-begun-many",
                ("first", WidthText.Of(datapaths[0].Widths)),
                ("last", WidthText.Of(datapaths[^1].Widths))
            )
        );

    private Document Whole() =>
        new(
            Datapath.Machine.Name,
            words.Language,
            Names.Of(Datapath, words),
            Datapath.Machine.Title?.In(words.Language),
            [.. Blocks()]
        )
        {
            Leads = [Covered()],
        };

    private IEnumerable<Block> Blocks()
    {
        yield return new Pairs([.. Result.Sections.Select(Section)]);
        if (check.Strength is { } strength && Datapath.Laws.Count > 0)
        {
            yield return new Paragraph(Strength(strength), ParagraphRole.Note);
        }
        if (check.Averages is { } averages)
        {
            yield return CheckAverages.Of(averages, Datapath.Given.Count > 0, words);
        }
        if (check.AreAveragesStopped)
        {
            yield return new Paragraph(words.Spell("check.averages-stopped"), ParagraphRole.Note);
        }
    }

    /// <summary>How much was covered, and how.</summary>
    private Content Covered()
    {
        var how =
            Result.IsExhaustive ? (Result.Only is null ? "check.exhaustive" : "check.exhaustive-only")
            : check.Sample is not null ? (Result.Complete ? "check.sampled" : "check.sample-stopped")
            : Result.Steps is { } steps && steps.From == steps.To && Result.Complete ? "check.part-none"
            : Result.Complete ? "check.part"
            : "check.stopped";
        var share = Result.Steps is { } s ? Share(s.To - s.From, Result.Space.Steps) : "";
        var (seed, asked) = check.Sample ?? default;
        var said = words.Spell(
            how,
            ("share", words.Decimal(share)),
            ("formula", $"{Result.Only}"),
            ("lanes", Result.Space.Lanes),
            ("tried", Result.Tried ?? 0),
            ("asked", asked),
            ("seed", seed)
        );
        if (Result is { IsExhaustive: false, Only: { } only })
        {
            said += Content.Text(" ") + words.Spell("check.only", ("formula", $"{only}"));
        }
        return Result.Method == WordCheck.Method && CheckProgram.ClaimBeyondGates(Datapath) is var (beyond, isTooLarge)
            ? said
                + Content.Text(" ")
                + words.Spell(
                    isTooLarge ? "check.word-by-word-large" : "check.word-by-word",
                    ("formula", FormulaText.Of(beyond, ClaimText.In(Datapath, words)))
                )
            : said;
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

    private Pair Section(SectionResult section)
    {
        var (cases, failures) = (section.Count.Cases, section.Count.Failures);
        var isNone = section.Count.Section == CheckSection.Laws && Datapath.Laws.Count == 0;
        var key = isNone ? "check.laws.none" : $"check.{section.Name}{(failures.IsZero ? "" : ".fail")}";
        var followed = Datapath.Machine.Followed?.Name ?? "";
        List<Content> said = [words.Spell(key, ("cases", cases), ("failures", failures), ("machine", followed))];
        if (section.Count.Smallest is { } smallest)
        {
            var operands = OperandsText.Operands(Datapath, smallest.Operands, words);
            said.Add(
                words.Spell(
                    "check.smallest",
                    ("operands", operands),
                    ("results", OperandsText.Results(Datapath, section.Given!, words))
                )
            );
            if (Undefined(section) is { } undefined)
            {
                said.Add(Content.Text(ClaimText.Of(undefined, Datapath, words)));
            }
            if (section.Expected is { } expected)
            {
                said.Add(words.Spell("check.expected", ("results", OperandsText.Results(Datapath, expected, words))));
            }
        }
        return new Pair(words.Spell($"check.section.{section.Name}"), said);
    }

    /// <summary>The part for want of whose value the smallest operands fail, where that is why.</summary>
    private Undefined? Undefined(SectionResult section)
    {
        var claims = section.Count.Section switch
        {
            CheckSection.Laws => Datapath.Laws,
            CheckSection.Outside => Datapath.Outside,
            CheckSection.Follows => [],
        };
        var operands = section.Count.Smallest!.Operands;
        return claims
            .Where(c => !ClaimJudge.Holds(c, operands, section.Given!))
            .Select(c => ClaimJudge.Undefined(c, operands, section.Given!))
            .FirstOrDefault(u => u is not null);
    }

    private Content Strength(LawStrength strength)
    {
        if (strength.Width is not { } width)
        {
            return words.Spell("check.strength-unknown");
        }
        var at = Wrapping.Equation(Datapath.Widths.Count > 0 ? Datapath.Widths[0].Name : "", width);
        return strength.Fixes
            ? words.Spell("check.strength-fixed", ("at", at))
            : words.Spell(
                "check.strength-loose",
                ("at", at),
                ("operands", OperandsText.Operands(strength.At!, strength.Operands!, words)),
                ("results", OperandsText.Results(strength.At!, strength.Results!, words))
            );
    }
}
