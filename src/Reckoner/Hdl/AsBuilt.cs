using System.Globalization;
using System.Numerics;
using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Structure;

namespace Reckoner.Hdl;

/// <summary>
/// Writes a machine in Verilog (IEEE 1364-2005) as it is built: every register with the choice before it, every unit once, as the
/// gates that its costs are counted by, with the choices before its inputs, every other gate where it stands. Nothing is left to a
/// tool: there is no + and no case in it.
/// </summary>
internal sealed class AsBuilt
{
    private readonly HdlText text = new("//");
    private readonly HdlModule module;
    private readonly MachineStructure structure;
    private readonly CostedParts parts;
    private readonly HdlNames names = new();
    private readonly Dictionary<Net, string> nets = [];
    private readonly Dictionary<(Unit, UnitOutput), string> outputs = [];
    private readonly List<string> places;

    /// <summary>By the number of a state one bit: whether it is the one of this cycle.</summary>
    private readonly List<string> acting = [];

    /// <summary>Of each early stop one bit: whether its loop asks in this cycle.</summary>
    private readonly List<string> asking = [];

    private AsBuilt(HdlModule module, AdderChoice adders)
    {
        this.module = module;
        structure = MachineStructure.Of(module.Datapath);
        parts = new CostedParts(structure, CostModel.UnitGates, adders);
        places = [module.Idle, module.Finished, .. module.States.Select(s => s.Name)];
        string[] taken =
        [
            .. HdlModule.Surround,
            module.Name,
            .. module.Operands.Select(o => o.Name),
            .. module.Results.Select(r => r.Name),
            .. module.Registers.SelectMany(r => new[] { r.Name, r.Next }),
            .. places,
        ];
        foreach (var name in taken)
        {
            names.New(name);
        }
    }

    /// <param name="ports">Writes the head of the module.</param>
    public static string Of(HdlModule module, AdderChoice adders, IReadOnlyList<string> head, Action<HdlText> ports)
    {
        var built = new AsBuilt(module, adders);
        foreach (var line in head)
        {
            built.text.Remark(line);
        }
        ports(built.text);
        built.text.Inside(built.Write);
        built.text.Line("endmodule");
        return built.text.ToString();
    }

    private void Write()
    {
        Declare();
        Control();
        foreach (var net in structure.Nets.Where(n => nets.ContainsKey(n)))
        {
            Gate(net);
        }
        foreach (var unit in parts.Units.Values)
        {
            Unit(unit);
        }
        foreach (var register in structure.Registers)
        {
            Register(register);
        }
        foreach (var result in module.Results)
        {
            text.Line($"assign {result.Name} = {VerilogWords.Of(result.Word)};");
        }
    }

    // ---- names

    private int PlaceBits => BitOperations.Log2((uint)places.Count - 1) + 1;

    private void Declare()
    {
        var place = VerilogWords.Range(PlaceBits);
        text.Line($"reg {place}{HdlModule.At};");
        text.Line($"wire {place}{HdlModule.Here}, {HdlModule.ThenAt};");
        if (module.RoundBits > 0)
        {
            var round = VerilogWords.Range(module.RoundBits);
            text.Line($"reg {round}{HdlModule.Round};");
            text.Line($"wire {round}{HdlModule.Turn}, {HdlModule.ThenRound};");
        }
        foreach (var register in module.Registers)
        {
            text.Line($"reg {VerilogWords.Range(register.Width)}{register.Name};", register.Said);
        }
        foreach (
            var net in structure.Nets.Where(n => n.Kind is not (NetKind.Operand or NetKind.Register or NetKind.Unit))
        )
        {
            nets[net] = Wire(net.Kind.ToString().ToLowerInvariant(), net.Width);
        }
        foreach (var unit in parts.Units.Values)
        {
            foreach (var net in unit.Structure.Outputs)
            {
                outputs[(unit.Structure.Unit, net.Output)] = Wire(
                    $"{unit.Structure.Unit.Name ?? "unit"}_{net.Output}".ToLowerInvariant(),
                    net.Width
                );
            }
        }
        foreach (var state in structure.States)
        {
            acting.Add(Wire("in_" + (state.Number == 0 ? "load" : module.States[state.Number - 1].Name), 1));
        }
        foreach (var _ in structure.EarlyStops)
        {
            asking.Add(Wire("asks", 1));
        }
    }

