using System.Text;
using System.Text.Json.Nodes;
using Reckoner.Catalogue;
using Reckoner.Editor;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>What an editor is told while a description is written, by a client that speaks the protocol itself.</summary>
public sealed class LanguageServerTests
{
    private const string Uri = "untitled:halve.machine";

    internal const string Halve = """
        machine halve
        title "Half of a number"

        width n = 4 in 2..8

        operand given_number "what is halved" : n

        register A "the number" : n loads given_number

        step once
          let less, short = A - 1
          if not short
            A <- less
          end

        result half = A

        law half <= given_number

        """;

    private static string Text(JsonNode? node) => node?.ToJsonString() ?? "null";

    /// <summary>A line and a character of a word in a text, by its first place.</summary>
    private static (int Line, int Character) Of(string text, string word)
    {
        var at = text.IndexOf(word, StringComparison.Ordinal);
        var line = text[..at].Count(c => c == '\n');
        return (line, at - (text.LastIndexOf('\n', Math.Max(0, at - 1)) + 1));
    }

    /// <summary>The same as the protocol has it.</summary>
    internal static object Position(string text, string word)
    {
        var (line, character) = Of(text, word);
        return new { line, character };
    }

    private static object Place(string uri, string text, string word, int ahead = 0)
    {
        var (line, character) = Of(text, word);
        return EditorClient.Place(uri, line, character + ahead);
    }

    [Fact]
    public void What_is_wrong_is_told_while_it_is_typed_and_cured_where_the_cure_is_certain()
    {
        using var client = EditorClient.Begun();
        client.Open(Uri, Halve);
        Assert.Empty(client.Notes(Uri, 1));

        // "less" becomes "lss": one letter is taken out of a line.
        var (line, character) = Of(Halve, "A <- less");
        var letter = new
        {
            start = new { line, character = character + 6 },
            end = new { line, character = character + 7 },
        };
        client.Tell(
            "textDocument/didChange",
            new
            {
                textDocument = new { uri = Uri, version = 2 },
                contentChanges = new[] { new { range = letter, text = "" } },
            }
        );
        var note = client.Notes(Uri, 2).Single(n => n["code"]!.GetValue<string>() == "unknown-name");
        Assert.Equal(1, note["severity"]!.GetValue<int>());
        Assert.Equal("reckoner", note["source"]!.GetValue<string>());

        var cures = client.Ask(
            "textDocument/codeAction",
            new
            {
                textDocument = new { uri = Uri },
                range = note["range"],
                context = new { diagnostics = Array.Empty<object>() },
            }
        )["result"]!.AsArray();
        var cure = Assert.Single(cures)!;
        Assert.Equal("Write: less", cure["title"]!.GetValue<string>());
        Assert.Equal("less", cure["edit"]!["changes"]![Uri]![0]!["newText"]!.GetValue<string>());
    }

    [Theory]
    [InlineData("register A", 9, "register A\\nthe number\\nn = 5 bits at n = 5")]
    [InlineData("A <- less", 0, "register A\\nthe number\\nn = 5 bits at n = 5")]
    [InlineData("A - 1", 2, "adder, n = 5 bits wide, used by line 11")]
    [InlineData("given_number \"", 0, "operand given_number\\nwhat is halved\\nn = 5 bits at n = 5")]
    [InlineData("half <=", 5, "All laws together at n = 5: 32 cases, 0 failures.")]
    [InlineData("let less", 4, "wire less\\nn = 5 bits at n = 5")]
    public void A_place_is_explained_at_the_width_that_was_chosen(string word, int ahead, string said)
    {
        using var client = EditorClient.Begun(new { width = "5" });
        client.Open(Uri, Halve);
        var answer = client.Ask("textDocument/hover", Place(Uri, Halve, word, ahead));
        Assert.Equal($"{{\"kind\":\"plaintext\",\"value\":\"{said}\"}}", Text(answer["result"]!["contents"]));
    }

