using System.Diagnostics;
using System.Globalization;
using System.Numerics;
using Reckoner.Checking;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Floating-point machines against arithmetic that was written elsewhere.</summary>
public class FloatingTests
{
    /// <summary>The folder of files as TestFloat writes them, each packed by xz and named as f16_mul.rnear_even.xz.</summary>
    private const string Vectors = "RECKONER_TESTFLOAT";

    private static readonly string[] ByTestFloat = ["rnear_even", "rminMag", "rmin", "rmax", "rnear_maxMag"];

    private static Floating Format(int bits) =>
        bits switch
        {
            16 => new(5, 10),
            32 => new(8, 23),
            64 => new(11, 52),
            _ => throw new ArgumentOutOfRangeException(nameof(bits)),
        };

    [Theory]
    [InlineData("multiply-floating", 3, 2, true)]
    [InlineData("divide-floating", 3, 2, false)]
    [InlineData("add-floating", 3, 2, false)]
    [InlineData("root-floating", 4, 5, false)]
    public void Every_pair_in_every_rounding_gives_what_whole_numbers_say(string machine, int e, int m, bool before) =>
        Compare(machine, new Floating(e, m, before));

    [Theory]
    [Trait("Length", "long")]
    [InlineData("multiply-floating", 4, 3, false)]
    [InlineData("multiply-floating", 5, 2, false)]
    [InlineData("multiply-floating", 5, 2, true)]
    [InlineData("divide-floating", 4, 3, false)]
    [InlineData("divide-floating", 5, 2, false)]
    [InlineData("divide-floating", 4, 3, true)]
    [InlineData("add-floating", 4, 3, false)]
    [InlineData("add-floating", 5, 2, false)]
    [InlineData("root-floating", 5, 10, false)]
    public void So_does_every_pair_of_eight_bits(string machine, int e, int m, bool before) =>
        Compare(machine, new Floating(e, m, before));

    private static void Compare(string machine, Floating format)
    {
        var unit = new FloatingUnit(machine, format);
        var compared = 0;
        foreach (var (operands, results) in unit.Run(TwinFiles.AllOperands(unit.Datapath).Where(unit.Datapath.IsGiven)))
        {
            var right = format.Of(machine, operands);
            compared++;
            if (right != (results[0], unit.FlagsOf(results)))
            {
                Assert.Fail($"{string.Join(" ", operands)}: {results[0]:X} {unit.FlagsOf(results)}, not {right}");
            }
        }
        Assert.Equal((1 << unit.Datapath.Operands.Sum(o => o.Width)) / 8 * Floating.Roundings, compared);
    }

    public static TheoryData<string, string, int, int> Files
    {
        get
        {
            var files = new TheoryData<string, string, int, int>();
            foreach (
                var (machine, operation) in new[]
                {
                    ("multiply", "mul"),
                    ("divide", "div"),
                    ("root", "sqrt"),
                    ("add", "add"),
                }
            )
            {
                for (var rounding = 0; rounding < Floating.Roundings; rounding++)
                {
                    files.Add($"{machine}-floating", operation, 16, rounding);
                }
                files.Add($"{machine}-floating", operation, 32, 0);
                files.Add($"{machine}-floating", operation, 64, 0);
            }
            files.Add("add-floating", "sub", 16, 0);
            return files;
        }
    }

