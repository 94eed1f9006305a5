using System.Numerics;
using System.Reflection;
using Reckoner.Reporting;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Walks as text: whole pages pinned, and what holds for every page.</summary>
public class WalkTextTests
{
    private static string Text(int columns, string machine, int width, params IReadOnlyList<BigInteger> operands) =>
        WalkText.Of(Walks.Of(Walks.At(machine, width), operands), Vocabulary.English, columns);

    private static string Pages(int columns) =>
        string.Join(
            '\n',
            Text(columns, "multiply-moving-multiplicand", 4, 13, 11),
            Text(columns, "multiply-still-multiplicand", 4, 13, 11),
            Text(columns, "divide-still-divisor", 5, 29, 6),
            Text(columns, "divide-adding-back", 4, 13, 3),
            Text(columns, "divide-signed-riscv", 4, -7, 2),
            Text(columns, "divide-double-length", 4, 117, 10),
            Text(columns, "divide-srt-radix-2", 4, 13, 3),
            Text(columns, "multiply-booth", 4, -8, -6),
            Text(columns, "root-non-restoring", 4, 127)
        );

    [Fact]
    public void Pages_of_80_columns_look_like_this() =>
        Snapshot.Match(nameof(Pages_of_80_columns_look_like_this), Pages(80));

    [Fact]
    public void Pages_of_120_columns_look_like_this() =>
        Snapshot.Match(nameof(Pages_of_120_columns_look_like_this), Pages(120));

    /// <summary>Too many registers, or too wide ones, stand under each other.</summary>
    [Fact]
    public void Registers_too_wide_for_the_page_look_like_this() =>
        Snapshot.Match(
            nameof(Registers_too_wide_for_the_page_look_like_this),
            string.Join(
                '\n',
                Text(80, "divide-newton-raphson", 6, 50, 7),
                Text(80, "multiply-early-out", 64, ulong.MaxValue, 5),
                Text(80, "multiply-early-out", 128, UInt128.MaxValue, 2)
            )
        );

    [Fact]
    public void What_does_not_hold_and_what_is_outside_look_like_this() =>
        Snapshot.Match(
            nameof(What_does_not_hold_and_what_is_outside_look_like_this),
            string.Join(
                '\n',
                Text(80, "running/divide-remainder-doubled", 4, 7, 2),
                Text(80, "running/claims-of-every-kind", 4, 2, 0),
                Text(80, "running/claims-of-every-kind", 4, 6, 6),
                Text(80, "divide-shared-register", 4, 13, 0),
                Text(80, "divide-signed-floored", 4, -7, 0)
            )
        );

    public static TheoryData<string> Short => [.. Machines.Catalogue.Where(Portion.IsShort)];

    public static TheoryData<string> Long => [.. Machines.Catalogue.Where(name => !Portion.IsShort(name))];

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Long))]
    public void No_line_of_a_long_description_is_wider_than_the_page(string machine) =>
        No_line_is_wider_than_the_page(machine);

    [Theory]
    [MemberData(nameof(Short))]
    public void No_line_is_wider_than_the_page(string machine)
    {
        foreach (var width in Machines.Widths(Machines.Named(machine), 5, 64, 128).Append(DefaultWidth(machine)))
        {
            var datapath = Walks.At(machine, width);
            var operands = SampleOperands.Of(datapath, new Random(1)).First();
            var walk = Running.Walk.Of(datapath, operands);
            foreach (var columns in new[] { 60, 80, 120 })
            {
                var text = WalkText.Of(walk, Vocabulary.English, columns);
                Assert.EndsWith("\n", text);
                Assert.DoesNotContain('\r', text);
                foreach (var line in text.Split('\n'))
                {
                    Assert.True(line.Length <= columns, $"at {width} bits on {columns} columns:\n{line}");
                    Assert.Equal(line.TrimEnd(), line);
                }
            }
        }
    }

    private static int DefaultWidth(string machine) => (int)Walks.At(machine).Widths[0].Value;

    [Fact]
    public void Names_that_are_plural_or_single_letters_or_hold_digits_make_right_sentences() =>
        Snapshot.Match(
            nameof(Names_that_are_plural_or_single_letters_or_hold_digits_make_right_sentences),
            Text(80, "reporting/odd-names", 4, -3, 5) + "\n" + Text(80, "reporting/odd-names", 4, 5, 7)
        );

    /// <summary>English words around the description's German phrases, to see that each is the one of the language asked for.</summary>
    [Fact]
    public void Phrases_are_those_of_the_language() =>
        Snapshot.Match(
            nameof(Phrases_are_those_of_the_language),
            WalkText.Of(Walks.Of(Walks.At("reporting/odd-names", 4), 5, 7), EnglishCalledGerman(), 80)
        );

    private static Vocabulary EnglishCalledGerman()
    {
        const BindingFlags Hidden = BindingFlags.NonPublic | BindingFlags.Instance;
        var texts = typeof(Vocabulary).GetField("texts", Hidden)!.GetValue(Vocabulary.English);
        return (Vocabulary)typeof(Vocabulary).GetConstructors(Hidden).Single().Invoke(["de", texts]);
    }

    [Fact]
    public void Every_pinned_page_belongs_to_a_test() =>
        Assert.Empty(Snapshot.Strays(Path.GetDirectoryName(Sources.File("tests/Reckoner.Tests/Reporting/x"))!));
}
