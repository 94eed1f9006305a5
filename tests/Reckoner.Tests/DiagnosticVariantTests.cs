using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Diagnostics;
using Reckoner.Reporting;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Messages that depend on what was found: each way in which they can be said is pinned.</summary>
public class DiagnosticVariantTests
{
    [Fact]
    public void A_sentence_that_lacks_a_word_is_shown() =>
        Snapshot.Match(
            nameof(A_sentence_that_lacks_a_word_is_shown),
            InDeclarations(
                "width m 8 in 2..64",
                "width m = 8 from 2..64",
                "width m = 8 in 2",
                "parameter k 8 in 2..64",
                "constant k : n",
                "operand mask n",
                "register B : n",
                "register B : n = word",
                "part low A[0]",
                "unit alu adder n",
                "table u : n\nend",
                "table u(i n) : n\nend",
                "table u(i : 1) : n\n  else 0\nend",
                "repeat at least n while A <> 0\nend",
                "repeat at most n until A = 0\nend",
                "core divide-shift-first\n  dividend word\nend",
                "result other A",
                "law kept = word exactly if word = 0",
                "law word in 0"
            )
                + InStatements(
                    "A = A + 1",
                    "A := 0",
                    "let next A + 1",
                    "case A[0]\n    0b0 A <- 0\n    else: hold\n  end",
                    "A <- signed A",
                    "A <- shl(A)",
                    "A <- shr(A, 0, 0)",
                    "A <- extend()",
                    "A <- copies(A[0])",
                    "let s, d = csa(A, A)",
                    "A <- unsigned(A, A)",
                    "A[floor(1, 2)] <- 0"
                )
        );

    [Fact]
    public void Characters_and_lines_that_are_wrong_are_shown() =>
        Snapshot.Match(
            nameof(Characters_and_lines_that_are_wrong_are_shown),
            InStatements(
                "A <- A & 1 | A;",
                "A <- (A + [1)",
                "A <- A[n-1 + 1",
                "A <- A + 1]",
                "A <- A 1",
                "A <- A next",
                "A <- A + 1 end",
                "A <- A +\n  A <- A",
                "let next = A\n    - 1",
                "if A[0]\n    A <- 0",
                "case A[0]\n    0b0: hold",
                "wile A",
                "endd",
                "increment A",
                "0b01: A <- 0"
            ) + InDeclarations("repeat n\n  A <- 0", "step\n  A <- 0", "wdth m = 8 in 2..64", "enum colours", "}")
        );

    [Fact]
    public void What_stands_where_it_cannot_is_named() =>
        Snapshot.Match(
            nameof(What_stands_where_it_cannot_is_named),
            InStatements(
                "n <- 0",
                "k <- 0",
                "c <- 0",
                "word <- 0",
                "adding <- 0",
                "t <- 0",
                "A <- t",
                "A <- adding",
                "A <- t(A)",
                "A <- A^2",
                "A[0] <- 2",
                "A <- -1",
                "if A[0] = 0b10\n  end",
                "let B, c2 = A",
                "A <- csa(A, A, A)",
                "A <- copies(A[0], 0)",
                "A <- copies(A[0], 2^n^2)",
                "A <- A * A[0]",
                "case signed(A)\n    -1000: hold\n    else: hold\n  end",
                "A[n..0] <- 0",
                "A[7/2] <- 0"
            )
                + InDeclarations(
                    "given word",
                    "given word = (word = 0)",
                    "law word[0] = 0",
                    "law shl(word, 0) = 0",
                    "law sqrt(word) = 0",
                    "constant z = 1/0",
                    "constant z = 2^(1/2)",
                    "constant z : 1 = 2",
                    "constant z = 0b1x",
                    "table u(i : 2) : 2\n  1/i > 0: 1\n  else: 0\nend",
                    "table u(i : 2) : 2\n  else: i/2\nend"
                )
        );

    [Fact]
    public void What_is_never_used_is_named() =>
        Snapshot.Match(
            nameof(What_is_never_used_is_named),
            InDeclarations(
                "width m = 8 in 2..64",
                "parameter k2 = 8 in 2..64",
                "constant k2 = 8",
                "operand mask : n",
                "register B : n loads 0",
                "part low = A[0]",
                "unit add : adder n",
                "table u(i : 1) : 1\n  else: i\nend"
            ) + InStatements("let next = A + 1", "let next, carry = A + 1")
        );

