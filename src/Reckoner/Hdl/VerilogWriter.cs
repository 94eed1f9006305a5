using System.Globalization;
using System.Numerics;
using Reckoner.Diagnostics;
using Reckoner.Words;

namespace Reckoner.Hdl;

/// <summary>Writes a machine as one module of Verilog (IEEE 1364-2005), as it is written: what a step does stands in its state.</summary>
internal sealed class VerilogWriter
{
    private readonly HdlText text;
    private readonly HdlModule module;
    private readonly Vocabulary words;

    private VerilogWriter(HdlText text, HdlModule module, Vocabulary words)
    {
        this.text = text;
        this.module = module;
        this.words = words;
    }

    private string Say(string key, params IReadOnlyList<Fact> facts) => words.Say(key, facts);

    /// <summary>A declaration; where the description leaves places of it unread, that is said, and tools need not complain.</summary>
    private void Declared(string line, string name, int width, string said)
    {
        var unread = module.Reads.Unread(name, width);
        if (unread.Count == 0)
        {
            text.Line(line, said);
            return;
        }
        var places = unread.Select(u => u.High == u.Low ? $"{u.High}" : $"{u.High}..{u.Low}");
        text.Line("// verilator lint_off UNUSEDSIGNAL");
        text.Line(line, $"{(said.Length > 0 ? said + "; " : "")}{Say("hdl.says-unread", ("places", places.ToList()))}");
        text.Line("// verilator lint_on UNUSEDSIGNAL");
    }

    /// <param name="head">What is said above it.</param>
    /// <param name="words">Of the comments.</param>
    public static string Of(HdlModule module, IReadOnlyList<string> head, Vocabulary words)
    {
        var writer = new VerilogWriter(new HdlText("//"), module, words);
        foreach (var line in head)
        {
            writer.text.Remark(line);
        }
        writer.Write();
        return writer.text.ToString();
    }

    /// <summary>The head of the module alone.</summary>
    public static void Ports(HdlText text, HdlModule module, Vocabulary words) =>
        new VerilogWriter(text, module, words).Ports();

    private void Write()
    {
        Ports();
        text.Inside(() =>
        {
            Declarations();
            foreach (var table in module.Tables)
            {
                Table(table);
            }
            Where();
            What();
            Edge();
            text.Line();
            foreach (var result in module.Results)
            {
                text.Line($"assign {result.Name} = {VerilogWords.Of(result.Word)};");
            }
        });
        text.Line("endmodule");
    }

    private void Ports()
    {
        text.Line($"module {module.Name} (");
        text.Inside(() =>
        {
            text.Line($"input wire {HdlModule.Clock},");
            text.Line($"input wire {HdlModule.Reset},", Say("hdl.says-reset"));
            text.Line($"input wire {HdlModule.Start},", Say("hdl.says-start"));
            text.Line($"input wire {HdlModule.Cancel},", Say("hdl.says-cancel"));
            foreach (var operand in module.Operands)
            {
                var line = $"input wire {VerilogWords.Range(operand.Width)}{operand.Name},";
                Declared(line, operand.Name, operand.Width, operand.Said);
            }
            foreach (var result in module.Results)
            {
                text.Line($"output wire {VerilogWords.Range(result.Word.Width)}{result.Name},");
            }
            text.Line($"output wire {HdlModule.Busy},");
            text.Line($"output wire {HdlModule.Done}", Say("hdl.says-done"));
        });
        text.Line(");");
    }

    private IEnumerable<string> Places =>
        module.States.Select(s => s.Name).Prepend(module.Finished).Prepend(module.Idle);

    /// <summary>Every state, the one at rest and the one at the end must be told apart.</summary>
    private int PlaceBits => BitOperations.Log2((uint)module.States.Count + 1) + 1;

    private void Declarations()
    {
        var number = 0;
        foreach (var place in Places)
        {
            text.Line($"localparam [{PlaceBits - 1}:0] {place} = {PlaceBits}'d{number++};");
        }
        text.Line();
        text.Line($"reg {VerilogWords.Range(PlaceBits)}{HdlModule.At}, {HdlModule.Here}, {HdlModule.ThenAt};");
        if (module.RoundBits > 0)
        {
            text.Line(
                $"reg {VerilogWords.Range(module.RoundBits)}{HdlModule.Round}, {HdlModule.Turn}, {HdlModule.ThenRound};",
                Say("hdl.says-round")
            );
        }
        foreach (var register in module.Registers)
        {
            text.Line($"reg {VerilogWords.Range(register.Width)}{register.Name}, {register.Next};", register.Said);
        }
        foreach (var word in module.AskedWords.Concat(module.Words))
        {
            Declared($"reg {VerilogWords.Range(word.Width)}{word.Name};", word.Name, word.Width, "");
        }
    }

    private void Table(HdlTable table)
    {
        text.Line();
        text.Line($"function {VerilogWords.Range(table.Width)}{table.Name};");
        text.Inside(() =>
        {
            text.Line($"input {VerilogWords.Range(table.AddressWidth)}address;");
            text.Inside(
                "case (address)",
                () =>
                {
                    for (var i = 0; i < table.Cells.Count; i++)
                    {
                        var label =
                            i == table.Cells.Count - 1 ? "default" : VerilogWords.Literal(table.AddressWidth, i);
                        text.Line($"{label}: {table.Name} = {VerilogWords.Literal(table.Width, table.Cells[i])};");
                    }
                },
                "endcase"
            );
        });
        text.Line("endfunction");
    }