    /// <summary>Every sixth machine of the catalogue: nothing is wrong with it, it is laid out as it is, and its outline has its names.</summary>
    [Fact]
    public void The_catalogue_is_as_an_editor_would_have_it()
    {
        using var client = EditorClient.Begun(new { language = "de" });
        foreach (var entry in MachineCatalogue.Entries.Where((_, i) => i % 6 == 0))
        {
            var uri = $"untitled:{entry.Name}.machine";
            client.Open(uri, entry.Source.Text);
            Assert.DoesNotContain(client.Notes(uri, 1), n => n["severity"]!.GetValue<int>() == 1);
            var about = new { textDocument = new { uri } };
            Assert.Empty(client.Ask("textDocument/formatting", about)["result"]!.AsArray());
            var outline = client.Ask("textDocument/documentSymbol", about)["result"]!.AsArray();
            Assert.Equal(entry.Name, outline[0]!["name"]!.GetValue<string>());
            Assert.All(
                client.Ask("textDocument/foldingRange", about)["result"]!.AsArray(),
                f => Assert.True(f!["startLine"]!.GetValue<int>() < f["endLine"]!.GetValue<int>())
            );
            client.Tell("textDocument/didClose", about);
        }
    }

    [Theory]
    [InlineData("law ", 0, "register")]
    [InlineData("A <- less", 5, "less")]
    [InlineData("given_number\n", 0, "given_number")]
    [InlineData("A - 1", 0, "extend")]
    public void What_may_stand_at_a_place_is_offered(string word, int ahead, string offered)
    {
        using var client = EditorClient.Begun();
        client.Open(Uri, Halve);
        var items = client.Ask("textDocument/completion", Place(Uri, Halve, word, ahead))["result"]!.AsArray();
        Assert.Contains(offered, items.Select(i => i!["label"]!.GetValue<string>()));
    }

    [Fact]
    public void Machines_are_offered_where_one_is_named()
    {
        using var client = EditorClient.Begun();
        client.Open(Uri, "machine mine\nfollows \n");
        var items = client.Ask("textDocument/completion", EditorClient.Place(Uri, 1, 8))["result"]!.AsArray();
        Assert.Equal(MachineCatalogue.Names.Order(), items.Select(i => i!["label"]!.GetValue<string>()).Order());
    }