    private string Wire(string wanted, int width)
    {
        var name = names.New(wanted);
        text.Line($"wire {VerilogWords.Range(width)}{name};");
        return name;
    }

    private string Name(Net net) =>
        net.Kind switch
        {
            NetKind.Operand => module.Operands[net.Operand!.Index].Name,
            NetKind.Register => module.Registers[net.Register!.Index].Name,
            NetKind.Unit => outputs[(net.Unit!, net.Output)],
            NetKind.Last
            or NetKind.And
            or NetKind.Or
            or NetKind.Xor
            or NetKind.Not
            or NetKind.Equal
            or NetKind.Choice
            or NetKind.Lookup => nets[net],
        };

    private string Word(Bundle bundle) =>
        bundle.Stretches.Count == 1
            ? Stretched(bundle.Stretches[0])
            : "{" + string.Join(", ", bundle.Stretches.Select(Stretched)) + "}";

    private string Stretched(Stretch s) =>
        s.Net is not { } net ? VerilogWords.Literal(s.Width, s.Bits)
        : s.Times > 1 ? $"{{{s.Times}{{{Part(net, s.High, s.Low)}}}}}"
        : Part(net, s.High, s.Low);

    private string Part(Net net, int high, int low) =>
        net.Width == 1 ? Name(net)
        : high == low ? $"{Name(net)}[{low}]"
        : $"{Name(net)}[{high}:{low}]";

    private string Bit(Bundle bundle, int place) => Word(bundle.Part(place, 1));

    // ---- which state

    private string Code(string place) => VerilogWords.Literal(PlaceBits, places.IndexOf(place));

    /// <summary>One bit: whether a register of the control unit holds a number, as a product of its bits.</summary>
    private static string Holds(string register, int width, int number) =>
        string.Join(
            " & ",
            Enumerable
                .Range(0, width)
                .Select(i => (((number >> i) & 1) == 1 ? "" : "~") + (width == 1 ? register : $"{register}[{i}]"))
        );

    private string Stands(string register, string place) => Holds(register, PlaceBits, places.IndexOf(place));

    private void Control()
    {
        text.Line();
        var (at, turn) = (HdlModule.At, HdlModule.Round);
        foreach (var (i, stop) in module.EarlyStops.Index())
        {
            text.Line($"assign {asking[i]} = {Stands(at, stop.First)};");
            var leaves = $"({asking[i]} & ~{When([structure.EarlyStops[i].Goes])})";
            var (next, nextTurn) = (Wire("left_at", PlaceBits), Wire("left_round", module.RoundBits));
            text.Line($"assign {next} = {leaves} ? {Code(stop.On)} : {at};");
            text.Line($"assign {nextTurn} = {leaves} ? {VerilogWords.Literal(module.RoundBits, 1)} : {turn};");
            (at, turn) = (next, nextTurn);
        }
        text.Line($"assign {HdlModule.Here} = {at};");
        var done = Stands(HdlModule.Here, module.Finished);
        text.Line($"assign {HdlModule.Done} = {done};");
        text.Line($"assign {HdlModule.Busy} = ~({done}) & ~({Stands(HdlModule.Here, module.Idle)});");
        text.Line($"assign {acting[0]} = {HdlModule.Start} & ~{HdlModule.Busy};");
        foreach (var (i, state) in module.States.Index())
        {
            text.Line($"assign {acting[i + 1]} = {Stands(HdlModule.Here, state.Name)};");
        }
        if (module.RoundBits > 0)
        {
            text.Line($"assign {HdlModule.Turn} = {turn};");
        }
        Follows();
    }

