using System.Numerics;
using System.Text;
using Reckoner.Checking;
using Reckoner.Choosing;
using Reckoner.Diagnostics;
using Reckoner.Questions;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Tests.Choosing;

public class HandOutTests
{
    private static readonly byte[] Secret = Encoding.UTF8.GetBytes("a secret of this test, 32 bytes.");

    private static readonly Lazy<EqualDifficulty> Divider = new(() =>
        Classes("divide-still-divisor", 8, EqualAllowed.Nothing)
    );

    private static EqualDifficulty Classes(string machine, int width, EqualAllowed allowed) =>
        new(Candidates.Of(Machines.Bound(Machines.Named(machine), width), InterpretedEngine.Widest, null), allowed);

    private static List<string> Students(int count) => [.. Enumerable.Range(1, count).Select(i => $"s{1000 + 7 * i}")];

    private static readonly Dictionary<string, IReadOnlyList<BigInteger>> Nothing = [];

    private static IReadOnlyList<HandedOperands>? Handed(
        EqualDifficulty classes,
        IReadOnlyList<string> students,
        EqualAllowed? allowed = null,
        byte[]? secret = null,
        string purpose = "1",
        IReadOnlyDictionary<string, IReadOnlyList<BigInteger>>? earlier = null,
        IReadOnlyList<IReadOnlyList<BigInteger>>? avoid = null,
        IReadOnlyList<(string Student, IReadOnlyList<BigInteger> Bits)>? own = null
    ) =>
        new HandOut(classes, allowed ?? EqualAllowed.Nothing, secret ?? Secret, purpose).Of(
            students,
            earlier ?? Nothing,
            avoid ?? [],
            (own ?? []).ToLookup(o => o.Student, o => o.Bits)
        );

    private static string Text(HandedOperands handed) => string.Join(' ', handed.Chosen.Operands);

    [Fact]
    public void The_same_secret_gives_everybody_the_same_again_and_all_are_of_one_class()
    {
        var students = Students(250);
        var first = Handed(Divider.Value, students)!;
        Assert.Equal(first.Select(Text), Handed(Divider.Value, students)!.Select(Text));
        Assert.Equal(students, first.Select(h => h.Student));
        Assert.All(first, h => Assert.Equal(Divider.Value.Largest, h.Class));
        Assert.Equal(250, first.Select(Text).Distinct().Count());
        Assert.All(first, h => Assert.Equal(0, h.Times));
    }

    /// <summary>Of another secret, or for another question, few have what they have here: as many as by chance.</summary>
    [Fact]
    public void Nobody_tells_anothers_without_the_secret()
    {
        var students = Students(200);
        var here = Handed(Divider.Value, students)!.Select(Text).ToList();
        var almost = (byte[])Secret.Clone();
        almost[^1] ^= 1;
        var other = Handed(Divider.Value, students, secret: almost)!.Select(Text).ToList();
        var question = Handed(Divider.Value, students, purpose: "2")!.Select(Text).ToList();
        Assert.InRange(here.Zip(other).Count(p => p.First == p.Second), 0, 6);
        Assert.InRange(here.Zip(question).Count(p => p.First == p.Second), 0, 6);
    }

    [Fact]
    public void A_student_added_behind_changes_nobody_elses()
    {
        var students = Students(120);
        var before = Handed(Divider.Value, students)!.Select(Text).ToList();
        var after = Handed(Divider.Value, [.. students, "late", "later"])!.Select(Text).ToList();
        Assert.Equal(before, after.Take(120));
        Assert.Equal(122, after.Distinct().Count());
    }

    [Fact]
    public void A_student_added_in_between_changes_nobody_elses_where_what_they_have_is_given()
    {
        var students = Students(60);
        var before = Handed(Divider.Value, students)!;
        var earlier = before.ToDictionary(h => h.Student, h => h.Chosen.Operands);
        var more = students.Take(20).Append("late").Concat(students.Skip(20)).ToList();
        var after = Handed(Divider.Value, more, earlier: earlier)!;
        Assert.Equal(before.Select(Text), after.Where(h => h.Student != "late").Select(Text));
        Assert.Equal(61, after.Select(Text).Distinct().Count());
    }

    [Fact]
    public void Too_few_are_not_repeated_unasked()
    {
        var classes = Classes("divide-still-divisor", 5, EqualAllowed.Nothing);
        var size = classes.Largest!.Size;
        Assert.Equal(size, Handed(classes, Students(size))!.Select(Text).Distinct().Count());
        Assert.Null(Handed(classes, Students(size + 1)));
    }