    /// <summary>A machine and one that follows it, in a folder: names that both share go with each other.</summary>
    [Fact]
    public void Names_are_followed_and_changed_over_machines_that_share_them()
    {
        var folder = Directory.CreateTempSubdirectory("reckoner-editor-").FullName;
        try
        {
            var later = Halve.Replace("machine halve", "machine later\nfollows halve", StringComparison.Ordinal);
            var (first, second) = (Path.Combine(folder, "halve.machine"), Path.Combine(folder, "later.machine"));
            File.WriteAllText(first, Halve);
            File.WriteAllText(second, later);
            var (firstUri, secondUri) = (new Uri(first).AbsoluteUri, new Uri(second).AbsoluteUri);
            using var client = EditorClient.Begun();
            client.Open(secondUri, later);
            Assert.Empty(client.Notes(secondUri, 1));

            var there = client.Ask("textDocument/definition", Place(secondUri, later, "follows halve", 9))["result"]!;
            Assert.Equal(
                (firstUri, 0),
                (there["uri"]!.GetValue<string>(), there["range"]!["start"]!["line"]!.GetValue<int>())
            );

            var places = client.Ask("textDocument/references", Place(secondUri, later, "half <="))["result"]!.AsArray();
            Assert.Equal(4, places.Count);

            var changes = client.Ask(
                "textDocument/rename",
                new
                {
                    textDocument = new { uri = secondUri },
                    position = Position(later, "half <="),
                    newName = "rest",
                }
            )["result"]!["changes"]!;
            Assert.Equal(
                Halve
                    .Replace("result half", "result rest", StringComparison.Ordinal)
                    .Replace("law half", "law rest", StringComparison.Ordinal),
                Changed(Halve, changes[firstUri]!)
            );
            Assert.Contains("result rest = A", Changed(later, changes[secondUri]!), StringComparison.Ordinal);

            // A name of its own stays its own.
            var own = client.Ask(
                "textDocument/rename",
                new
                {
                    textDocument = new { uri = secondUri },
                    position = Position(later, "less, short"),
                    newName = "fewer",
                }
            )["result"]!["changes"]!.AsObject();
            Assert.Equal([secondUri], own.Select(c => c.Key));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    internal static string Changed(string text, JsonNode edits)
    {
        var lines = text.Split('\n');
        foreach (
            var edit in edits
                .AsArray()
                .OrderByDescending(e => e!["range"]!["start"]!["line"]!.GetValue<int>())
                .ThenByDescending(e => e!["range"]!["start"]!["character"]!.GetValue<int>())
        )
        {
            var (start, end) = (edit!["range"]!["start"]!, edit["range"]!["end"]!);
            var line = start["line"]!.GetValue<int>();
            var (from, to) = (start["character"]!.GetValue<int>(), end["character"]!.GetValue<int>());
            lines[line] = lines[line][..from] + edit["newText"]!.GetValue<string>() + lines[line][to..];
        }
        return string.Join('\n', lines);
    }

    [Theory]
    [InlineData("law")]
    [InlineData("two words")]
    [InlineData("A")]
    [InlineData("")]
    public void A_name_that_cannot_be_one_is_refused_in_a_sentence(string name)
    {
        using var client = EditorClient.Begun();
        client.Open(Uri, Halve);
        var (line, character) = Of(Halve, "less, short");
        var refused = client.Ask(
            "textDocument/rename",
            new
            {
                textDocument = new { uri = Uri },
                position = new { line, character },
                newName = name,
            }
        );
        Assert.EndsWith(
            "cannot be a name here: it is a word of the notation, or declared already.",
            refused["error"]!["message"]!.GetValue<string>(),
            StringComparison.Ordinal
        );
        Assert.Null(refused["error"]!["data"]);
    }

    // ---- bad clients

    [Fact]
    public void Whoever_asks_before_the_beginning_or_after_the_end_is_told()
    {
        using var client = new EditorClient();
        Assert.Equal(-32002, Code(client.Ask("textDocument/hover", EditorClient.Place(Uri, 0, 0))));
        client.Ask("initialize", new { capabilities = new { } });
        Assert.Null(client.Ask("textDocument/hover", EditorClient.Place(Uri, 0, 0))["result"]);
        Assert.Equal(-32601, Code(client.Ask("textDocument/nothing", new { })));
        Assert.Equal(-32602, Code(client.Ask("textDocument/hover", new { position = "here" })));
        Assert.Equal(-32602, Code(client.Ask("textDocument/hover", new { })));
        client.Tell("textDocument/didOpen", new { textDocument = new { uri = Uri } });
        client.Tell("textDocument/didChange", new { });
        client.Ask("shutdown", null);
        Assert.Equal(-32600, Code(client.Ask("textDocument/hover", EditorClient.Place(Uri, 0, 0))));
        client.Tell("exit", new { });
        Assert.Equal(TalkEnd.Done, client.End());

        static int Code(JsonNode answer)
        {
            Assert.DoesNotContain("   at ", Text(answer), StringComparison.Ordinal);
            return answer["error"]!["code"]!.GetValue<int>();
        }
    }

    [Theory]
    [InlineData("Content-Length: 100\r\n\r\n{\"jsonrpc\":\"2.0\",")]
    [InlineData("Content-Length: 5\r\n\r\nhello")]
    [InlineData("Content-Length: many\r\n\r\n")]
    [InlineData("Content-Length: 99999999999999\r\n\r\n")]
    [InlineData("GET / HTTP/1.1\r\n\r\n")]
    [InlineData("")]
    public void A_client_that_dies_or_talks_nonsense_ends_the_talk(string bytes)
    {
        using var client = EditorClient.Begun();
        client.Open(Uri, Halve);
        client.Raw(Encoding.ASCII.GetBytes(bytes));
        client.HangUp();
        Assert.Equal(TalkEnd.Gone, client.End());
    }

    [Fact]
    public void A_text_of_twenty_megabytes_is_refused_and_the_next_is_read()
    {
        using var client = EditorClient.Begun();
        client.Open(Uri, string.Concat(Enumerable.Repeat("register A : n\n", 20_000_000 / 15)));
        Assert.Contains("description-too-long", client.Notes(Uri, 1).Select(n => n["code"]!.GetValue<string>()));
        Assert.NotNull(client.Ask("textDocument/documentSymbol", new { textDocument = new { uri = Uri } })["result"]);
        client.Open(Uri, Halve, 2);
        Assert.Empty(client.Notes(Uri, 2));
    }

    /// <summary>Everything is asked of every letter, and cancelled at once: each is answered, and the server still stands.</summary>
    [Fact]
    public void Whoever_cancels_everything_is_answered_all_the_same()
    {
        using var client = EditorClient.Begun();
        client.Open(Uri, Halve);
        string[] asked = ["hover", "definition", "completion", "documentSymbol", "foldingRange", "formatting"];
        var ids = new List<int>();
        for (var i = 0; i < 120; i++)
        {
            ids.Add(client.Begin($"textDocument/{asked[i % asked.Length]}", EditorClient.Place(Uri, i % 20, i % 7)));
            client.Tell("$/cancelRequest", new { id = ids[^1] });
            client.Tell(
                "textDocument/didChange",
                new
                {
                    textDocument = new { uri = Uri, version = 2 + i },
                    contentChanges = new[] { new { text = Halve[..(Halve.Length - i)] } },
                }
            );
        }
        AwaitAnswers(client, ids);
        Assert.NotNull(client.Ask("textDocument/documentSymbol", new { textDocument = new { uri = Uri } })["result"]);
    }

    /// <summary>Answers may come in any order; one that never comes is waited for until the client's patience ends.</summary>
    private static void AwaitAnswers(EditorClient client, List<int> ids)
    {
        foreach (var id in ids)
        {
            var answer = client.Told.Find(t => t["id"]?.GetValue<int>() == id) ?? client.Answer(id);
            Assert.True(answer.AsObject().ContainsKey("result") || answer["error"]!["code"]!.GetValue<int>() == -32800);
        }
    }

    /// <summary>Said in one breath, and then the line is dead: what was said last is heard all the same.</summary>
    [Fact]
    public void The_end_is_heard_before_the_line_is_seen_to_be_dead()
    {
        for (var i = 0; i < 50; i++)
        {
            using var client = EditorClient.Begun();
            client.Raw(
                Encoding.ASCII.GetBytes(
                    Message("""{"jsonrpc":"2.0","id":9,"method":"shutdown"}""")
                        + Message("""{"jsonrpc":"2.0","method":"exit"}""")
                )
            );
            client.HangUp();
            Assert.Equal(TalkEnd.Done, client.End());
        }

        static string Message(string body) => $"Content-Length: {body.Length}\r\n\r\n{body}";
    }

    /// <summary>Lines end as on other systems, letters take two units, and the end of a line is the largest number there is.</summary>
    [Fact]
    public void A_change_reaches_to_the_end_of_its_line_and_no_further()
    {
        using var client = EditorClient.Begun();
        client.Open(
            Uri,
            Halve.Replace("the number", "the 😀 nmber", StringComparison.Ordinal).ReplaceLineEndings("\r\n")
        );
        var (line, character) = Of(Halve, "\"the number");
        Change(line, character + 8, character + 9, "nu", 2);
        Change(line, character + 5, character + 7, "odd", 3);
        var hover = client.Ask("textDocument/hover", Place(Uri, Halve, "register A", 9));
        Assert.Contains(
            "\nthe odd number\n",
            hover["result"]!["contents"]!["value"]!.GetValue<string>(),
            StringComparison.Ordinal
        );
        var (law, less) = Of(Halve, "half <= ");
        Change(law, less + 5, int.MaxValue, "= missing", 4);
        Assert.Equal("unknown-name", client.Notes(Uri, 4).Single()["code"]!.GetValue<string>());

        void Change(int line, int from, int to, string text, int version) =>
            client.Tell(
                "textDocument/didChange",
                new
                {
                    textDocument = new { uri = Uri, version },
                    contentChanges = new[]
                    {
                        new
                        {
                            range = new { start = new { line, character = from }, end = new { line, character = to } },
                            text,
                        },
                    },
                }
            );
    }

    /// <summary>A text that was closed has nothing wrong with it any more, also where it was judged when it was closed.</summary>
    [Fact]
    public void Of_a_text_that_is_closed_nothing_more_is_told()
    {
        using var client = EditorClient.Begun();
        client.Open("untitled:other.machine", Halve);
        client.Open(Uri, "machine\n");
        client.Tell("textDocument/didClose", new { textDocument = new { uri = Uri } });
        client.Notes("untitled:other.machine", 1);
        client.Ask("shutdown", null);
        Assert.Empty(client.Told.Last(t => IsOf(t, Uri))["params"]!["diagnostics"]!.AsArray());

        static bool IsOf(JsonNode told, string uri) => told["params"]?["uri"]?.GetValue<string>() == uri;
    }

    [Fact]
    public void The_command_itself_answers_and_says_when_the_editor_is_gone()
    {
        const string Body = """{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"capabilities":{}}}""";
        using var server = Child.Start(Command.Process("language-server"));
        server.Write($"Content-Length: {Body.Length}\r\n\r\n{Body}");
        Assert.StartsWith("Content-Length: ", server.Line(), StringComparison.Ordinal);
        var ended = server.End();
        Assert.Equal((2, "The editor went away in the middle.\n"), (ended.Status, ended.Errors));
        Assert.Contains("\"hoverProvider\":true", ended.Output, StringComparison.Ordinal);
    }
}