    private void Follows()
    {
        var (to, round) = ($"{acting[0]} ? {Code(module.First)} : ", "");
        var one = VerilogWords.Literal(Math.Max(1, module.RoundBits), 1);
        var more = module.RoundBits > 0 ? More() : "";
        foreach (var (i, state) in module.States.Index())
        {
            var last = $"({Holds(HdlModule.Turn, module.RoundBits, state.Rounds)})";
            var on = state.Again is null ? Code(state.On) : $"({last} ? {Code(state.On)} : {Code(state.Again)})";
            to += $"{acting[i + 1]} ? {on} : ";
            // The round is kept inside it, counted at its end, and begins with 1 again.
            round +=
                state.Again is not null ? $"{acting[i + 1]} & ~{last} ? {more} : "
                : state.Rounds > 1 ? $"{acting[i + 1]} ? {HdlModule.Turn} : "
                : "";
        }
        text.Line($"assign {HdlModule.ThenAt} = {to}{Code(module.Idle)};");
        if (module.RoundBits > 0)
        {
            text.Line($"assign {HdlModule.ThenRound} = {round}{one};");
        }
        var begins = $"({HdlModule.Reset} | {HdlModule.Cancel})";
        Edge(
            $"{HdlModule.At} <= {begins} ? {Code(module.Idle)} : {HdlModule.ThenAt};",
            module.RoundBits > 0 ? $"{HdlModule.Round} <= {HdlModule.ThenRound};" : null
        );
    }

    /// <summary>The round and one, by half adders.</summary>
    private string More()
    {
        var (more, carry) = (Wire("more", module.RoundBits), Wire("more_carry", module.RoundBits));
        var turn = module.RoundBits == 1 ? HdlModule.Turn : "";
        text.Line($"assign {At(carry, 0)} = {Turn(0)};");
        text.Line($"assign {At(more, 0)} = ~{Turn(0)};");
        for (var i = 1; i < module.RoundBits; i++)
        {
            text.Line($"assign {At(more, i)} = {Turn(i)} ^ {At(carry, i - 1)};");
            text.Line($"assign {At(carry, i)} = {Turn(i)} & {At(carry, i - 1)};");
        }
        return more;

        string At(string word, int i) => module.RoundBits == 1 ? word : $"{word}[{i}]";

        string Turn(int i) => turn.Length > 0 ? turn : $"{HdlModule.Turn}[{i}]";
    }

    private void Edge(params string?[] lines) =>
        text.Inside(
            $"always @(posedge {HdlModule.Clock}) begin",
            () =>
            {
                foreach (var line in lines.OfType<string>())
                {
                    text.Line(line);
                }
            },
            "end"
        );

    /// <summary>One bit: whether all is so that must be.</summary>
    private string When(IReadOnlyList<Guard> guards) =>
        guards.Count == 0 ? "1'b1" : "(" + string.Join(" & ", guards.Select(When)) + ")";

    private string When(Guard guard) =>
        guard.Arms.Count == 0
            ? (guard.IsTurned ? "~" : "") + Word(guard.Word)
            : string.Join(
                " & ",
                Enumerable
                    .Range(0, guard.Arm + 1)
                    .Where(i => !guard.Arms[i].IsElse)
                    .Select(i => (i == guard.Arm ? "" : "~") + Matches(guard.Word, guard.Arms[i]))
                    .DefaultIfEmpty("1'b1")
            );

    private string Matches(Bundle word, ArmPatterns arm) =>
        "(" + string.Join(" | ", arm.Patterns.Select(p => Matches(word, p))) + ")";

    private string Matches(Bundle word, Pattern pattern) =>
        "("
        + string.Join(
            " & ",
            Enumerable
                .Range(0, word.Width)
                .Where(i => !((pattern.Mask >> i) & 1).IsZero)
                .Select(i => (((pattern.Bits >> i) & 1).IsZero ? "~" : "") + Bit(word, i))
                .DefaultIfEmpty("1'b1")
        )
        + ")";

    // ---- gates, units, registers

    private void Gate(Net net)
    {
        if (net.Kind == NetKind.Lookup)
        {
            var gates = parts.Tables[net.Table!];
            var made = Gates(gates.Net, "cell", gates.Bits, i => Bit(net.Inputs[0], i));
            text.Line($"assign {nets[net]} = {{{string.Join(", ", gates.Bits.Reverse().Select(made))}}};");
            return;
        }
        text.Line($"assign {nets[net]} = {Given(net)};");
    }

    private string Given(Net net) =>
        net.Kind switch
        {
            NetKind.And => $"{Word(net.Inputs[0])} & {Word(net.Inputs[1])}",
            NetKind.Or => $"{Word(net.Inputs[0])} | {Word(net.Inputs[1])}",
            NetKind.Xor => $"{Word(net.Inputs[0])} ^ {Word(net.Inputs[1])}",
            NetKind.Not => $"~{Word(net.Inputs[0])}",
            NetKind.Equal => string.Join(
                " & ",
                Enumerable
                    .Range(0, net.Inputs[0].Width)
                    .Select(i => Same(net.Inputs[0].Part(i, 1), net.Inputs[1].Part(i, 1)))
            ),
            NetKind.Choice => Chosen(net),
            NetKind.Last => Last(),
            NetKind.Operand or NetKind.Register or NetKind.Unit or NetKind.Lookup =>
                throw new InvalidOperationException($"{net.Kind} is no gate"),
        };

