using Xunit;

namespace Reckoner.Tests;

public sealed class SnapshotTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-snapshots-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void Every_pinned_file_of_this_project_belongs_to_a_test() =>
        Assert.Empty(Snapshot.Strays(Sources.File("tests/Reckoner.Tests")));

    [Fact]
    public void A_pinned_file_that_no_test_asks_for_is_found()
    {
        Write("SumTests.cs", "Snapshot.Match(nameof(Adds), text); Snapshot.Match(nameof(Draws), picture, \"svg\");");
        Write("SumTests.Adds.verified.txt", "");
        Write("SumTests.Draws.verified.svg", "");
        Write("SumTests.Draws.verified.txt", "");
        Write("SumTests.Adds.verified.svg", "");
        Write("SumTests.Subtracts.verified.txt", "");
        Write("OtherTests.Adds.verified.txt", "");
        Directory.CreateDirectory(Path.Combine(folder, "Below"));
        Write("Below/SumTests.Adds.verified.txt", "");
        Assert.Equal(
            [
                "Below/SumTests.Adds.verified.txt",
                "OtherTests.Adds.verified.txt",
                "SumTests.Adds.verified.svg",
                "SumTests.Draws.verified.txt",
                "SumTests.Subtracts.verified.txt",
            ],
            Snapshot.Strays(folder).Order(StringComparer.Ordinal)
        );
    }

    [Fact]
    public void The_pinned_text_itself_is_accepted_and_an_old_received_file_goes()
    {
        Write("A.B.verified.txt", "one\ntwo\n");
        Write("A.B.received.txt", "old");
        Assert.Null(Difference("one\ntwo\n"));
        Assert.False(File.Exists(Path.Combine(folder, "A.B.received.txt")));
    }

    [Theory]
    [InlineData("one\n2\n", "Line 2 differs.\npinned: two\nnow:    2")]
    [InlineData("one\n", "Line 2 differs.\npinned: two\nnow:    ")]
    [InlineData("one\ntwo\n\n", "Line 4 differs.\npinned: (the end)\nnow:    ")]
    [InlineData("one\r\ntwo\n", "The text has a carriage return")]
    public void Another_text_is_refused_with_the_first_line_that_differs(string text, string said)
    {
        Write("A.B.verified.txt", "one\ntwo\n");
        Assert.StartsWith(said, Difference(text), StringComparison.Ordinal);
        Assert.Equal(text, File.ReadAllText(Path.Combine(folder, "A.B.received.txt")));
    }

    [Fact]
    public void A_pinned_text_with_carriage_returns_is_refused()
    {
        Write("A.B.verified.txt", "one\r\n");
        Assert.NotNull(Difference("one\n"));
    }

    [Fact]
    public void Nothing_pinned_yet_is_refused_and_the_text_is_left_to_be_renamed()
    {
        Assert.StartsWith("Nothing is pinned yet.", Difference("one\n"), StringComparison.Ordinal);
        Assert.Equal("one\n", File.ReadAllText(Path.Combine(folder, "A.B.received.txt")));
    }

    private void Write(string name, string text) => File.WriteAllText(Path.Combine(folder, name), text);

    private string? Difference(string text) => Snapshot.Difference(Path.Combine(folder, "A.B"), text, "txt");
}