    [Fact]
    public void How_two_machines_differ_is_told()
    {
        const string earlier =
            "machine earlier\nwidth n = 8 in 2..64\noperand a : n\noperand b : n\nregister A : n loads a xor b\nresult r = A\n";
        string[] later =
        [
            earlier.Replace("operand b : n\n", "").Replace("a xor b", "a"),
            earlier.Replace("operand b : n\n", "operand b : n\noperand c : n\n").Replace("a xor b", "a or b or c"),
            earlier.Replace("operand b : n", "operand b : signed n"),
            earlier.Replace("result r = A", "result r = signed(A)"),
            earlier.Replace("result r = A", "result r = A[0]"),
        ];
        var said = later.Select(text =>
            Sentences(text.Replace("machine earlier\n", "machine later\nfollows earlier\n"), earlier)
        );
        Snapshot.Match(nameof(How_two_machines_differ_is_told), string.Join('\n', said));
    }

    /// <summary>A core's steps are bound last; what is wrong with them is not passed over.</summary>
    [Theory]
    [InlineData("A <- A + missing", "unknown-name")]
    [InlineData("A <- A + A[0]", "sides-differ")]
    [InlineData("A <- A + 1 via adding\n  then\n  A <- A + 1 via adding", "unit-busy")]
    public void A_core_whose_steps_are_wrong_is_refused(string statement, string word)
    {
        var core = Framed("", statement).Replace("machine try-it", "machine inner");
        const string outer =
            "machine outer\nwidth n = 8 in 2..64\noperand a : n\ncore inner\n  word = a\nend\nresult kept = A\n";
        var found = Found(outer, core);
        Assert.Equal("core-broken", Assert.Single(found).Id.Name);
        Assert.Contains(word, DiagnosticText.Of(found, Vocabulary.English, 80), StringComparison.Ordinal);
    }

    /// <summary>Corners alone do not show that nobody is meant: 100 to 120 lies between them.</summary>
    [Theory]
    [InlineData("word in 100..120", 64, new string[0])]
    [InlineData("word in 100..120", 12, new string[0])]
    [InlineData("word > 2^n", 16, new[] { "given-nobody" })]
    [InlineData("word > 2^n", 64, new string[0])]
    public void Nobody_is_said_only_when_everybody_was_asked(string given, int width, string[] expected)
    {
        var text =
            $"machine m\nwidth n = 8 in 2..64\noperand word : n\ngiven {given}\nregister A : n loads word\nresult r = A\n";
        var found = Machine.Read(new Source("m", text), _ => null).At(width).Diagnostics;
        Assert.Equal(expected, found.Where(d => d.Severity != Severity.Hint).Select(d => d.Id.Name));
    }

    private static string InDeclarations(params string[] lines) =>
        string.Concat(lines.Select(line => $"> {line.Replace("\n", "\n> ")}\n{Sentences(Framed(line, "A <- A"))}\n"));

    private static string InStatements(params string[] lines) =>
        string.Concat(lines.Select(line => $">   {line.Replace("\n", "\n> ")}\n{Sentences(Framed("", line))}\n"));

    /// <summary>A machine in which everything is used, with one more declaration or another statement.</summary>
    private static string Framed(string declaration, string statement) =>
        $"""
            machine try-it
            width n = 8 in 2..64
            parameter k = 1 in 1..2
            constant c : n = k
            operand word : n
            register A : n loads word
            register S : n loads c
            unit adding : adder n
            table t(i : 1, j : 1) : 1
              else: i * j
            end
            {declaration}
            step first
              S <- S - 1 via adding
              S[0] <- t(A[0], A[1])
            step second
              {statement}
            result kept = A:S

            """.Replace("S[0] <-", "then\n  S[0] <-");

    private static string Sentences(string text, string beside = "") =>
        string.Concat(
            Found(text, beside)
                .Select(d =>
                    $"{d.Line}: {string.Join(' ', DiagnosticText.Sentences(d, Vocabulary.English))}  [{d.Id}]\n"
                )
        );

    private static List<Diagnostic> Found(string text, string beside)
    {
        Source? Named(string name) =>
            beside.StartsWith($"machine {name}\n") ? new Source(name, beside) : MachineCatalogue.Find(name);
        var found = Machine.Read(new Source("try-it", text), Named).At().Diagnostics;
        return [.. found.Where(d => d.Severity != Severity.Hint)];
    }
}
