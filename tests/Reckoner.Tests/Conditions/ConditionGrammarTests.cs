using Reckoner.Checking;
using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Xunit;

namespace Reckoner.Tests.Conditions;

/// <summary>The grammar of conditions in the handbook is that of the parser: its comments say the same, and what it makes is read.</summary>
public class ConditionGrammarTests
{
    private static readonly Grammar Handbook = Grammar.Read(
        string.Concat(
            MarkdownPage.Of("docs/handbook/operands.md").Blocks.Where(b => b.Kind == "ebnf").Select(b => b.Text)
        )
    );

    private static readonly Datapath Machine = Machines.Bound(
        Machines.Of(
            """
            machine m
            width n = 4 in 2..8
            operand digits : n
            operand slip : signed n
            register A : n loads digits
            register B : signed n loads slip
            repeat n
              let cycles = B < 0
              let wide = A[1..0]
              if cycles and wide = 0b01
                B <- shl(B, 0)
              end
              case wide
                0b00: A <- shl(A, 1)
                else: hold
              end
            end
            result happens = A
            result never = B
            """
        )
    );

    [Fact]
    public void The_parser_states_the_productions_of_the_handbook()
    {
        var sources = Directory
            .GetFiles(MarkdownPage.FileOf("src/Reckoner/Conditions"), "*.cs")
            .Select(File.ReadAllText);
        var stated = Grammar.OfComments(sources).Written.Values.Order(StringComparer.Ordinal);
        Assert.Equal(Handbook.Written.Values.Order(StringComparer.Ordinal), stated);
    }

    [Fact]
    public void Every_name_in_the_grammar_has_a_production() =>
        Assert.Equal(
            Handbook.Rules.Keys.Except(["condition"]).Order(),
            Handbook.References.Except(["condition"]).Order()
        );

    /// <summary>A result and a wire may have one name, and a formula may be spelt like what is decided.</summary>
    [Fact]
    public void A_formula_behind_not_is_one_though_a_decision_is_spelt_alike()
    {
        var machine = Machines.Bound(
            Machines.Of(
                """
                machine m
                width n = 4 in 2..8
                operand a : n
                register R : n loads a
                register C : n loads 0
                repeat 2
                  let x = R - 1
                  R <- x
                  if x = 0
                    C <- C + 1
                  end
                end
                result x = R
                result c = C
                """
            )
        );
        var all = Candidates.Of(machine, InterpretedEngine.Widest, null);
        Assert.Equal([2], Shown("x = 0"));
        Assert.Equal(Enumerable.Range(0, 16).Except([2]), Shown("not (x = 0)"));
        Assert.Equal(Enumerable.Range(0, 16).Except([1, 2]), Shown("(x = 0) never happens"));
        Assert.Equal(Enumerable.Range(0, 16).Except([1, 2]), Shown("not ((x = 0) happens)"));

        IEnumerable<int> Shown(string condition)
        {
            var report = new Report(null);
            var found = all.Showing(condition, report);
            Assert.Empty(report.InOrder());
            return found!.Chosen.Select(i => (int)found.Table.Cases[i][0]).Order();
        }
    }

    [Fact]
    public void What_the_grammar_makes_is_read()
    {
        var seed = Environment.TickCount;
        var random = new Random(seed);
        var all = Candidates.Of(Machine, InterpretedEngine.Widest, null);
        for (var i = 0; i < 500; i++)
        {
            var condition = string.Join(' ', Spoken(new Reference("condition"), random, 0));
            var report = new Report(null);
            all.Showing(condition, report);
            Assert.True(
                report.Count == 0,
                $"seed {seed}: {condition}: {string.Join(", ", report.InOrder().Select(d => d.Id))}"
            );
        }
    }

    [Theory]
    [InlineData("(", ")")]
    [InlineData("not ", "")]
    public void What_nests_deeper_than_a_stack_is_refused(string before, string behind)
    {
        const int Deep = 20_000;
        var text =
            $"{string.Concat(Enumerable.Repeat(before, Deep))}every outcome happens{string.Concat(Enumerable.Repeat(behind, Deep))}";
        var report = new Report(null);
        Assert.Null(Candidates.Of(Machine, InterpretedEngine.Widest, null).Showing(text, report));
        Assert.Contains(report.InOrder(), d => d.Id == Id.NestingTooDeep);
    }

    private static IEnumerable<string> Spoken(Piece piece, Random random, int depth) =>
        piece switch
        {
            Literal literal => [literal.Text],
            WordClass words => [Example(words.Name, random)],
            Reference { Name: "condition" or "clause" } when depth > 12 => ["no two cycles alike"],
            Reference rule => Spoken(Handbook.Rules[rule.Name], random, depth + 1),
            Sequence sequence => sequence.Pieces.SelectMany(p => Spoken(p, random, depth)),
            Alternatives any => Spoken(any.Pieces[random.Next(any.Pieces.Count)], random, depth),
            Optional optional => random.Next(2) == 0 ? [] : Spoken(optional.Inner, random, depth),
            _ => throw new InvalidOperationException(piece.GetType().Name),
        };

    private static string Example(string wordClass, Random random)
    {
        string[] examples = wordClass switch
        {
            "TRUTH" => ["digits = 0", "0 <= slip < digits + n", "happens in 1..3", "(digits = 1 or digits = 3)"],
            "AMOUNT" => ["digits", "slip + 2 * never", "abs(slip)", "n - digits"],
            "DECISION" =>
            [
                "cycles",
                "(cycles and wide = 0b01)",
                "wide = 0b00",
                "wide = else",
                "not cycles",
                "\"cycles and wide = 0b01\"",
            ],
            "VALUE" => ["wide"],
            "NAME" => ["digits", "slip", "happens", "never"],
            "NUMBER" => ["0", "1", "3", "n", "99"],
            "SLIP" => ["loop-longer-repeat", "register-narrow-A"],
            _ => throw new InvalidOperationException(wordClass),
        };
        return examples[random.Next(examples.Length)];
    }
}
