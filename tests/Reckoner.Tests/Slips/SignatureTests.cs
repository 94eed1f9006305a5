using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests.Slips;

/// <summary>
/// How many operands at 4 bits expose a slip, against counts from small hand-written models of the mistaken machines, which share
/// no code with Reckoner. The codes are those of that list: D division, N non-restoring, S signed division, M shift-add, B Booth,
/// Q square root.
/// </summary>
public class SignatureTests
{
    [Theory]
    // D1 One step too few: the quotient loses its last bit. D2 one too many, first version of the divider.
    [InlineData("divide-moving-divisor", "loop-shorter-repeat", 120)]
    [InlineData("divide-moving-divisor", "loop-longer-repeat", 183)]
    // D1b, D2 in the A:Q divider.
    [InlineData("divide-adding-back", "loop-shorter-repeat", 224)]
    [InlineData("divide-adding-back", "loop-longer-repeat", 224)]
    // D3 subtracts before the shift: n rounds, the last of which also shifts; 11 / 3 gives 1 and 5.
    [InlineData("divide-still-divisor", "results-early", 120)]
    // D4 never restores; D5 with the restore's guard dropped; D6 the quotient bit inverted.
    [InlineData("divide-adding-back", "guard-never-negative", 239)]
    [InlineData("divide-adding-back", "guard-dropped-negative", 120)]
    [InlineData("divide-adding-back", "not-forgotten-Q-0", 240)]
    // D7 "greater" for "greater or equal"; D9 a remainder register of n bits whose top bit is taken for the sign.
    [InlineData("divide-adding-back", "strictness-negative", 56)]
    [InlineData("divide-adding-back", "register-narrow-A", 104)]
    // D10 The divisor left in the low half.
    [InlineData("divide-moving-divisor", "halves-exchanged-D", 232)]
    // D11 The last cycle also shifts: the remainder comes out doubled.
    [InlineData("divide-still-divisor", "guard-dropped-not-last", 180)]
    [InlineData("divide-shared-register", "guard-never-last", 180)]
    // A divisor or multiplier whose top bit finds no place at the load.
    [InlineData("divide-shared-register", "register-narrow-D", 100)]
    [InlineData("multiply-early-out", "register-narrow-Q", 120)]
    // N1 no final correction; N2 as a slip of the guard; N3 the sign looked at after the shift; N4 always subtracts.
    [InlineData("divide-non-restoring", "step-left-out-correct", 154)]
    [InlineData("divide-non-restoring", "guard-dropped-A-0", 86)]
    [InlineData("divide-non-restoring", "looked-at-late-negative", 104)]
    [InlineData("divide-non-restoring", "guard-never-negative", 238)]
    // N5 the quotient bit from the sign as it was before.
    [InlineData("divide-non-restoring", "read-before-Q-0", 239)]
    // S8 only the dividend made positive.
    [InlineData("divide-signed-truncating", "magnitude-not-taken-divisor", 62)]
    // S1 the quotient never negated, compared as patterns (63 as numbers: -8/1 comes out as 1000 by chance); S2 the remainder.
    [InlineData("divide-signed-truncating", "step-left-out-quotient_sign", 62)]
    [InlineData("divide-signed-truncating", "step-left-out-remainder_sign", 81)]
    // M1 the carry of the addition dropped; M6 the last row added; M4 a step too few and too many, where the product moves.
    [InlineData("multiply-still-multiplicand", "carry-ignored-C", 52)]
    [InlineData("multiply-shared-register", "carry-ignored-P", 52)]
    [InlineData("multiply-signed-shift-add", "guard-never-Q-0-and-last", 120)]
    [InlineData("multiply-signed-shift-add", "loop-shorter-repeat", 232)]
    [InlineData("multiply-signed-shift-add", "loop-longer-repeat", 224)]
    // B1 no guard bit; B2, B3 a 0 and the leaving bit enter, with the guard bit; B4 01 and 10 exchanged; B5 starts with 1;
    // B6 the bit before never kept; B8 a shift too few and too many; B9 the one's complement.
    [InlineData("multiply-booth", "register-narrow-A", 15)]
    [InlineData("multiply-booth", "zero-enters-A-Q-before", 162)]
    [InlineData("multiply-booth", "leaving-bit-enters-A-Q-before", 174)]
    [InlineData("multiply-booth", "arms-exchanged-Q-0-before", 225)]
    [InlineData("multiply-booth", "starts-otherwise-before", 240)]
    [InlineData("multiply-booth", "register-narrow-before", 210)]
    [InlineData("multiply-booth", "loop-shorter-repeat", 232)]
    [InlineData("multiply-booth", "loop-longer-repeat", 224)]
    [InlineData("multiply-booth", "one-forgotten-A", 240)]
    // Q4 one step short. Q2 "greater" for "greater or equal"; Q6 01 for 11 appended after a negative remainder, and no final correction.
    [InlineData("root-restoring", "loop-shorter-repeat", 255)]
    [InlineData("root-non-restoring", "strictness-Q", 113)]
    [InlineData("root-non-restoring", "digit-changed-R", 196)]
    [InlineData("root-non-restoring", "step-left-out-correct", 120)]
    public void A_slip_is_exposed_by_as_many_operands_as_its_model_says(string machine, string slip, int exposed)
    {
        var datapath = Machine.Read(MachineCatalogue.Find(machine)!, MachineCatalogue.Find).At(4).Datapath!;
        var study = SlipStudy.Of(datapath, InterpretedEngine.Widest, sample: null, withConditions: false);

        var studied = study.Slips.Single(s => s.Slip.Name == slip);

        Assert.Equal(exposed, studied.Exposed);
    }

    [Theory]
    [InlineData("divide-shared-register", "guard-never-last", "remainder <> 0")]
    [InlineData("divide-moving-divisor", "loop-shorter-repeat", "quotient <> 0")]
    [InlineData("multiply-booth", "register-narrow-A", "multiplicand = -2^(n-1) and multiplier <> 0")]
    public void When_a_slip_bites_is_said_as_a_lecturer_would(string machine, string slip, string when)
    {
        var datapath = Machine.Read(MachineCatalogue.Find(machine)!, MachineCatalogue.Find).At(4).Datapath!;
        var study = SlipStudy.Of(datapath, InterpretedEngine.Widest, sample: null, withConditions: true);

        Assert.Equal(when, $"{study.Slips.Single(s => s.Slip.Name == slip).When}");
    }
}
