using System.Globalization;
using Reckoner.Drawing;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Texts that mean the same: every bit of theirs comes from the same place, in every cycle and for all operands.</summary>
public class EquivalentTextsTests
{
    private static string Machine(string round) =>
        $"""
            machine pair
            width n = 3 in 2..8
            operand a : n
            operand b : n
            register A : n loads a
            register B : n loads b
            register X : 2 loads 0
            unit alu : adder n
            repeat 2
            {round.ReplaceLineEndings("\n  ").Insert(0, "  ")}
            end
            result x = X
            result rest = A
            """;

    /// <summary>What is asked, two texts, and the kinds of all sources that any bit of X ever has.</summary>
    public static TheoryData<string, string, string, string> Pairs =>
        new()
        {
            {
                "a quotient's bit set after a zero came in, or taken in at once",
                """
                    let difference, borrow = A - B via alu
                    X <- shl(X, 0)
                    then
                    if not borrow
                      A <- difference
                      X[0] <- 1
                    end
                    """,
                """
                    let difference, borrow = A - B via alu
                    if not borrow
                      A <- difference
                    end
                    X <- shl(X, not borrow)
                    """,
                "Decision Register"
            },
            {
                "a zero that comes in but in the last round: the counter decides for nobody's operands",
                """
                    let unused, borrow = A - B via alu
                    if not last
                      X <- shl(X, 0)
                    end
                    """,
                """
                    let unused, borrow = A - B via alu
                    if last
                      hold
                    else
                      X <- shl(X, 0)
                    end
                    """,
                "Constant Register"
            },
            {
                "1 and 0 in the branches of a comparison, or its bit",
                """
                    let fits = A >= B
                    if fits
                      X[0] <- 1
                    else
                      X[0] <- 0
                    end
                    """,
                """
                    let fits = A >= B
                    X[0] <- fits
                    """,
                "Decision Register"
            },
            {
                "1 and 0 in the branches of a borrow, or the borrow: it comes out of the adder",
                """
                    let difference, borrow = A - B via alu
                    A <- difference
                    if borrow
                      X[1] <- 1
                    else
                      X[1] <- 0
                    end
                    """,
                """
                    let difference, borrow = A - B via alu
                    A <- difference
                    X[1] <- borrow
                    """,
                "Register Unit"
            },
            {
                "0 and 1 in the branches of a borrow turned over, or the borrow",
                """
                    let difference, borrow = A - B via alu
                    let fits = not borrow
                    A <- difference
                    if fits
                      X[1] <- 0
                    else
                      X[1] <- 1
                    end
                    """,
                """
                    let difference, borrow = A - B via alu
                    A <- difference
                    X[1] <- borrow
                    """,
                "Register Unit"
            },
            {
                "a bit copied by a branch, or copied",
                """
                    if A[0]
                      X[1] <- 1
                    else
                      X[1] <- 0
                    end
                    """,
                "X[1] <- A[0]",
                "Register"
            },
            {
                "arms that hold constants, or a choice of words",
                """
                    case A[1..0]
                      0b00: X <- 0b00
                      0b01: X <- 0b01
                      0b10: X <- 0b01
                      else: X <- 0b10
                    end
                    """,
                """
                    let digit = case A[1..0]
                      0b00: 0b00
                      0b01: 0b01
                      0b10: 0b01
                      else: 0b10
                    end
                    X <- digit
                    """,
                "Decision"
            },
            {
                "arms that hold constants, or branches inside branches",
                """
                    case A[1..0]
                      0b00: X <- 0b11
                      0b01: X <- 0b01
                      else: X <- A[2..1]
                    end
                    """,
                """
                    if A[1..0] = 0b00
                      X <- 0b11
                    else if A[1..0] = 0b01
                      X <- 0b01
                    else
                      X <- A[2..1]
                    end
                    """,
                "Decision Register"
            },
            {
                "arms of one bit, or branches",
                """
                    case A < B
                      0b1: X <- 0b10
                      0b0: X <- 0b01
                    end
                    """,
                """
                    if A < B
                      X <- 0b10
                    else
                      X <- 0b01
                    end
                    """,
                "Decision"
            },
            {
                "branches inside branches, or one question",
                """
                    if A > B
                      if A[1..0] = 0b01
                        X[0] <- 1
                      else
                        X[0] <- 0
                      end
                    else
                      X[0] <- 0
                    end
                    """,
                "X[0] <- (A > B) and (A[1..0] = 0b01)",
                "Decision Register"
            },
            {
                "a branch without else, or a choice that keeps",
                """
                    if A > B
                      X <- 0b11
                    end
                    """,
                "X <- 0b11 when A > B else X",
                "Decision Register"
            },
            {
                "the same constant whatever is decided, or the constant",
                """
                    if A > B
                      X <- 0b10
                    else if A[0]
                      X <- 0b10
                    else
                      X <- 0b10
                    end
                    """,
                "X <- 0b10",
                "Constant"
            },
            {
                "one bit the same and one decided, or each by itself",
                """
                    if A > B
                      X <- 0b11
                    else
                      X <- 0b10
                    end
                    """,
                "X <- 1:(A > B)",
                "Constant Decision"
            },
            {
                "written in a branch and again later, or written once",
                """
                    if A > B
                      X <- 0b11
                    end
                    then
                    X <- A[1..0]
                    """,
                "X <- A[1..0]",
                "Register"
            },
        };

