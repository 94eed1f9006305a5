using System.Numerics;
using Reckoner.Binding;
using Reckoner.Checking;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Formulas as gates against their exact twin, for all operands of a small machine.</summary>
public class FormulaGatesTests
{
    private static readonly Datapath Pair = Machines.Bound(
        """
        machine pair

        width n = 3 in 1..8

        operand a : n
        operand b : signed n

        register A : n loads a

        step keep
          hold

        result same = A
        """
    );

    private static readonly CaseTable Cases = CaseTable.All(Pair);

    private static Claim Bound(string law)
    {
        var source = new Source("", $"machine m\nlaw {law}\n");
        var line = Parser.Read(source).Description.Declarations.OfType<ClaimLine>().Single();
        var condition = line.Condition is null ? null : Bound(line.Condition);
        var mode = Enum.Parse<ClaimMode>($"{line.Kind}");
        return new Claim(ClaimSection.Law, mode, Bound(line.Formula), condition, line.Span);
    }

    private static Truth Bound(Expression formula)
    {
        var report = new Report(null);
        var binding = new FormulaBinding(
            report,
            name =>
                Pair.Variables.FirstOrDefault(v => v.Name == name.Name) is { } variable
                    ? Claims.Term.Of(name.Span, variable)
                    : Claims.Term.Named(name.Span, name.Name, Pair.Numbers[name.Name])
        );
        var truth = binding.Truth(formula);
        Assert.Empty(report.InOrder());
        return truth!;
    }

    /// <summary>A digit for every case: whether the claim holds.</summary>
    private static string ByGates(Claim claim)
    {
        var gates = MachineGates.Of(Pair);
        var program = PlaneProgram.Of(gates.Graph, [gates.Formulas([]).Holds(claim)]);
        var table = Cases.Run(program, InterpretedEngine.Widest)[0];
        return string.Concat(Cases.Cases.Select((_, i) => (table[i / 64] >> (i % 64)) & 1));
    }

    private static string ByNumbers(Claim claim) =>
        string.Concat(Cases.Cases.Select(c => ClaimJudge.Holds(claim, c, []) ? 1 : 0));

    /// <summary>What is beside them was computed apart, with fractions.</summary>
    [Theory]
    [InlineData("a^-1 <= 1/2", 48)]
    [InlineData("a^-2 = 1/4", 8)]
    [InlineData("b^-1 < 0", 32)]
    [InlineData("2^b < 1", 32)]
    [InlineData("2^-a = 1/8", 8)]
    [InlineData("(-2)^b > 0", 32)]
    [InlineData("a^b = 1/4", 2)]
    [InlineData("a^(1/2) >= 0", 0)]
    [InlineData("2^floor(log2(a)) >= 1", 56)]
    [InlineData("floor(b / 2) < b / 2", 32)]
    [InlineData("floor(b / 2) = -1", 16)]
    [InlineData("trunc(b / 2) = -1", 16)]
    [InlineData("ceil(b / 2) = -1", 16)]
    [InlineData("0^(a - a) = 1", 64)]
    [InlineData("a^0 = 1", 64)]
    [InlineData("1^200000 = 1", 64)]
    [InlineData("(-1)^200001 < 0", 64)]
    [InlineData("1^-200000 = 1^(10^30)", 64)]
    [InlineData("0^200000 = 0", 64)]
    [InlineData("a / b >= 0", 28)]
    [InlineData("b = 0 or a / b >= 0", 36)]
    [InlineData("b <> 0 and a / b >= 0", 28)]
    [InlineData("not (a / b < 0)", 28)]
    [InlineData("(a / b < 0) xor (a < 0)", 28)]
    [InlineData("1 < 0 < a / b", 0)]
    [InlineData("a >= 0 when a / b > 1", 64)]
    [InlineData("a / b > 1 when a > 4", 49)]
    [InlineData("a / b > 1 when b / a > 1/5", 50)]
    [InlineData("a / b < 0 exactly when b < 0", 52)]
    [InlineData("b < 0 exactly when a / b < 0", 52)]
    [InlineData("a < 0 exactly when a / b > 100", 56)]
    [InlineData("a / b > 100 exactly when a < 0", 56)]
    [InlineData("a / b > 100 exactly when b / a > 100", 49)]
    public void A_claim_without_a_value_does_not_hold(string law, int holding)
    {
        var claim = Bound(law);
        Assert.Equal(holding, ByNumbers(claim).Count(c => c == '1'));
        Assert.Equal(ByNumbers(claim), ByGates(claim));
    }

    /// <summary>They would be multiplied out, one factor after another.</summary>
    [Theory]
    [InlineData("a^10000000000 >= 0")]
    [InlineData("a^-10000000000 >= 0")]
    [InlineData("b^1000 = 1")]
    public void Powers_too_large_for_gates_are_left_to_the_numbers(string law) =>
        Assert.Throws<LawBeyondPlanesException>(() => ByGates(Bound(law)));

    [Fact]
    public void Random_claims_hold_in_the_same_cases() => Compare(claims: 100);

    [Fact]
    [Trait("Length", "long")]
    public void Thousands_of_random_claims_do() => Compare(claims: 4000);

    private static void Compare(int claims)
    {
        var seed = Seeds.Next();
        var random = new Random(seed);
        var expressions = new RandomExpressions(random, ["a", "b", "n"]);
        var (compared, undefined) = (0, 0);
        // Some have no value somewhere; where the lot gives few of these, more are drawn.
        for (var drawn = 0; compared < claims || (undefined <= claims / 20 && drawn < 20 * claims); drawn++)
        {
            var mode = (ClaimMode)random.Next(3);
            var condition = mode == ClaimMode.Always ? null : Bound(expressions.Truth(1));
            var claim = new Claim(ClaimSection.Law, mode, Bound(expressions.Truth(2)), condition, default);
            Seeds.Told(seed, claim.Text, () => compared += IsCompared(claim) ? 1 : 0);
            undefined += claim.Formula.Variables.Any() && Cases.Cases.Any(c => Value(claim.Formula, c) is null) ? 1 : 0;
        }
        Assert.True(
            undefined > claims / 20,
            $"only {undefined} formulas have no value somewhere (RECKONER_SEED={seed})"
        );
    }

    private static bool? Value(Truth truth, BigInteger[] operands) =>
        new Exact(v => v.Number(operands[v.Index])).Truth(truth);

    /// <summary>False where gates cannot be made.</summary>
    private static bool IsCompared(Claim claim)
    {
        try
        {
            var byGates = ByGates(claim);
            Assert.Equal(ByNumbers(claim), byGates);
            return true;
        }
        catch (LawBeyondPlanesException)
        {
            return false;
        }
    }
}
