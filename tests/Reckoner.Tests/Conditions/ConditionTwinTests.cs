using Reckoner.Checking;
using Reckoner.Conditions;
using Reckoner.Diagnostics;
using Reckoner.Slips;
using Reckoner.Timelines;
using Xunit;

namespace Reckoner.Tests.Conditions;

/// <summary>What conditions say: as text and read back, as gates, and from the numbers of a run.</summary>
public class ConditionTwinTests
{
    /// <summary>Its names are words of conditions wherever that can be.</summary>
    private const string Words = """
        machine words
        width n = 3 in 2..8
        operand digits : n
        operand slip : signed n
        register A : n loads digits
        register B : signed n loads slip
        repeat at most n while A <> 0
          let cycles = B < 0
          let wide = A[1..0]
          let always = signed(A)
          if cycles and wide = 0b01
            B <- shl(B, 0)
          end
          if not cycles
            A <- shl(A, 0)
          else
            A <- shr(A, 0b1 when always = -1 else 0b0)
          end
          then
          case wide
            0b00: B[0] <- 1
            0b1x: hold
            else: hold
          end
        end
        result happens = A
        result never = B

        """;

    public static TheoryData<string> Kinds =>
        [
            Words,
            "divide-non-restoring",
            "multiply-booth",
            "multiply-early-out",
            "divide-srt-radix-2",
            "root-non-restoring",
        ];

    private static DecidedMachine Decided(string machine)
    {
        var named = machine == Words ? Machines.Of(machine) : Machines.Named(machine);
        var datapath = machine.StartsWith("root", StringComparison.Ordinal)
            ? Machines.Bound(named, 4)
            : Machines.Bound(named, 3);
        return KnownSlips.Machine(Timeline.Of(datapath));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void What_is_printed_is_read_back_as_the_same(string machine)
    {
        var seed = Environment.TickCount;
        var decided = Decided(machine);
        var conditions = new RandomConditions(decided, new Random(seed));
        var kinds = new HashSet<Type>();
        for (var i = 0; i < 40 * conditions.Kinds; i++)
        {
            var condition = conditions.OfKind(i % conditions.Kinds, depth: 3);
            kinds.Add(condition.GetType());
            var report = new Report(null);

            var again = ConditionParser.Read(decided, $"{condition}", report);

            Assert.True(
                report.Count == 0,
                $"seed {seed}: {condition}: {string.Join(", ", report.InOrder().Select(d => d.Id))}"
            );
            Assert.True(condition.Equals(again), $"seed {seed}: {condition} became {again}");
        }
        Assert.Equal(typeof(Condition).Assembly.GetTypes().Count(t => t.BaseType == typeof(Condition)), kinds.Count);
    }

    /// <summary>Every kind on every operand, inside "given" or not.</summary>
    [Theory]
    [MemberData(nameof(Kinds))]
    public void Gates_and_numbers_agree_on_every_operand(string machine)
    {
        var seed = Environment.TickCount;
        var decided = Decided(machine);
        var gates = MachineGates.Of(decided.Datapath);
        var table = CaseTable.All(decided.Datapath);
        bool[] Anywhere(IReadOnlyList<int> literals) =>
            [
                .. table
                    .Run(PlaneProgram.Of(gates.Graph, literals), InterpretedEngine.Widest)
                    .Select(bits => Array.Exists(bits, w => w != 0)),
            ];
        var planes = new ConditionGates(decided, gates, Anywhere);
        var conditions = new RandomConditions(decided, new Random(seed));
        var drawn = Enumerable
            .Range(0, 8 * conditions.Kinds)
            .Select(i => conditions.OfKind(i % conditions.Kinds, depth: 2))
            .ToList();
        var outcomes = decided.Outcomes.ToList();
        var possible = outcomes
            .Where(o => table.Cases.Any(c => new ConditionOnNumbers(decided, c, _ => true).Shows(new Happens(o))))
            .ToList();
        Assert.Equal(
            possible,
            outcomes
                .Zip(Anywhere([.. outcomes.Select(o => planes.Literal(new Happens(o)))]))
                .Where(o => o.Second)
                .Select(o => o.First)
        );

        var bits = table.Run(PlaneProgram.Of(gates.Graph, [.. drawn.Select(planes.Literal)]), InterpretedEngine.Widest);
        var (shown, hidden) = (0, 0);
        for (var at = 0; at < table.Cases.Length; at++)
        {
            var numbers = new ConditionOnNumbers(decided, table.Cases[at], possible.Contains);
            for (var i = 0; i < drawn.Count; i++)
            {
                var isShown = numbers.Shows(drawn[i]);
                Assert.True(
                    isShown == Reckoner.Numbers.BitSets.Has(bits[i], at),
                    $"seed {seed}: {drawn[i]} for {string.Join(' ', table.Cases[at])}: numbers say {isShown}"
                );
                shown += isShown ? 1 : 0;
                hidden += isShown ? 0 : 1;
            }
        }
        Assert.True(shown > 0 && hidden > 0);
    }
}