    [Theory]
    [MemberData(nameof(Pairs))]
    public void Texts_that_mean_the_same_have_the_same_origins(string what, string first, string second, string kinds)
    {
        var (one, other) = (Machines.Bound(Machine(first)), Machines.Bound(Machine(second)));
        var met = new HashSet<SourceKind>();
        foreach (var (a, b) in Walks.Pairs(one))
        {
            var (walk, again) = (Walk.Traced(one, [a, b]), Walk.Traced(other, [a, b]));
            Assert.Equal((what, a, b, string.Join('\n', Told(walk))), (what, a, b, string.Join('\n', Told(again))));
            Assert.Equal(Hues(walk), Hues(again));
            met.UnionWith(Provenance.Of(walk).Skip(1).SelectMany(r => r.Sources[2]).Select(s => s.Kind));
        }
        Assert.Equal(kinds, string.Join(' ', met.Select(k => k.ToString()).Order(StringComparer.Ordinal)));
    }

    /// <summary>For every row and the results, for every register, each bit and where it came from.</summary>
    private static IEnumerable<string> Told(Walk walk) =>
        Provenance
            .Of(walk)
            .Select(row => string.Join(" | ", row.Origins.Concat(row.Sources).Select(Told)))
            .Append(string.Join(" | ", Provenance.OfResults(walk).Select(Told)));

    private static string Told(IReadOnlyList<BitSource> bits) => string.Join(' ', bits.Reverse().Select(Told));

    /// <summary>What is decided counts as one, whatever decided it.</summary>
    private static string Told(BitSource bit) =>
        bit.Kind switch
        {
            SourceKind.Decision => "decided",
            SourceKind.Constant => bit.Bit.ToString(CultureInfo.InvariantCulture),
            SourceKind.Register => $"{bit.Register!.Name}[{bit.Bit}]",
            SourceKind.Operand => $"{bit.Operand!.Name}[{bit.Bit}]",
            SourceKind.Unit => $"{bit.Value!.Unit!.Name}[{bit.Bit}]",
            SourceKind.Table or SourceKind.Gates => $"{bit.Kind}[{bit.Bit}]",
        };

    private static IEnumerable<int> Hues(Walk walk)
    {
        var origins = new Origins(Provenance.Of(walk));
        return Provenance.Of(walk).SelectMany(r => r.Origins).SelectMany(bits => bits.Select(origins.Hue));
    }

    /// <summary>A walk that was traced is the walk: in its numbers, in what happened, and where its bits come from.</summary>
    [Theory]
    [MemberData(nameof(Catalogue))]
    public void A_traced_walk_is_the_walk(string name)
    {
        var machine = Machines.Named(name);
        var datapath = Machines.Bound(machine, Machines.Widths(machine, 5).Last());
        foreach (var operands in SampleOperands.Of(datapath, new Random(3)).Take(6))
        {
            var (walk, traced) = (Walk.Of(datapath, operands), Walk.Traced(datapath, operands));
            Assert.Equal(WalkBlock.Of(walk), WalkBlock.Of(traced));
            Assert.Equal(Happened(walk), Happened(traced));
            Assert.Equal(walk.Claims, traced.Claims);
        }
    }

    private static IEnumerable<string> Happened(Walk walk) =>
        from row in walk.Rows
        from moment in row.Moments
        from happening in moment.Happenings
        select $"{row.Cycle}.{moment.Moment} {happening.Kind} {happening.Line} {happening.Follows} "
            + Spoken.Of(happening);

    public static TheoryData<string> Catalogue => [.. Machines.Catalogue];
}