    /// <summary>A line: the operands, the result, the flags (16 invalid, 8 by zero, 4 overflow, 2 underflow, 1 inexact).</summary>
    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Files))]
    public void Every_vector_of_TestFloat_is_right(string machine, string operation, int bits, int rounding)
    {
        var folder = Environment.GetEnvironmentVariable(Vectors) ?? "";
        var file = Path.Combine(folder, $"f{bits}_{operation}.{ByTestFloat[rounding]}.xz");
        Assert.SkipUnless(folder.Length > 0 && File.Exists(file), "not applicable: vectors of TestFloat");
        var unit = new FloatingUnit(machine, Format(bits));
        // A pair may stand there twice.
        var lines = Lines("xz", ["-dc", file], "");
        var expected = lines
            .Distinct()
            .Select(l => l.Split(' ').Select(Code).ToArray())
            .ToDictionary(l => Spoken(unit.Case(l, operation == "sub" ? 1 : 0, rounding)));
        var cases = expected.Values.Select(l => unit.Case(l, operation == "sub" ? 1 : 0, rounding));
        var compared = 0;
        foreach (var (operands, results) in unit.Run(cases))
        {
            var line = expected[Spoken(operands)];
            var (code, flags) = (line[^2], (int)line[^1]);
            compared++;
            // Which NaN comes out the standard leaves open, and these files take another.
            var isSame = Format(bits).IsNoNumber(code) ? results[0] == Format(bits).NoNumber : results[0] == code;
            var raised = new Flags(
                (flags & 16) > 0,
                (flags & 8) > 0,
                (flags & 4) > 0,
                (flags & 2) > 0,
                (flags & 1) > 0
            );
            if (!isSame || unit.FlagsOf(results) != raised)
            {
                Assert.Fail($"{Spoken(operands)}: {results[0]:X} {unit.FlagsOf(results)}, not {code:X} {raised}");
            }
        }
        Assert.Equal(expected.Count, compared);
        Assert.True(lines.Count > 100, $"only {lines.Count} lines");
    }

    private static string Spoken(BigInteger[] operands) => string.Join(' ', operands.Select(o => $"{o:X}"));

    [Theory]
    [InlineData("multiply-floating", "mul", 32, 1000)]
    [InlineData("divide-floating", "div", 16, 1000)]
    [InlineData("add-floating", "add", 16, 2000)]
    [InlineData("root-floating", "sqrt", 32, 1000)]
    public void Random_operands_give_what_MPFR_gives(string machine, string operation, int bits, int count) =>
        CompareWithMpfr(machine, operation, bits, count);

    [Theory]
    [Trait("Length", "long")]
    [InlineData("multiply-floating", "mul", 16, 1_000_000)]
    [InlineData("multiply-floating", "mul", 32, 100_000)]
    [InlineData("multiply-floating", "mul", 64, 20_000)]
    [InlineData("divide-floating", "div", 16, 1_000_000)]
    [InlineData("divide-floating", "div", 32, 100_000)]
    [InlineData("add-floating", "add", 16, 1_000_000)]
    [InlineData("add-floating", "add", 32, 100_000)]
    [InlineData("root-floating", "sqrt", 16, 100_000)]
    [InlineData("root-floating", "sqrt", 32, 100_000)]
    public void Hundreds_of_thousands_do(string machine, string operation, int bits, int count) =>
        CompareWithMpfr(machine, operation, bits, count);

    private static void CompareWithMpfr(string machine, string operation, int bits, int count)
    {
        Assert.SkipUnless(Directory.Exists("/usr/lib/python3/dist-packages/gmpy2"), "not applicable: gmpy2 is missing");
        var seed = Seeds.Next();
        var random = new Random(seed);
        var format = Format(bits);
        var unit = new FloatingUnit(machine, format);
        // MPFR knows no ties away from zero.
        var cases = Enumerable
            .Range(0, count)
            .Select(_ => unit.Case([Number(random, format), Number(random, format)], 0, random.Next(4)))
            .DistinctBy(Spoken)
            .ToList();
        var numbers = operation == "sqrt" ? 1 : 2;
        var input = string.Concat(cases.Select(c => $"{Spoken([.. c.Take(numbers), c[^1]])}\n"));
        var script = Sources.File("tests/twin/mpfr.py");
        var said = Lines("/usr/bin/python3", [script, operation, $"{format.E}", $"{format.M}"], input);
        Assert.Equal(cases.Count, said.Count);
        var expected = cases.Zip(said).ToDictionary(p => Spoken(p.First), p => p.Second);
        foreach (var (operands, results) in unit.Run(cases))
        {
            // Whether what is tiny is inexact MPFR tells in its own way; the other flags are the standard's.
            var code = format.IsNoNumber(results[0]) ? "NaN" : results[0].ToString("X").TrimStart('0').PadLeft(1, '0');
            var raised = unit.FlagsOf(results);
            bool[] told = [raised.Invalid, raised.Infinite, raised.Overflow, raised.Inexact];
            var all = $"{code} {string.Concat(told.Select(f => f ? 1 : 0))}";
            if (all != expected[Spoken(operands)])
            {
                Assert.Fail($"{Spoken(operands)}: {all}, not {expected[Spoken(operands)]} (RECKONER_SEED={seed})");
            }
        }
    }

    public static TheoryData<string, string, string> WrongOnes =>
        [
            .. MarkdownPage
                .Of("docs/handbook/catalogue.md")
                .Table("Floating point")
                .Select(row => (row[0], row[1], row[2])),
        ];

    /// <summary>At m = 3, e = 4, as the descriptions have them: all roundings too.</summary>
    [Theory]
    [InlineData("multiply-floating", 327_680)]
    [InlineData("add-floating", 655_360)]
    [InlineData("divide-floating", 327_680)]
    [InlineData("root-floating", 1_280)]
    public void The_laws_hold_for_all_operands_of_eight_bits(string machine, int cases)
    {
        var check = CheckProgram.Of(Machines.Bound(Machines.Named(machine)), null, OracleUse.Written);
        var run = new CheckRun(check, InterpretedEngine.Widest);
        run.Run(0, check.Space.Steps, TestContext.Current.CancellationToken);
        Assert.Equal((cases, 0), ((int)run.Counts[0].Cases, (int)run.Counts[0].Failures));
    }

    [Theory]
    [MemberData(nameof(WrongOnes))]
    public void The_handbook_tells_how_often_and_where_first_one_is_wrong(string machine, string often, string first)
    {
        var datapath = Machines.Bound(Machines.Named(machine));
        var check = CheckProgram.Of(datapath, null, OracleUse.Written);
        var run = new CheckRun(check, InterpretedEngine.Widest);
        run.Run(0, check.Space.Steps, TestContext.Current.CancellationToken);
        var laws = run.Counts[0];
        var smallest = datapath.Operands.Zip(laws.Smallest!.Operands, (o, number) => $"{o.Name} = {number}");
        Assert.Equal(often, $"{Grouped(laws.Failures)} of {Grouped(laws.Cases)}");
        Assert.Equal(first, string.Join(", ", smallest));
    }

    private static string Grouped(BigInteger number) => Words.Vocabulary.Grouped(number);

    /// <summary>Any code, and as often one near the ends of the exponents, of a fraction of few ones.</summary>
    private static BigInteger Number(Random random, Floating format)
    {
        var fraction = random.Next(4) switch
        {
            0 => BigInteger.One << random.Next(format.M),
            1 => (BigInteger.One << format.M) - (BigInteger.One << random.Next(format.M)),
            _ => new BigInteger(random.NextInt64()) & ((BigInteger.One << format.M) - 1),
        };
        var special = (1 << format.E) - 1;
        var field = random.Next(3) switch
        {
            0 => random.Next(3),
            1 => special - random.Next(3),
            _ => random.Next(special + 1),
        };
        return ((BigInteger)random.Next(2) << (format.E + format.M)) + ((BigInteger)field << format.M) + fraction;
    }

    private static BigInteger Code(string hexadecimal) =>
        BigInteger.Parse("0" + hexadecimal, NumberStyles.HexNumber, CultureInfo.InvariantCulture);

    private static List<string> Lines(string program, string[] arguments, string input)
    {
        using var process = Process.Start(
            new ProcessStartInfo(program, arguments) { RedirectStandardInput = true, RedirectStandardOutput = true }
        )!;
        var writing = Task.Run(() =>
        {
            process.StandardInput.Write(input);
            process.StandardInput.Close();
        });
        var lines = new List<string>();
        while (process.StandardOutput.ReadLine() is { } line)
        {
            lines.Add(line);
        }
        writing.Wait();
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
        return lines;
    }
}
