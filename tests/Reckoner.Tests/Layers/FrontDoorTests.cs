using System.Numerics;
using System.Reflection;
using Reckoner.Drawing;
using Reckoner.Questions;
using Reckoner.Running;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests.Layers;

/// <summary>The library as a stranger calls it: what cannot be is said at the door, and nothing that is handed out can be written to.</summary>
public class FrontDoorTests
{
    private static readonly Means Means = new(new InterpretedRunner(), () => TimeSpan.Zero);

    public static TheoryData<string, string> Argument =>
        [
            .. from method in typeof(Reckon).GetMethods(BindingFlags.Public | BindingFlags.Static)
            from parameter in method.GetParameters()
            where !parameter.ParameterType.IsValueType && !parameter.IsOptional
            select (method.Name, parameter.Name!),
        ];

    [Theory]
    [MemberData(nameof(Argument))]
    public void Nothing_is_refused_by_name(string method, string parameter)
    {
        var called = typeof(Reckon).GetMethod(method)!;
        var arguments = called.GetParameters().Select(p => p.Name == parameter ? null : Usual(p)).ToArray();
        var thrown = Assert.Throws<TargetInvocationException>(() => called.Invoke(null, arguments));
        Assert.Equal(parameter, Assert.IsType<ArgumentNullException>(thrown.InnerException).ParamName);
    }

    private static object? Usual(ParameterInfo parameter)
    {
        var machine = new AskedMachine(Reckon.Machine("divide-still-divisor"));
        return parameter.ParameterType switch
        {
            var t when t == typeof(Means) => Means,
            var t when t == typeof(AskedMachine) => machine,
            var t when t == typeof(IReadOnlyList<AskedMachine>) => new[] { machine, machine },
            var t when t == typeof(IReadOnlyList<AskedOperand>) => new AskedOperand[] { 29, 6 },
            var t when t == typeof(Datapaths.Datapath) => Walks.At("divide-still-divisor", 5),
            var t when t == typeof(IReadOnlyList<BigInteger>) => new BigInteger[] { 0, 0, 0 },
            var t when t == typeof(SlipsQuestion) => new SlipsQuestion(machine),
            var t when t == typeof(CheckQuestion) => new CheckQuestion(machine),
            var t when t == typeof(RefineQuestion) => new RefineQuestion(machine),
            var t when t == typeof(IdleQuestion) => new IdleQuestion(machine),
            var t when t == typeof(OperandsQuestion) => new OperandsQuestion(machine, ChosenFor.Showing),
            var t when t == typeof(HandOutQuestion) => new HandOutQuestion(machine, ["a"], new byte[16]),
            var t when t == typeof(DrawQuestion) => new DrawQuestion([machine], View.All[0], Vocabulary.English),
            var t when t == typeof(string) => "machine m",
            var t when t.IsValueType => Activator.CreateInstance(t),
            _ => parameter.DefaultValue is DBNull ? null : parameter.DefaultValue,
        };
    }

    [Fact]
    public void A_question_about_no_machine_is_refused() =>
        Assert.Throws<ArgumentNullException>(() => Reckon.Idle(new IdleQuestion(null!), Means));

    [Fact]
    public void Means_without_a_runner_or_a_clock_are_none()
    {
        var question = new IdleQuestion(Reckon.Machine("divide-still-divisor"));
        Assert.Throws<ArgumentNullException>(() => Reckon.Idle(question, Means with { Clock = null! }));
        Assert.Throws<ArgumentNullException>(() => Reckon.Idle(question, Means with { Runner = null! }));
    }

    [Fact]
    public void A_machine_that_is_not_there_is_told_with_those_that_are_near()
    {
        var thrown = Assert.Throws<ArgumentException>(() => Reckon.Machine("divide-stil-divisor"));
        Assert.Contains("divide-still-divisor", thrown.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_bound_already_is_bound_to_no_other_width() =>
        Assert.Throws<ArgumentException>(() => new AskedMachine(Walks.At("divide-still-divisor", 5)) { Widths = 3 });

    [Fact]
    public void Nobody_writes_into_a_walk()
    {
        var operands = new List<BigInteger> { 29, 6 };
        var walk = Walk.Of(Walks.At("divide-still-divisor", 5), operands);
        operands[0] = 5;
        operands.Add(99);
        Assert.Equal([29, 6], walk.Operands);
        var row = walk.Rows[3];
        Assert.All<object>(
            [
                walk.Operands,
                walk.Rows,
                walk.Results,
                walk.Claims,
                row.Before,
                row.Registers,
                row.Moments,
                row.Moments[0].Registers,
                row.Moments[0].Values,
                row.Moments[0].Happenings,
            ],
            handed => Assert.True(handed is System.Collections.IList { IsReadOnly: true }, handed.GetType().Name)
        );
    }

    [Fact]
    public async Task A_check_that_was_stopped_does_not_hold()
    {
        using var stop = new CancellationTokenSource();
        await stop.CancelAsync();
        var question = new CheckQuestion(new AskedMachine(Reckon.Machine("divide-still-divisor")) { Widths = 8 });
        var answer = await Reckon.Check(question, Means with { Stop = stop.Token });
        Assert.False(answer.Data!.IsComplete);
        Assert.False(answer.Data.Holds);
    }
}
