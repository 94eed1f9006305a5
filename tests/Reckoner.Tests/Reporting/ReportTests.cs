using System.Text.Json;
using System.Xml.Linq;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Measuring;
using Reckoner.Reporting;
using Reckoner.Slips;
using Reckoner.Tables;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Reports in every form of a document: whole outputs, and that no form keeps back what another says.</summary>
public class ReportTests
{
    private static readonly Vocabulary English = Vocabulary.English;
    private static readonly IPlaneEngine Engine = InterpretedEngine.Widest;

    private static readonly Lazy<IReadOnlyDictionary<string, Document>> Made = new(() =>
    {
        var divider = Walks.At("divide-still-divisor", 3);
        var early = Walks.At("multiply-early-out", 3);
        var candidates = Candidates.Of(early, Engine, null);
        var slips = new SlipSets(candidates);
        var best = BestFew.Of(candidates, 2);
        var subject = new OperandsSubject(candidates, null, 1);
        var fewest = slips.ExposingAll();
        var slip = fewest.Slips[0].Slip.Name;
        var study = SlipStudy.Of(divider, Engine, sample: null, withConditions: true);
        var harmless = study.Slips.Where(s => s.Smallest is null).Take(1);
        return new Dictionary<string, Document>
        {
            ["check"] = Checked(early),
            ["check of a slip"] = Checked(Walks.At("divide-still-divisor", Slip.Of(divider.Machine)[0].Name, 3)),
            ["sum of parts"] = Summed(Walks.At("divide-still-divisor", Slip.Of(divider.Machine)[0].Name, 3)),
            ["slips"] = SlipsDocument.Of(study with { Slips = [.. study.Slips.Take(3), .. harmless] }, English),
            ["idle"] = IdleDocument.Of(Idle.OverAll(divider, Engine)!, English),
            ["idle early"] = IdleDocument.Of(Idle.OverAll(early, Engine)!, English),
            ["hardware"] = HardwareDocument.Of(Hardware.Of(divider), English),
            ["best"] = BestDocument.Of(subject, best, slips.Beside(slip, best), English),
            ["fewest"] = FewestDocument.Of(
                subject,
                fewest with
                {
                    Slips = [.. fewest.Slips.Take(3)],
                    Hidden = [.. fewest.Hidden.Take(2)],
                },
                isApart: false,
                English
            ),
            ["equal"] = Equal(2),
            ["too few"] = Equal(1000),
            ["list"] = CatalogueDocument.Of(
                [
                    .. MachineCatalogue
                        .Entries.Take(3)
                        .Select(e => (e, Binding.Machine.Read(e.Source, MachineCatalogue.Find))),
                ],
                English
            ),
        };
    });

    private static Document Equal(int count)
    {
        var candidates = Candidates.Of(Walks.At("multiply-early-out", 4), Engine, null);
        var equal = new EqualDifficulty(candidates);
        var asked = new EqualAsked(count, Again: false, EqualAllowed.Nothing);
        var subject = new OperandsSubject(candidates, null, 1);
        var draw = equal.Draw(count, 1);
        return EqualDocument.Of(subject, asked, draw, () => equal.Ways(draw?.Class, count), English);
    }

    private static Document Checked(Datapath datapath) => CheckDocument.Of([Check(datapath)], [], English)[0];

    private static CheckReport Check(Datapath datapath)
    {
        var program = CheckProgram.Of(datapath, null, OracleUse.Written);
        var run = new CheckRun(program, Engine);
        var steps = program.Space.Steps;
        Assert.Equal(steps, run.Run(0, steps, CancellationToken.None));
        var result = Checker.Result(program, run.Counts, "", (0, steps), isComplete: true);
        return new CheckReport(result, LawStrength.Of(datapath, Engine), Averages.Of(datapath, Engine), 0, null);
    }

    /// <summary>Written as JSON and read back.</summary>
    private static Document Summed(Datapath datapath)
    {
        using var json = JsonDocument.Parse(CheckJson.Of(Check(datapath)));
        return PartDocument.Of(PartSum.Of(PartReader.Read(json.RootElement)!), English);
    }

    private static string Pages(Func<Document, string> write) => string.Join('\n', Made.Value.Values.Select(write));

    [Fact]
    public void On_60_columns_they_look_like_this() =>
        Snapshot.Match(nameof(On_60_columns_they_look_like_this), Pages(d => DocumentText.Of(d, 60)));

    [Fact]
    public void On_120_columns_they_look_like_this() =>
        Snapshot.Match(nameof(On_120_columns_they_look_like_this), Pages(d => DocumentText.Of(d, 120)));

    [Fact]
    public void In_Markdown_they_look_like_this() =>
        Snapshot.Match(nameof(In_Markdown_they_look_like_this), Pages(Markdown.Of), "md");

    [Fact]
    public void In_LaTeX_they_look_like_this() =>
        Snapshot.Match(nameof(In_LaTeX_they_look_like_this), Pages(Latex.Of), "tex");

    [Fact]
    public void In_prose_they_look_like_this() =>
        Snapshot.Match(nameof(In_prose_they_look_like_this), Pages(d => Prose.Of(d, English)));

    /// <summary>Sentences, names, items and cells, in the order of the document.</summary>
    private static IEnumerable<string> Said(Document document) =>
        document
            .Blocks.SelectMany(b =>
                b.Match(
                    p => p.Sentences,
                    p => p.Rows.SelectMany(r => r.Said.Prepend(r.Name)).Concat(p.Caption is { } c ? [c] : []),
                    i => i.Each,
                    g => g.Rows.SelectMany(r => r.Cells).SelectMany(c => c.Lines)
                )
            )
            .Concat(document.Leads)
            .Select(c => c.ToString())
            .Append(document.Title)
            .Concat(document.Subtitle is { } s ? [s] : []);

    /// <summary>Blanks and line ends are the page's.</summary>
    private static string Squashed(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c)));

    [Fact]
    public void Text_of_any_width_says_all_of_it_and_fits() =>
        Assert.All(Made.Value.Values, document => Assert.All([40, 60, 80, 100, 120], (int c) => IsWhole(document, c)));

    private static void IsWhole(Document document, int columns)
    {
        var text = DocumentText.Of(document, columns);
        Assert.All(
            text.Split('\n'),
            line => Assert.True(line.Length <= Math.Max(columns, 60), $"on {columns} columns:\n{line}")
        );
        Assert.All(Said(document), said => Assert.Contains(Squashed(said), Squashed(text), StringComparison.Ordinal));
    }

    [Fact]
    public void A_page_of_html_says_all_of_it_and_is_well_formed() =>
        Assert.All(Made.Value.Values, (Document d) => IsWhole(d));

    private static void IsWhole(Document document)
    {
        var page = Html.Of(document);
        var body = page[
            page.IndexOf("<section>", StringComparison.Ordinal)..page.IndexOf("</main>", StringComparison.Ordinal)
        ];
        var text = Squashed(XElement.Parse(WithoutNames(body)).Value);
        Assert.All(Said(document), said => Assert.Contains(Squashed(said), text, StringComparison.Ordinal));
        Assert.All(document.Grids, g => Assert.Contains(Squashed(g.Caption), text, StringComparison.Ordinal));
    }

    /// <summary>XML knows five named letters, HTML more.</summary>
    private static string WithoutNames(string html) =>
        html.Replace("&nbsp;", "\u00A0", StringComparison.Ordinal).Replace("<wbr>", "", StringComparison.Ordinal);
}