    [Theory]
    [InlineData(3)]
    [InlineData(8)]
    public void Repeats_are_even_and_neighbours_differ(int times)
    {
        var allowed = new EqualAllowed(true, false, []);
        var classes = Classes("divide-still-divisor", 5, allowed);
        var size = classes.Largest!.Size;
        var handed = Handed(classes, Students(times * size + 2), allowed)!;
        var uses = handed.CountBy(Text).Select(u => u.Value).ToList();
        Assert.Equal(size, uses.Count);
        Assert.Equal(times, uses.Min());
        Assert.Equal(times + 1, uses.Max());
        Assert.All(handed.Zip(handed.Skip(1)), p => Assert.NotEqual(Text(p.First), Text(p.Second)));
        Assert.Equal(times, handed.Max(h => h.Times));
        // Who knows the second half of the list by the first would know others' sheets.
        Assert.NotEqual(handed.Take(size).Select(Text), handed.Skip(size).Take(size).Select(Text));
    }

    [Fact]
    public void Neighbouring_classes_help_out_where_that_is_allowed_and_are_told()
    {
        var allowed = new EqualAllowed(false, true, []);
        var classes = Classes("divide-still-divisor", 5, allowed);
        var size = classes.Largest!.Size;
        var handed = Handed(classes, Students(size + 2), allowed)!;
        Assert.Equal(size, handed.Count(h => h.Class == classes.Largest));
        Assert.Equal(classes.Nearest(classes.Largest).First(), handed[^1].Class);
        Assert.Equal(size + 2, handed.Select(Text).Distinct().Count());
    }

    /// <summary>What somebody has in another question comes again only where nothing else is left, and nobody else is given anything for it.</summary>
    [Fact]
    public void What_a_student_has_elsewhere_comes_again_only_where_nothing_else_is_left()
    {
        var students = Students(40);
        var first = Handed(Divider.Value, students)!;
        var own = first.Where((_, i) => i % 2 == 0).Select(h => (h.Student, h.Chosen.Operands)).ToList();
        var second = Handed(Divider.Value, students, own: own)!;
        Assert.All(own, o => Assert.NotEqual(o.Operands, second.First(h => h.Student == o.Student).Chosen.Operands));
        Assert.Equal(40, second.Select(Text).Distinct().Count());
        var small = Classes("divide-still-divisor", 5, EqualAllowed.Nothing);
        var all = Students(small.Largest!.Size);
        var everything = small.Largest.Members.SelectMany(m => all.Select(s => (s, small.Operands(m)))).ToList();
        Assert.Equal(all.Count, Handed(small, all, own: everything)!.Select(Text).Distinct().Count());
    }

    /// <summary>Those of whom nobody is on the list any more have theirs still; what is avoided is not to be had.</summary>
    [Fact]
    public void What_is_left_does_not_count_what_others_have()
    {
        var classes = Classes("divide-still-divisor", 5, EqualAllowed.Nothing);
        var size = classes.Largest!.Size;
        var before = Handed(classes, Students(size))!;
        var draw = new HandOut(classes, EqualAllowed.Nothing, Secret, "1");
        var (here, gone) = (before.Skip(3).ToList(), before.Take(2));
        var handed = draw.Of(
            [.. here.Select(h => h.Student), "new"],
            here.Concat(gone).ToDictionary(h => h.Student, h => h.Chosen.Operands),
            [before[2].Chosen.Operands],
            Array.Empty<(string, IReadOnlyList<BigInteger>)>().ToLookup(o => o.Item1, o => o.Item2)
        );
        Assert.Null(handed);
        Assert.Equal(size - 3, draw.Left);
    }

    [Fact]
    public void A_second_draw_shares_nothing_with_the_first()
    {
        var students = Students(60);
        var first = Handed(Divider.Value, students)!;
        var second = Handed(Divider.Value, students, avoid: [.. first.Select(h => h.Chosen.Operands)])!;
        Assert.Equal(60, second.Count);
        Assert.Empty(first.Select(Text).Intersect(second.Select(Text)));
        Assert.All(second, h => Assert.Equal(Divider.Value.Largest, h.Class));
    }

    [Fact]
    public void It_can_be_asked_from_the_front_door()
    {
        var machine = new AskedMachine(Machines.Bound(Machines.Named("divide-still-divisor"), 5));
        var means = new Means(new InterpretedRunner(), () => TimeSpan.Zero);
        var question = new HandOutQuestion(machine, Students(3), Secret) { Showing = "remainder > 0" };
        var answer = Reckon.HandOut(question, means).Data!;
        Assert.Equal(3, answer.Students!.Count);
        Assert.All(
            answer.Students,
            h => Assert.NotEqual(BigInteger.Zero, Walk.Of(answer.Candidates.Datapath, h.Chosen.Operands).Results[1])
        );
        var none = Reckon.HandOut(question with { Students = Students(500) }, means).Data!;
        Assert.Null(none.Students);
        Assert.True(none.Left < 500);
        Assert.True(none.Ways().Wider!.Value.Size >= 500);
        var wrong = Reckon.HandOut(question with { Showing = "quotient >" }, means);
        Assert.Null(wrong.Data);
        Assert.NotEmpty(wrong.Refusals);
        Assert.Throws<ArgumentException>(() => Reckon.HandOut(question with { Secret = new byte[15] }, means));
        Assert.Throws<ArgumentException>(() => Reckon.HandOut(question with { Students = ["a", "b", "a"] }, means));
    }
}
