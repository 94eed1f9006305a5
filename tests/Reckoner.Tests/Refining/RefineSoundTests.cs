using Reckoner.Binding;
using Reckoner.Notation;
using Reckoner.Questions;
using Reckoner.Refining;
using Xunit;

namespace Reckoner.Tests.Refining;

/// <summary>
/// What small and equal widths, defaults and narrow words do not show is run too, and what is said of a version is what became of it.
/// </summary>
public class RefineSoundTests
{
    private static readonly Means Means = new(new InterpretedRunner(), () => TimeSpan.Zero);

    private const string TwoWidths = """
        machine rows
        width n = 4 in 1..16
        width m = 3 in 1..16
        operand a : n
        operand b : m
        register P "the product" : n + m loads 0
        register A "the one" : n + m loads extend(a)
        register B "the other" : m loads b
        repeat m
          if B[0]
            P <- P + A
          end
          A <- shl(A, 0)
          B <- shr(B, 0)
        end
        result product = P
        law product = a * b
        """;

    private const string Counted = """
        machine counted
        width n = 4 in 2..40
        operand a : n
        register A "the word" : n loads a
        register S "the place" : 34 loads 1
        repeat n
          S <- shl(S, 0)
          A <- shr(A, A[0])
        end
        result word = A
        result top = S[33..32]
        law word = a
        """;

    private const string Shifted = """
        machine shifted
        width n = 4 in 2..16
        parameter k = 1 in 0..n
        operand a : n
        register A "the word" : 2n loads extend(a)
        repeat k
          A <- shl(A, 0)
        end
        result word = A
        law word = a * 2^k
        """;

    private const string Wide = """
        machine wide
        width n = 3 in 2..8
        operand a : n
        register A "the word" : n loads a
        register W "the places" : 70 loads 1
        repeat n
          if A[0]
            W <- shl(W, 0)
          end
          A <- shr(A, 0)
        end
        result places = W
        law places > 0
        """;

    private static Machine Read(string text, params (string Old, string New)[] changes) =>
        Reckon.Read(changes.Aggregate(text, (t, c) => t.Replace(c.Old, c.New, StringComparison.Ordinal)));

    private static Refined Refine(Machine machine, int steps = 1)
    {
        var answer = Reckon.Refine(new RefineQuestion(machine) { Steps = steps }, Means);
        Assert.True(answer.IsGiven, string.Join(' ', answer.Refusals.Select(r => r.Diagnostic.Id.Name)));
        return answer.Data;
    }

    /// <summary>Each is right wherever the second width is not the greater, at defaults, or in words of 64 bits.</summary>
    [Theory]
    [InlineData(TwoWidths, "repeat m", "repeat n")]
    [InlineData(Shifted, "repeat k", "repeat 1")]
    [InlineData(Wide, "W <- shl(W, 0)", "W <- shl(W, 1)")]
    public void What_is_wrong_only_elsewhere_is_seen_there(string text, string old, string wrong)
    {
        var right = Read(text);
        var cases = CaseSet.Of(right);
        Assert.All(cases, c => Assert.True(c.IsSame(right)));
        Assert.Contains(cases, c => !c.IsSame(Read(text, (old, wrong))));
    }

    [Theory]
    [InlineData("in 8..8", new[] { 8 })]
    [InlineData("in 10..16", new[] { 10, 11, 12, 13, 16 })]
    [InlineData("in 2..40", new[] { 2, 3, 4, 5, 7, 9, 17 })]
    public void Every_range_has_widths_at_which_versions_are_tried(string range, int[] widths)
    {
        var machine = Read(Counted, ("4 in 2..40", $"{Math.Max(widths[0], 4)} {range}"));
        Assert.Equal(widths, CaseSet.Of(machine).Select(c => (int)c.Datapath.Widths[0].Value));
        Assert.Equal(range != "in 2..40", Refine(machine).Proposals.Count > 0);
    }

