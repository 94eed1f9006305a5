using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Reporting;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>The handbook's entry for every diagnostic about a description is run as it stands there.</summary>
public class DiagnosticHandbookTests
{
    private const int Columns = 80;

    // Those about what is asked on the command line begin here; they have no description to show.
    private static readonly IReadOnlyList<string> Rows =
    [
        .. Id.All.TakeWhile(id => id != Id.VerbMissing).Select(id => id.Name),
    ];

    public static TheoryData<string> Ids => [.. Rows];

    [Fact]
    public void Every_row_of_the_table_has_one_entry_in_the_same_order() =>
        Assert.Equal(Rows, DiagnosticEntry.All.Select(e => e.Id));

    [Theory]
    [MemberData(nameof(Ids))]
    public void The_wrong_example_gives_its_diagnostic_and_no_other(string id) =>
        Assert.Equal([id], Said(id, DiagnosticEntry.Of(id).Wrong).Select(d => d.Id.Name));

    [Theory]
    [MemberData(nameof(Ids))]
    public void The_mended_example_gives_none(string id) => Assert.Empty(Said(id, DiagnosticEntry.Of(id).Mended));

    [Theory]
    [MemberData(nameof(Ids))]
    public void The_entry_says_why_in_a_few_sentences(string id) =>
        Assert.InRange(DiagnosticEntry.Of(id).Why.Length, 40, 400);

    /// <summary>A text whose sentences are wrong has no tree to print; the others are in the one layout.</summary>
    [Theory]
    [MemberData(nameof(Ids))]
    public void The_examples_print_back_as_they_are_written(string id)
    {
        var entry = DiagnosticEntry.Of(id);
        var texts = entry.Examples.SelectMany(e => e.Beside.Values.Append(e.Text)).ToList();
        var printed = texts.Where(IsReadable).ToList();
        Assert.Contains(entry.Mended.Text, printed);
        Assert.All(printed, text => Assert.Equal(text, Printer.Text(Read(text).Description)));
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void The_message_fits_the_page(string id)
    {
        var message = DiagnosticText.Of(DiagnosticEntry.Of(id).Wrong.Found(), Vocabulary.English, Columns);
        Assert.All(message.Split('\n'), line => Assert.InRange(Wrapping.Columns(line), 0, Columns));
    }

    [Fact]
    public void The_messages_are_these()
    {
        var messages = DiagnosticEntry.All.Select(e =>
            DiagnosticText.Of(Said(e.Id, e.Wrong), Vocabulary.English, Columns)
        );
        Snapshot.Match(nameof(The_messages_are_these), string.Concat(messages));
    }

    [Fact]
    public void Every_id_has_its_words_and_no_words_are_left_over()
    {
        const string prefix = "diagnostic.";
        var names = Id.All.Select(id => id.Name).ToList();
        var wanted = names.SelectMany(name => new[] { prefix + name, $"{prefix}{name}.try" });
        Assert.Empty(wanted.Except(Vocabulary.English.Keys));
        var spoken = Vocabulary.English.Keys.Where(k => k.StartsWith(prefix)).Select(k => k.Split('.')[1]);
        Assert.Empty(spoken.Except(names));
        Assert.Equal(names.Distinct(), names);
    }

    [Theory]
    [InlineData("worng")]
    [InlineData("wrong wide=4")]
    [InlineData("")]
    public void A_block_that_is_neither_wrong_nor_mended_nor_beside_is_refused(string info) =>
        Assert.Throws<InvalidDataException>(() =>
            DiagnosticEntry.Read($"# Title\n\n### some-id\n\nWhy.\n\n```{info}\nmachine m\n```\n").ToList()
        );

    /// <summary>What a reader sees: hints only where the entry is about one.</summary>
    private static IReadOnlyList<Diagnostic> Said(string id, DiagnosticExample example) =>
        [.. example.Found().Where(d => d.Severity != Severity.Hint || d.Id.Name == id)];

    private static bool IsReadable(string text) => Read(text).Diagnostics.Count == 0;

    private static (Description Description, IReadOnlyList<Diagnostic> Diagnostics) Read(string text) =>
        Parser.Read(new Source("example.machine", text));
}
