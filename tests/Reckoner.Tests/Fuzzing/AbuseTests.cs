using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Timelines;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Texts made to break something: each is refused with a word or taken, and soon. The bound is there to catch a hang only.</summary>
public class AbuseTests
{
    // Seconds are usual; what has not ended by then hangs, also on a machine that stands still at times.
    private static readonly TimeSpan Bound = TimeSpan.FromMinutes(3);

    /// <summary>A small description with more declarations, other statements and claims.</summary>
    private static string Text(string declarations, string statements = "  A <- A + 1\n", string claims = "") =>
        $"machine test\nwidth n = 8 in 2..64\noperand a : n\nregister A : n loads a\n{declarations}step s\n{statements}result r = A\n{claims}";

    private static string Times(int count, Func<int, string> text) =>
        string.Concat(Enumerable.Range(0, count).Select(text));

    private static string Times(int count, string text) => Times(count, _ => text);

    /// <summary>The different ids of the errors, in the order of the text; "" when it is taken, and then it is walked too.</summary>
    private static string Said(string text, int? width = null, Library? library = null)
    {
        string? said = null;
        Exception? thrown = null;
        var thread = new Thread(
            () =>
            {
                try
                {
                    said = Answer(text, width, library ?? MachineCatalogue.Find);
                }
                catch (Exception e)
                {
                    thrown = e;
                }
            },
            maxStackSize: 768 * 1024
        )
        {
            IsBackground = true,
        };
        thread.Start();
        Assert.True(thread.Join(Bound), $"no end after {Bound.TotalSeconds} s");
        Assert.Null(thrown);
        return said!;
    }

    private static string Answer(string text, int? width, Library library)
    {
        var machine = Machine.Read(new Source("test.machine", text), library);
        var (datapath, found) = machine.At(width);
        Assert.NotNull(DiagnosticText.Of(found, Vocabulary.English, 80));
        Assert.NotNull(Printer.Text(machine.Description));
        if (datapath is not null)
        {
            var operands = SampleOperands.Of(datapath, new Random(1)).First();
            Agreement.Check(Timeline.Of(datapath), Walk.Of(datapath, operands));
        }
        return string.Join(' ', found.Where(d => d.Severity == Severity.Error).Select(d => d.Id.Name).Distinct());
    }

    [Fact]
    public void Ten_megabytes() =>
        Assert.Equal("description-too-long", Said(Text(Times(500_000, "-- some comment here\n"))));

    [Fact]
    public void A_hundred_thousand_registers() =>
        Assert.Equal("description-too-long", Said(Text(Times(100_000, i => $"register z{i} : 1 loads 0\n"))));

    [Theory]
    [InlineData("brackets", "(", ")", "nesting-too-deep")]
    [InlineData("nots", "not ", "", "nesting-too-deep")]
    [InlineData("minuses", "- ", "", "nesting-too-deep")]
    [InlineData("calls", "unsigned(", ")", "nesting-too-deep")]
    [InlineData("choices", "A when A[0] else ", "", "nesting-too-deep")]
    [InlineData("places", "A[", "]", "nesting-too-deep")]
    [InlineData("slices", "", "[n-1..0]", "nesting-too-deep")]
    [InlineData("sums", "A + ", "", "nesting-too-deep")]
    [InlineData("products", "A * ", "", "nesting-too-deep")]
    [InlineData("ands", "A and ", "", "nesting-too-deep")]
    public void Values_that_nest_250_deep_or_more(string what, string before, string after, string expected)
    {
        foreach (var depth in new[] { 250, 5_000 })
        {
            var value = Times(depth, before) + "A" + Times(depth, after);
            Assert.Equal((what, depth, expected), (what, depth, Said(Text("", $"  A <- {value}\n"))));
        }
    }

    [Theory]
    [InlineData("law r = a", "^1")]
    [InlineData("law r = a", " + 1")]
    public void Formulas_that_nest_deep(string begins, string goesOn) =>
        Assert.Contains("nesting-too-deep", Said(Text("", claims: begins + Times(5_000, goesOn) + "\n")));

    [Fact]
    public void Blocks_that_nest_250_deep()
    {
        var ifs = Times(250, "if A[0]\n") + "A <- 0\n" + Times(250, "end\n");
        Assert.Equal("nesting-too-deep", Said(Text("", ifs)));
        var cases = Times(250, "case A[0]\n0b0: hold\n0b1:\n") + "A <- 0\n" + Times(250, "end\n");
        Assert.Equal("nesting-too-deep", Said(Text("", cases)));
        var chain = "if A[0]\nhold\n" + Times(250, "else if A[1]\nhold\n") + "end\n";
        Assert.Equal("nesting-too-deep", Said(Text("", chain)));
    }

