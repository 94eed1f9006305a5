using System.Numerics;
using Reckoner.Catalogue;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Tests;

namespace Reckoner.Cli.Tests;

/// <summary>A drawn machine in a folder of its own, with what can be asked about it.</summary>
internal sealed class DrawnFiles : IDisposable
{
    private readonly Random random;
    private readonly Lazy<Datapath?> datapath;

    public DrawnFiles(RandomMachine drawn, int seed)
    {
        random = new Random(seed);
        Folder = Path.GetFullPath($"drawn-{Path.GetRandomFileName()}");
        Directory.CreateDirectory(Folder);
        foreach (var (name, text) in drawn.Beside.Append((drawn.Name, drawn.Text)))
        {
            File.WriteAllText(Path.Combine(Folder, name + ".machine"), text);
        }
        Machine = Path.Combine(Folder, drawn.Name + ".machine");
        Second = drawn.Beside.Count > 0 ? Path.Combine(Folder, drawn.Beside[0].Name + ".machine") : Machine;
        datapath = new(() =>
            Binding.Machine.Read(new Source(drawn.Name, drawn.Text), name => Beside(drawn, name)).At().Datapath
        );
    }

    private static Source? Beside(RandomMachine drawn, string name) =>
        drawn.Beside.Where(b => b.Name == name).Select(b => new Source(name, b.Text)).FirstOrDefault()
        ?? MachineCatalogue.Find(name);

    public string Folder { get; }

    public string Machine { get; }

    /// <summary>Another one to stand beside it.</summary>
    public string Second { get; }

    /// <summary>The bits of all operands together.</summary>
    public int OperandBits => datapath.Value!.Operands.Sum(o => o.Width);

    public string At(string file) => Path.Combine(Folder, file);

    /// <summary>Operands inside "given", if some are soon found.</summary>
    public IReadOnlyList<string> Operands()
    {
        if (datapath.Value is not { } hardware)
        {
            return [];
        }
        var operands = Words(hardware);
        for (var tries = 0; tries < 20 && !hardware.IsGiven(operands); tries++)
        {
            operands = Words(hardware);
        }
        return [.. hardware.Operands.Select(o => $"{o.Number(operands[o.Index])}")];
    }

    private BigInteger[] Words(Datapath hardware) =>
        [
            .. hardware.Operands.Select(o =>
                Bits.Wrap(new BigInteger(random.NextInt64()) * random.NextInt64() + random.Next(4), o.Width)
            ),
        ];

    /// <summary>Widths in the ranges of the machine, or for a check a few of them; some of them have no such machine.</summary>
    public string Widths(bool isRange)
    {
        if (datapath.Value is not { } hardware)
        {
            return "1";
        }
        var usual = hardware.Widths[0].Value;
        return random.Next(3) switch
        {
            0 => $"{hardware.Widths[0].Name}={usual}",
            1 when isRange && usual < 10 => $"{usual - 1}..{usual}",
            _ => $"{usual + random.Next(2)}",
        };
    }

    /// <summary>A condition on walks; the last ones need a result or a decision, and all have one.</summary>
    public string Condition()
    {
        var names = datapath.Value?.Results.Select(r => r.Name).ToList() ?? [];
        return random.Next(5) switch
        {
            0 when names.Count > 0 => $"{names[0]} is odd",
            1 when names.Count > 0 => $"{names[^1]} > 1 or {names[0]} = 0",
            2 => "every outcome happens",
            3 => "at most 3 cycles and operands have exactly 1 digit",
            _ => "always",
        };
    }

    /// <summary>What could hold in every round, or is no formula, or speaks of what is not there.</summary>
    public string Invariant()
    {
        var register = datapath.Value?.Registers.Select(r => r.Name).FirstOrDefault() ?? "R";
        return random.Next(5) switch
        {
            0 => $"{register} = 0",
            1 => $"{register}[0] <= 2^i and 1 = 1",
            2 => $"{register} < 2^(2n",
            3 => "nothing >= 3",
            _ => $"-1 < {register} * {register}",
        };
    }

    /// <summary>The name of a slip that the machine has, if it has any.</summary>
    public string Slip()
    {
        var slips = datapath.Value is { } hardware ? Slips.Slip.Of(hardware.Machine) : [];
        return slips.Count == 0 ? "none" : slips[random.Next(slips.Count)].Name;
    }