    private string Same(Bundle a, Bundle b) =>
        (Constant(a), Constant(b)) switch
        {
            ({ } x, { } y) => x == y ? "1'b1" : "1'b0",
            (null, null) => $"~({Word(a)} ^ {Word(b)})",
            (null, true) => Word(a),
            (null, false) => $"~{Word(a)}",
            (true, null) => Word(b),
            (false, null) => $"~{Word(b)}",
        };

    /// <summary>A place in which a word is constant needs a gate, and one in which both are, none.</summary>
    private string Chosen(Net net)
    {
        var condition = Word(net.Inputs[0]);
        var (one, zero) = (net.Inputs[1], net.Inputs[2]);
        if (one.Stretches.Concat(zero.Stretches).All(s => s.Net is not null))
        {
            return $"{condition} ? {Word(one)} : {Word(zero)}";
        }
        var bits = Enumerable
            .Range(0, net.Width)
            .Reverse()
            .Select(i => Chosen(condition, one.Part(i, 1), zero.Part(i, 1)));
        return "{" + string.Join(", ", bits) + "}";
    }

    private string Chosen(string condition, Bundle one, Bundle zero) =>
        (Constant(one), Constant(zero)) switch
        {
            (true, true) => "1'b1",
            (false, false) => "1'b0",
            (true, false) => condition,
            (false, true) => $"~{condition}",
            (true, null) => $"{condition} | {Word(zero)}",
            (false, null) => $"~{condition} & {Word(zero)}",
            (null, true) => $"~{condition} | {Word(one)}",
            (null, false) => $"{condition} & {Word(one)}",
            (null, null) => $"{condition} ? {Word(one)} : {Word(zero)}",
        };

    private static bool? Constant(Bundle bit) => bit.Stretches[0].Net is null ? bit.Stretches[0].Bits.IsOne : null;

    /// <summary>In the last round of a loop of fixed count.</summary>
    private string Last() =>
        string.Join(
            " | ",
            structure
                .Datapath.Schedule.Where(s => s is { IsLoop: true, While: null, Count: > 0 })
                .Select(s =>
                    $"({Holds(HdlModule.Turn, module.RoundBits, s.Count)} & ("
                    + string.Join(" | ", s.Steps.Select(step => acting[step.Number]))
                    + "))"
                )
                .DefaultIfEmpty("1'b0")
        );

    private void Unit(CostedUnit unit)
    {
        var called = unit.Structure.Unit.Name ?? "unit";
        var asked = structure
            .EarlyStops.SelectMany(
                (e, i) =>
                    e
                        .Settings.Where(s => s.Unit == unit.Structure.Unit)
                        .Select(s => (Setting: s, When: $"({asking[i]} & {When(s.When)})"))
            )
            .ToList();
        var told = unit
            .Structure.Settings.Where(s => s.Moment > 0)
            .Select(s => (Setting: s, When: $"({acting[s.State]} & {When(s.When)})"))
            .ToList();
        var inputs = new List<(string Name, int Width)>();
        for (var i = 0; i < unit.Inputs.Count; i++)
        {
            // Where a loop asks, that is known from the state alone, and which state acts only from the answer.
            var words = unit.Inputs[i]
                .OrderBy(w => asked.Exists(t => t.Setting.Operands[i].Equals(w)) ? 0 : 1)
                .ToList();
            var input = Wire($"{called}_takes", words[0].Width);
            inputs.Add((input, words[0].Width));
            var choices = words
                .SkipLast(1)
                .Select(w =>
                {
                    var when = asked.Concat(told).Where(t => t.Setting.Operands[i].Equals(w)).Select(t => t.When);
                    return $"({string.Join(" | ", when.DefaultIfEmpty("1'b0"))}) ? {Word(w)} : ";
                });
            text.Line($"assign {input} = {string.Concat(choices)}{Word(words[^1])};");
        }
        if (unit.Gates.IsTold)
        {
            var input = Wire($"{called}_told", 1);
            inputs.Add((input, 1));
            var known = asked.Select(t => $"{t.When} ? {(IsOther(t.Setting) ? "1'b1" : "1'b0")} : ");
            var when = told.Where(t => IsOther(t.Setting)).Select(t => t.When).DefaultIfEmpty("1'b0");
            text.Line($"assign {input} = {string.Concat(known)}{string.Join(" | ", when)};");
        }
        var bits = inputs.SelectMany(i =>
            Enumerable.Range(0, i.Width).Select(bit => i.Width == 1 ? i.Name : $"{i.Name}[{bit}]")
        );
        var taken = unit.Structure.Outputs.SelectMany(o => unit.Gates[o.Output]);
        var each = bits.ToList();
        var made = Gates(unit.Gates.Net, $"{called}_gate", taken, i => each[i]);
        foreach (var net in unit.Structure.Outputs)
        {
            var word = unit.Gates[net.Output].Reverse().Select(made);
            text.Line($"assign {outputs[(unit.Structure.Unit, net.Output)]} = {{{string.Join(", ", word)}}};");
        }
    }