    /// <summary>Where the schedule stands: a loop whose condition is not so is left before anything is done.</summary>
    private void Where()
    {
        text.Line();
        text.Remark(Say("hdl.says-where"));
        text.Inside(
            "always @* begin",
            () =>
            {
                text.Line($"{HdlModule.Here} = {HdlModule.At};");
                if (module.RoundBits > 0)
                {
                    text.Line($"{HdlModule.Turn} = {HdlModule.Round};");
                }
                if (module is { Gap.IsControl: true, EarlyStops.Count: > 0 })
                {
                    text.Remark(Say("hdl.says-fill-leave"));
                }
                foreach (var stop in module.Gap is { IsControl: true } ? [] : module.EarlyStops)
                {
                    Statements(stop.Before);
                    text.Inside(
                        $"if ({HdlModule.Here} == {stop.First} && !({VerilogWords.Of(stop.Goes)})) begin",
                        () =>
                        {
                            text.Line($"{HdlModule.Here} = {stop.On};");
                            text.Line($"{HdlModule.Turn} = {One};");
                        },
                        "end"
                    );
                }
            },
            "end"
        );
        text.Line(
            $"assign {HdlModule.Busy} = {HdlModule.Here} != {module.Idle} && {HdlModule.Here} != {module.Finished};"
        );
        text.Line($"assign {HdlModule.Done} = {HdlModule.Here} == {module.Finished};");
    }

    private string One => Round(1);

    private string Round(int number) => $"{module.RoundBits}'d{number.ToString(CultureInfo.InvariantCulture)}";

    private void What()
    {
        text.Line();
        text.Remark(Say("hdl.says-what"));
        text.Inside(
            "always @* begin",
            () =>
            {
                text.Line($"{HdlModule.ThenAt} = {module.Idle};");
                if (module.RoundBits > 0)
                {
                    text.Line($"{HdlModule.ThenRound} = {One};");
                }
                foreach (var register in module.Registers)
                {
                    text.Line($"{register.Next} = {register.Name};");
                }
                foreach (var word in module.Words)
                {
                    text.Line($"{word.Name} = {VerilogWords.Literal(word.Width, 0)};");
                }
                text.Inside($"case ({HdlModule.Here})", States, "endcase");
            },
            "end"
        );
    }

    private void States()
    {
        foreach (var state in module.States)
        {
            text.Inside(
                $"{state.Name}: begin",
                () =>
                {
                    text.Remark(state.Said);
                    if (state.IsLeftOut)
                    {
                        text.Remark(Say("hdl.says-fill-step"));
                    }
                    Statements(state.Does);
                    Follows(state);
                },
                "end"
            );
        }
        text.Inside(
            $"default: if ({HdlModule.Start}) begin",
            () =>
            {
                Statements(module.Load);
                text.Line($"{HdlModule.ThenAt} = {module.First};");
            },
            "end"
        );
    }

    private void Follows(HdlState state)
    {
        if (module.Gap is { IsControl: true })
        {
            text.Remark(Say("hdl.says-fill-next"));
            return;
        }
        if (state.Again is null)
        {
            text.Line($"{HdlModule.ThenAt} = {state.On};");
            if (state.Rounds > 1)
            {
                text.Line($"{HdlModule.ThenRound} = {HdlModule.Turn};");
            }
            return;
        }
        text.Inside(
            $"if ({HdlModule.Turn} == {Round(state.Rounds)}) begin",
            () => text.Line($"{HdlModule.ThenAt} = {state.On};"),
            "end else begin"
        );
        text.Inside(() =>
        {
            text.Line($"{HdlModule.ThenAt} = {state.Again};");
            text.Line($"{HdlModule.ThenRound} = {HdlModule.Turn} + {One};");
        });
        text.Line("end");
    }

    private void Edge()
    {
        text.Line();
        text.Inside(
            $"always @(posedge {HdlModule.Clock}) begin",
            () =>
            {
                text.Line(
                    $"{HdlModule.At} <= ({HdlModule.Reset} || {HdlModule.Cancel}) ? {module.Idle} : {HdlModule.ThenAt};"
                );
                if (module.RoundBits > 0)
                {
                    text.Line($"{HdlModule.Round} <= {HdlModule.ThenRound};");
                }
                foreach (var register in module.Registers)
                {
                    text.Line($"{register.Name} <= {register.Next};");
                }
            },
            "end"
        );
    }

    private void Statements(IReadOnlyList<HdlStatement> statements)
    {
        foreach (var statement in statements)
        {
            Statement(statement);
        }
    }

    private void Statement(HdlStatement s)
    {
        switch (s.Kind)
        {
            case HdlStatementKind.Set:
                text.Line($"{VerilogWords.Of(HdlWord.Joined(s.Targets))} = {VerilogWords.Of(s.Word!)};");
                break;
            case HdlStatementKind.If:
                If(s);
                break;
            case HdlStatementKind.Case:
                text.Inside($"casez ({VerilogWords.Of(s.Word!)})", () => Ways(s), "endcase");
                break;
            case HdlStatementKind.Remark:
                text.Remark(s.Text);
                break;
        }
    }

    private void If(HdlStatement s)
    {
        text.Line($"if ({VerilogWords.Of(s.Word!)}) begin");
        text.Inside(() => Statements(s.Ways[0].Does));
        if (s.Ways[1].Does.Count > 0)
        {
            text.Line("end else begin");
            text.Inside(() => Statements(s.Ways[1].Does));
        }
        text.Line("end");
    }

    private void Ways(HdlStatement s)
    {
        foreach (var way in s.Ways)
        {
            var labels =
                way.Patterns.Count == 0
                    ? "default"
                    : string.Join(", ", way.Patterns.Select(p => VerilogWords.Label(s.Word!.Width, p)));
            text.Inside($"{labels}: begin", () => Statements(way.Does), "end");
        }
    }
}