    [Fact]
    public void A_machine_of_even_widths_alone_is_tried_at_great_ones_too()
    {
        var machine = Read(
            Counted,
            ("operand a : n", "constant half = n/2\noperand a : half"),
            ("\"the word\" : n", "\"the word\" : half"),
            ("repeat n", "repeat half")
        );
        Assert.Equal([2, 4, 6, 8, 10, 18], CaseSet.Of(machine).Select(c => (int)c.Datapath.Widths[0].Value).Order());
    }

    /// <summary>The top bit is 0 up to 32, far beyond the widths at which every operand is run.</summary>
    [Theory]
    [InlineData("in 2..40", false)]
    [InlineData("in 2..31", true)]
    public void A_bit_is_left_out_only_where_the_range_ends_before_it_is_needed(string range, bool isLeft)
    {
        var proposals = Refine(Read(Counted, ("in 2..40", range))).Proposals;
        Assert.Equal(isLeft, proposals.Any(p => p.Datapath.Registers.Any(r => r.Name == "S" && r.Width < 34)));
    }

    [Theory]
    [InlineData("divide-moving-divisor")]
    [InlineData("multiply-moving-multiplicand")]
    [InlineData("multiply-early-out")]
    [InlineData("divide-half-shift-back")]
    public void What_is_said_of_a_version_is_what_became_of_it(string name)
    {
        var refined = Refine(Reckon.Machine(name));
        Assert.NotEmpty(refined.Proposals);
        foreach (var proposal in refined.Proposals)
        {
            Assert.True(
                proposal.Cost.Area < refined.Cost.Area
                    || proposal.Cost.Time.Most < refined.Cost.Time.Most
                    || proposal.Mean is var (now, before) && now < before
            );
            foreach (var reason in proposal.Steps.SelectMany(s => s.Reasons))
            {
                if (reason.Kind is ReasonKind.BitsZero or ReasonKind.SignsRepeated or ReasonKind.Wider)
                {
                    var register = ((RegisterNames)reason.Facts[0].Value).Names[0];
                    Assert.Equal(Width(refined.Datapath.Machine.Description, register), reason.Facts[2].Value);
                    Assert.Equal(Width(proposal.Datapath.Machine.Description, register), reason.Facts[1].Value);
                }
            }
        }
    }

    private static Length Width(Description description, string register) =>
        Length.Of(description.Declarations.OfType<RegisterLine>().First(r => r.Name.Text == register).Type.Width);

    [Fact]
    public void That_the_first_round_is_known_is_said_where_it_was_seen()
    {
        Assert.Contains(ReasonKind.FirstKnown, Reasons(Refine(Reckon.Machine("divide-moving-divisor"))));
        var longer = Read(
            Printer.Text(Reckon.Machine("multiply-moving-multiplicand").Description),
            ("repeat n\n", "repeat n + 1\n")
        );
        var reasons = Reasons(Refine(longer)).ToList();
        Assert.Contains(ReasonKind.RoundLess, reasons);
        Assert.DoesNotContain(ReasonKind.FirstKnown, reasons);
    }

    private static IEnumerable<ReasonKind> Reasons(Refined refined) =>
        refined.Proposals.SelectMany(p => p.Steps).SelectMany(s => s.Reasons).Select(r => r.Kind);

    [Fact]
    public void No_step_leads_from_a_machine_to_itself_and_none_to_one_with_a_wider_result()
    {
        var counted = Read(Counted);
        var same = new LeadQuestion(new AskedMachine(counted), new AskedMachine(counted)).Ask(Means).Data!;
        Assert.True(same.IsFound);
        Assert.Empty(same.Steps);
        var wider = Read(Counted, ("machine counted", "machine wider"), ("[33..32]", "[33..31]"));
        Assert.Equal(
            "refine-unlike",
            Assert
                .Single(new LeadQuestion(new AskedMachine(counted), new AskedMachine(wider)).Ask(Means).Refusals)
                .Diagnostic.Id.Name
        );
    }
}