    /// <summary>Of the two things that a unit may be told, the one that is told by a 1.</summary>
    private static bool IsOther(UnitSetting setting) =>
        setting.Function is UnitFunction.Subtract or UnitFunction.MultiplySigned;

    /// <summary>Gates as they stand in a net of them.</summary>
    /// <returns>What a place of the net is called.</returns>
    private Func<int, string> Gates(GateNet net, string wanted, IEnumerable<int> outputs, Func<int, string> input)
    {
        var needed = net.Needed(outputs);
        var gates = needed.Where(g => g.Kind is not (GateKind.Input or GateKind.Constant)).ToList();
        var name = gates.Count > 0 ? Wire(wanted, gates.Count) : "";
        var called = needed.Where(g => g.Kind == GateKind.Input).ToDictionary(g => g.Place, g => input(g.A));
        called[GateNet.Zero] = "1'b0";
        called[GateNet.One] = "1'b1";
        foreach (var (i, gate) in gates.Index())
        {
            called[gate.Place] = gates.Count == 1 ? name : $"{name}[{i.ToString(CultureInfo.InvariantCulture)}]";
            var (a, b, c) = (Called(gate.A), Called(gate.B), Called(gate.C));
            var says = gate.Kind switch
            {
                GateKind.And => $"{a} & {b}",
                GateKind.Or => $"{a} | {b}",
                GateKind.Xor => $"{a} ^ {b}",
                GateKind.Not => $"~{a}",
                GateKind.Choice => $"{a} ? {b} : {c}",
                GateKind.Sum => $"{a} ^ {b} ^ {c}",
                GateKind.Carry => $"({a} & {b}) | ({c} & ({a} | {b}))",
                GateKind.Constant or GateKind.Input => throw new InvalidOperationException("no gate"),
            };
            text.Line($"assign {called[gate.Place]} = {says};");
        }
        return Called;

        string Called(int place) => called[place];
    }

    private void Register(RegisterStructure register)
    {
        var (own, next) = (
            module.Registers[register.Register.Index].Name,
            module.Registers[register.Register.Index].Next
        );
        text.Line($"wire {VerilogWords.Range(register.Register.Width)}{next};");
        foreach (var field in register.Fields)
        {
            var part =
                register.Register.Width == 1 ? ""
                : field.Width == 1 ? $"[{field.Low}]"
                : $"[{field.High}:{field.Low}]";
            var words = register.Stored.Select(s => s.Part(field.Low, field.Width)).ToList();
            var choices = field
                .Sources.Select(source =>
                    (
                        Word: Word(source),
                        When: string.Join(
                            " | ",
                            structure.States.Where(s => words[s.Number].Equals(source)).Select(s => acting[s.Number])
                        )
                    )
                )
                .ToList();
            if (choices.Count == 0)
            {
                text.Line($"assign {next}{part} = {own}{part};");
                continue;
            }
            var chosen = string.Concat(choices.SkipLast(1).Select(c => $"({c.When}) ? {c.Word} : "));
            text.Line($"assign {next}{part} = {chosen}{choices[^1].Word};");
            Edge($"if ({string.Join(" | ", choices.Select(c => c.When))}) {own}{part} <= {next}{part};");
        }
    }
}