    [Theory]
    [InlineData(50)]
    [InlineData(90)]
    public void Blocks_that_nest_as_deep_as_may_be(int depth)
    {
        var ifs = Times(depth, i => $"if A[{i % 8}] and (A[0] or A[1])\n") + "A <- A + 1\n" + Times(depth, "end\n");
        Assert.Equal("", Said(Text("", ifs)));
    }

    [Theory]
    [InlineData("9")]
    [InlineData("0b1")]
    [InlineData("9_")]
    public void A_literal_of_a_megabyte_or_less(string begins)
    {
        Assert.Equal("literal-too-long", Said(Text("", $"  A <- {begins}{new string('1', 100_000)}\n")));
        Assert.Equal("description-too-long", Said(Text("", $"  A <- {begins}{new string('1', 1_100_000)}\n")));
        Assert.Equal("literal-too-long", Said(Text($"register Z : {begins}{new string('1', 100_000)} loads 0\n")));
    }

    [Theory]
    [InlineData("repeat 2^n\n  A <- A + 1\nend\n", 8, "")]
    [InlineData("repeat 2^n\n  A <- A + 1\nend\n", 64, "too-many-operations")]
    [InlineData("repeat n^9\n  A <- A + 1\nend\n", 64, "too-many-operations")]
    [InlineData("repeat 2^n^n\n  A <- A + 1\nend\n", 64, "number-too-large")]
    [InlineData("repeat at most 2^n while A <> 0\n  A <- A + 1\nend\n", 64, "too-many-operations")]
    [InlineData("register Z : n^9 loads 0\n", 8, "too-many-bits")]
    [InlineData("register Z : 2^2^n loads 0\n", 64, "number-too-large")]
    [InlineData("table t(i : 40) : 1\n  else: 0\nend\n", 8, "table-too-large")]
    [InlineData("table t(i : 20, j : 20) : 1\n  else: 0\nend\n", 8, "table-too-large")]
    [InlineData("table t(i : 65536, j : 65536) : 1\n  else: 0\nend\n", 8, "table-too-large")]
    [InlineData("constant c = 10^10^10\n", 8, "number-too-large")]
    [InlineData("constant c = 2^-(10^9)\n", 8, "number-too-large")]
    public void Numbers_that_explode(string declarations, int width, string expected) =>
        Assert.Equal(expected, Said(Text(declarations), width));

    [Fact]
    public void Many_loops_that_are_small_alone() =>
        Assert.Equal("too-many-operations", Said(Text(Times(20, "repeat 2^18\n  A <- A + 1\nend\n"))));

    [Fact]
    public void A_long_loop_with_much_in_it()
    {
        var wide = "register Z : 65536 loads 0\nrepeat 2^16\n  Z <- shl(Z, 1)\nend\n";
        Assert.Equal("too-many-operations", Said(Text(wide)));
        var many = Times(2_000, i => $"register z{i} : 1 loads 0\n") + "repeat 2^16\n  A <- A + 1\nend\n";
        Assert.Equal("too-many-operations", Said(Text(many)));
        var long_sum = $"repeat 2^16\n  A <- A{Times(100, " + 1")}\nend\n";
        Assert.Equal("too-many-operations", Said(Text(long_sum)));
    }

    [Fact]
    public void Factors_of_one_in_a_width() =>
        Assert.Equal("", Said(Text($"register Z : n{Times(60, " * 1")} loads 0\n")));

    [Fact]
    public void Fractions_whose_sum_has_a_giant_denominator()
    {
        var fractions = string.Join(
            " + ",
            Enumerable.Range(0, 45).Select(i => $"1/{new string('7', 4_000)}{1001 + 2 * i}")
        );
        Assert.Equal("number-too-large", Said(Text($"constant c = floor({fractions})\n")));
    }

    [Fact]
    public void An_open_bracket_before_thousands_of_blank_lines() =>
        Assert.Equal("", Said(Text("", $"  A <- ({new string('\n', 190_000)}A)\n")));

    [Fact]
    public void Joins_of_more_bits_than_can_be_counted()
    {
        var join = string.Join(':', Enumerable.Repeat("Z", 65_536));
        Assert.Equal("too-many-bits", Said(Text("register Z : 65536 loads 0\n", $"  A[0] <- ({join})[0]\n")));
    }

