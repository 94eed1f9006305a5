using System.Text.RegularExpressions;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// README and handbook are true: what their blocks show is read and compared. Blocks of the kind "console" are run by the tests
/// of the command.
/// </summary>
public sealed partial class DocumentationTests
{
    private const string Notation = "docs/handbook/notation.md";

    public static IEnumerable<TheoryDataRow<string>> Pages =>
        MarkdownPage.All.Select(p => new TheoryDataRow<string>(p.Path));

    public static IEnumerable<TheoryDataRow<string>> Machines => Places("machine");

    public static IEnumerable<TheoryDataRow<string>> Excerpts => Places("excerpt");

    private static IEnumerable<TheoryDataRow<string>> Places(string kind) =>
        MarkdownPage
            .Read.SelectMany(p => p.Blocks)
            .Where(b => b.Kind == kind)
            .Select(b => new TheoryDataRow<string>($"{b}"));

    private static CodeBlock BlockAt(string place) =>
        MarkdownPage.Read.SelectMany(p => p.Blocks).Single(b => $"{b}" == place);

    private static Source? Known(string name) =>
        MarkdownPage
            .Read.SelectMany(p => p.Blocks)
            .Where(b => b.Kind == "machine" && b.Text.StartsWith($"machine {name}\n", StringComparison.Ordinal))
            .Select(b => new Source(name + ".machine", b.Text))
            .FirstOrDefault()
        ?? MachineCatalogue.Find(name);

    [Fact]
    public void Every_block_is_of_a_kind_that_a_test_checks()
    {
        var unknown = MarkdownPage
            .Read.SelectMany(p => p.Blocks)
            .Where(b =>
                b.Kind
                    is not (
                        "machine"
                        or "excerpt"
                        or "ebnf"
                        or "console"
                        or "script"
                        or "style"
                        or "model"
                        or "csharp"
                        or "printed"
                        or "csv"
                    )
            );
        Assert.Empty(unknown.Select(b => $"{b}: '{b.Info}'"));
    }

    [Theory]
    [MemberData(nameof(Machines))]
    public void A_machine_binds_without_a_word_at_both_ends_of_its_range_and_prints_back(string place)
    {
        var block = BlockAt(place);
        var machine = Machine.Read(new Source(place, block.Text), Known);
        Assert.Equal(block.Text, Printer.Text(machine.Description));
        foreach (var width in Range(machine).Prepend(null))
        {
            var (datapath, found) = machine.At(width);
            Assert.Empty(
                found.Where(d => d.Severity != Severity.Hint).Select(d => $"{d.Id} in line {d.Line} at {width}")
            );
            Assert.NotNull(datapath);
        }
    }

    [Fact]
    public void A_house_style_on_a_page_is_read_without_a_word() =>
        Assert.All(
            MarkdownPage.Read.SelectMany(p => p.Blocks).Where(b => b.Kind == "style"),
            block => Styled.Read(block.Text)
        );

    [Fact]
    public void A_model_of_costs_on_a_page_is_read_without_a_word() =>
        Assert.All(
            MarkdownPage.Read.SelectMany(p => p.Blocks).Where(b => b.Kind == "model"),
            block => Assert.Empty(ModelReader.Read(new Source("page.model", block.Text)).Found)
        );

    private static IEnumerable<int?> Range(Machine machine) =>
        new[] { machine.Widths.First().Low, machine.Widths.First().High }
            .OfType<NumberLiteral>()
            .Select(n => (int?)n.Number);

    [Theory]
    [MemberData(nameof(Excerpts))]
    public void An_excerpt_stands_line_by_line_in_the_machine_it_names(string place)
    {
        var block = BlockAt(place);
        var machine = Known(block.Info.Split(' ')[1]);
        Assert.NotNull(machine);
        Assert.Contains("\n" + Unindented(block.Text), "\n" + Unindented(machine.Text));
    }

    private static string Unindented(string text) =>
        string.Concat(
            text.Split('\n').Select(line => line.Trim()).Where(line => line.Length > 0).Select(line => line + "\n")
        );

    [Fact]
    public void The_table_of_operations_is_that_of_the_hardware()
    {
        var shown = MarkdownPage.Of(Notation).Table("Operations").Select(row => $"{row[0]} | {row[2]} | {row[3]}");
        var rows = Operations
            .Rows.Where(r => r.Written.Length > 0)
            .Select(r => $"{r.Written} | {r.Width} | {Spoken(r)}");
        Assert.Equal(rows, shown);
    }

    private static string Spoken(OperationRow row) =>
        row.Cost switch
        {
            Cost.Source => "control",
            Cost.Wiring => "wiring",
            Cost.Gates => "gates",
            Cost.Choice => "choice",
            Cost.Table => "table",
            Cost.SecondOutput => "second output",
            Cost.Unit => row.Unit switch
            {
                Datapaths.UnitKind.Adder => "adder",
                Datapaths.UnitKind.Multiplier => "multiplier",
                Datapaths.UnitKind.Comparator => "comparator",
                Datapaths.UnitKind.CarrySaveAdder => "carry-save adder",
                null => throw new InvalidOperationException(row.Written),
            },
        };