    /// <summary>A result or a register that somebody got, be it right or wrong.</summary>
    public string Got()
    {
        var result = datapath.Value?.Results.Select(r => r.Name).FirstOrDefault() ?? "R";
        return datapath.Value is { Registers: [var register, ..] } && random.Next(2) == 0
            ? $"cycle 0: {register.Name}=0b1"
            : $"{result}=0";
    }

    /// <summary>A table with a row or two of it.</summary>
    public string Model()
    {
        var file = At("drawn.model");
        File.WriteAllLines(file, ["choice area 2 gates delay 1 gates", "table-bit area 1 gates delay 3 gates"]);
        return file;
    }

    public string Table()
    {
        var file = At("table-of-somebody.csv");
        var registers = datapath.Value?.Registers.Select(r => r.Name) ?? ["R"];
        string[] heads = ["cycle", .. registers];
        File.WriteAllLines(
            file,
            [
                string.Join(',', heads),
                string.Join(',', heads.Select((_, i) => i == 0 ? "load" : "0")),
                string.Join(',', heads.Select(_ => "1")),
            ]
        );
        return file;
    }

    /// <summary>A link that sets a task on it.</summary>
    public string Task() => $"#text={Classroom.PackedText.Of(File.ReadAllText(Machine))}&task={Pick("all", "bits")}";

    /// <summary>The answers of one sheet with one place.</summary>
    public string Answers()
    {
        var file = At("answers.json");
        File.WriteAllText(
            file,
            """
            {"format": 1, "title": "One", "language": "en", "questions": [{"question": 1, "task": "say", "marks": "2"}],
             "sheets": [{"sheet": "000-000", "identifier": "x1", "name": "", "answers": [{"question": 1, "tables": [],
             "fields": [{"name": "quotient", "label": "quotient", "expected": "4"}]}]}]}
            """
        );
        return file;
    }

    /// <summary>A list of two.</summary>
    public string Class()
    {
        var file = At("class.csv");
        File.WriteAllText(file, "id,name\nx1,One\nx2,Two\n");
        return file;
    }

    /// <summary>So many sheets as of a lesson lie in a folder already, whose operands a second sheet avoids.</summary>
    public string First(string folder)
    {
        const string Copies = "1";
        Command.Run("lesson", At("lesson.md"), "--copies", Copies, "-o", At(folder));
        return Copies;
    }

    /// <param name="asks">Whether it has a question.</param>
    public string Lesson(bool asks)
    {
        var file = At("lesson.md");
        var (machine, second) = (Path.GetFileName(Machine), Path.GetFileName(Second));
        var requests = RequestDefaults
            .Of(new(null, null, null, null, null, [], null, null), Folder)
            .Verbs.OrderBy(_ => random.Next())
            .Take(1)
            .Select(verb =>
                verb.TakesView ? $"draw {Pick("weave", "table", "datapath")}"
                : verb.TakesMachines ? $"{verb.Name} ./{machine} ./{second}"
                : verb.Own.Contains(Option.Got) ? $"{verb.Name} --got {Got().Split(' ')[^1]}"
                : verb.Own.Contains(Option.Quick) ? $"{verb.Name} --quick"
                : verb.Name
            );
        File.WriteAllText(
            file,
            $"""
            ---
            machine: ./{machine}
            operands: {string.Join(' ', Operands())}
            ---

            # A lesson

            ```reckoner
            {string.Join('\n', requests)}
            ```

            {(asks ? "```question\nfill walk drawn\nrepeats\n```" : "")}

            """
        );
        return file;
    }

    /// <summary>The results of two parts of a check, to be added up.</summary>
    public IReadOnlyList<string> Parts()
    {
        var files = new[] { At("part-1.json"), At("part-2.json") };
        for (var part = 0; part < files.Length; part++)
        {
            Command.Run("check", Machine, "--part", $"{part + 1}/2", "--format", "json", "-o", files[part]);
        }
        return files;
    }

    /// <summary>A certificate of it where it can be proved, else what looks like one.</summary>
    public string Certificate()
    {
        var file = At("certificate.json");
        Command.Run("prove", Machine, "--format", ProveVerb.Certificate, "-o", file);
        if (!File.Exists(file))
        {
            File.WriteAllText(file, "{}");
        }
        return file;
    }

    public string Pick(params string[] choices) => choices[random.Next(choices.Length)];

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