    [Theory]
    [InlineData("operands", "operand o? : 60000\n", 2_000)]
    [InlineData("registers", "register z? : n loads a\n", 7_000)]
    [InlineData("parts", "part p? = A[0..0]\n", 9_000)]
    [InlineData("constants", "constant c? = n\n", 10_000)]
    [InlineData("units", "unit u? : adder n\n", 9_000)]
    [InlineData("steps", "step s?\n  A <- A + 1\n", 7_000)]
    [InlineData("loops", "repeat 2\n  A <- A + 1\nend\n", 5_000)]
    [InlineData("results", "result r? = A\n", 10_000)]
    [InlineData("laws", "law a = 0 or a > 0\n", 9_000)]
    [InlineData("givens", "given a >= 0\n", 13_000)]
    [InlineData("comments", "-- ?\n", 20_000)]
    public void Thousands_of_declarations(string what, string line, int count) =>
        Assert.Equal((what, ""), (what, Said(Text("", claims: Times(count, i => line.Replace("?", $"{i}"))))));

    [Theory]
    [InlineData("adders", "  let w? = A + 1\n", 1_500)]
    [InlineData("branches", "  if A[0]\n    hold\n  end\n", 6_000)]
    [InlineData("branches that add", "  if A[0]\n    let w? = A + 1\n  end\n", 1_000)]
    [InlineData("moments", "  then\n  A <- A + 1\n", 1_500)]
    public void Thousands_of_statements(string what, string line, int count) =>
        Assert.Equal((what, ""), (what, Said(Text("", Times(count, i => line.Replace("?", $"{i}"))))));

    /// <summary>As many as a description has room for.</summary>
    [Theory]
    [Trait("Length", "long")]
    [InlineData("adders", "  let w? = A + 1\n", 5_000)]
    [InlineData("branches that add", "  if A[0]\n    let w? = A + 1\n  end\n", 3_000)]
    [InlineData("moments", "  then\n  A <- A + 1\n", 4_000)]
    public void As_many_statements_as_can_be(string what, string line, int count) =>
        Thousands_of_statements(what, line, count);

    [Fact]
    public void Thousands_of_names_that_nobody_knows()
    {
        var registers = Times(3_000, i => $"register z{i} : 1 loads 0\n");
        Assert.Equal("unknown-name", Said(Text(registers, Times(3_000, i => $"  z{i} <- y{i}\n"))));
    }

    [Fact]
    public void Cases_of_many_labels_or_bits()
    {
        var labels = Times(3_000, i => $"    {i}: hold\n");
        Assert.Equal("", Said(Text("register Z : 20 loads 0\n", $"  case Z\n{labels}    else: hold\n  end\n")));
        Assert.Equal("arm-missing", Said(Text("register Z : 65536 loads 0\n", $"  case Z\n{labels}  end\n")));
        var patterns = Times(
            2_000,
            i => $"    0b{Convert.ToString(i, 2).PadLeft(11, '0')}{new string('x', 9)}: hold\n"
        );
        Assert.Equal("arm-missing", Said(Text("register Z : 20 loads 0\n", $"  case Z\n{patterns}  end\n")));
    }

    [Fact]
    public void A_table_of_many_rows_and_cells()
    {
        var rows = Times(5_000, i => $"  i = {i}: 1\n");
        Assert.Equal("table-too-large", Said(Text($"table t(i : 16) : 1\n{rows}  else: 0\nend\n")));
    }

    [Theory]
    [InlineData("z\n", "no-statement")]
    [InlineData("end\n", "end-extra")]
    [InlineData("\"\n", "unclosed-quote")]
    [InlineData("(\n", "unclosed-bracket")]
    [InlineData("😀\n", "odd-character")]
    public void Thousands_of_lines_of_nonsense(string line, string expected) =>
        Assert.Contains(expected, Said(Text("", Times(30_000, line))));

    [Fact]
    public void Circles_of_machines()
    {
        Source? Library(string name) =>
            name.StartsWith('c') ? new Source(name, $"machine {name}\n{Next(name)}width n = 8 in 2..64\n") : null;
        string Next(string name) =>
            name switch
            {
                "c1" => "follows c2\n",
                "c2" => "follows c3\n",
                "c3" => "follows c1\n",
                "c4" => "core c4\nend\n",
                _ => "core c4\nend\nfollows c1\n",
            };
        foreach (var name in new[] { "c1", "c2", "c3", "c4", "c5" })
        {
            Assert.Equal((name, "machine-circle"), (name, Said(Library(name)!.Text, null, Library)));
        }
    }

    /// <summary>Each names the one before it twice, so that reading them one by one would take 2^40 readings.</summary>
    [Fact]
    public void A_chain_of_machines_that_doubles()
    {
        Source Library(string name)
        {
            var before = int.Parse(name[1..]) - 1;
            var names = before < 0 ? "register A : n loads a\n" : $"follows e{before}\ncore e{before}\n  a = a\nend\n";
            return new Source(name, $"machine {name}\nwidth n = 8 in 2..64\noperand a : n\n{names}result r = A\n");
        }
        Assert.Equal("", Said(Library("e1").Text, null, Library));
        Assert.Contains("core", Said(Library("e40").Text, null, Library));
    }
}