    [Fact]
    public void Every_function_of_the_hardware_has_a_row()
    {
        var shown = MarkdownPage.Of(Notation).Table("Operations").Select(row => row[0]);
        // "unsigned" reads bits anew just as "signed" does.
        Assert.Equal(["unsigned"], Operations.FunctionNames.Except(shown));
    }

    [Fact]
    public void Every_example_of_arithmetic_in_formulas_is_right()
    {
        foreach (var row in MarkdownPage.Of(Notation).Table("Arithmetic in formulas"))
        {
            var machine = Machine.Read(new Source("law", OneLaw($"{row[0]} = {row[1]}")), Known);
            var (datapath, found) = machine.At();
            Assert.Empty(found.Where(d => d.Severity == Severity.Error).Select(d => $"{row[0]}: {d.Id}"));
            Assert.True(Running.Walk.Of(datapath!, [0]).Holds, $"{row[0]} is not {row[1]}");
            Assert.False(
                Running
                    .Walk.Of(
                        Machine.Read(new Source("law", OneLaw($"{row[0]} = {row[1]} + 1")), Known).At().Datapath!,
                        [0]
                    )
                    .Holds
            );
        }
    }

    private static string OneLaw(string law) =>
        $"machine one\nwidth n = 5 in 1..9\noperand x : n\nregister X : n loads x\nresult y = X\nlaw {law}\n";

    [Theory]
    [MemberData(nameof(Pages))]
    public void Links_lead_somewhere(string path)
    {
        var page = MarkdownPage.Of(path);
        foreach (var link in page.Links.Where(l => !l.StartsWith("https://", StringComparison.Ordinal)))
        {
            var parts = link.Split('#', 2);
            var target = parts[0].Length == 0 ? path : Resolved(path, parts[0]);
            var file = MarkdownPage.FileOf(target);
            Assert.True(File.Exists(file) || Directory.Exists(file), $"{path} links to {link}, which is not there.");
            if (parts.Length == 2)
            {
                Assert.True(
                    MarkdownPage.Of(target).Anchors.Contains(parts[1]),
                    $"{path} links to {link}, and {target} has no such heading."
                );
            }
        }
    }

    private static string Resolved(string page, string link) =>
        Path.GetRelativePath(
                MarkdownPage.FileOf(""),
                Path.GetFullPath(Path.Combine(MarkdownPage.FileOf(page), "..", link))
            )
            .Replace('\\', '/');

    [Theory]
    [MemberData(nameof(Pages))]
    public void Files_and_folders_that_are_named_are_there(string path)
    {
        var named = MarkdownPage.Of(path).InlineCode.Where(code => RepositoryPath().IsMatch(code));
        Assert.All(
            named,
            name =>
            {
                var file = MarkdownPage.FileOf(name);
                Assert.True(File.Exists(file) || Directory.Exists(file), $"{path} names {name}, which is not there.");
            }
        );
    }

    [Fact]
    public void The_code_map_names_every_folder_of_the_sources()
    {
        var named = MarkdownPage.Of("ARCHITECTURE.md").Table("Code map").Select(row => row[0]);
        var folders = Directory
            .GetDirectories(MarkdownPage.FileOf("src"))
            .Select(folder => Path.GetFileName(folder))
            .Concat(
                Directory
                    .GetDirectories(MarkdownPage.FileOf("src/Reckoner"))
                    .Select(f => "Reckoner/" + Path.GetFileName(f))
            )
            .Where(folder => Path.GetFileName(folder) is not ("bin" or "obj"));
        Assert.Equal(folders.Select(f => $"src/{f}/").Order(), named.Where(n => n.StartsWith("src/")).Order());
    }

    [Fact]
    public void The_pages_ask_for_the_SDK_that_the_build_asks_for()
    {
        var version = SdkVersion().Match(File.ReadAllText(MarkdownPage.FileOf("global.json"))).Groups["major"].Value;
        Assert.All(
            new[] { "README.md", "CONTRIBUTING.md" },
            path => Assert.Contains($".NET SDK {version}]", MarkdownPage.Of(path).Prose)
        );
    }

    [Fact]
    public void The_glossary_explains_each_term_once_and_in_order()
    {
        var terms = MarkdownPage
            .Of("docs/handbook/glossary.md")
            .Prose.Split('\n')
            .Select(line => Term().Match(line))
            .Where(m => m.Success)
            .Select(m => m.Groups["term"].Value)
            .ToList();
        Assert.Equal(terms.Distinct().OrderBy(t => t, StringComparer.OrdinalIgnoreCase), terms);
    }

    [GeneratedRegex(@"^(src|tests|docs|\.ci|\.config)/[\w./-]+$")]
    private static partial Regex RepositoryPath();

    [GeneratedRegex("\"version\": \"(?<major>[0-9]+)")]
    private static partial Regex SdkVersion();

    [GeneratedRegex(@"^\*\*(?<term>[^*]+)\*\*")]
    private static partial Regex Term();
}
