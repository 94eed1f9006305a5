using Reckoner.Diagnostics;
using Reckoner.Numbers;
using Reckoner.Words;

namespace Reckoner.Hdl;

/// <summary>Writes a machine as one entity of VHDL (IEEE 1076-2008), as it is written: what a step does stands in its state.</summary>
internal sealed class VhdlWriter
{
    private readonly HdlModule module;
    private readonly HdlText text = new("--");

    private readonly Vocabulary words;

    private VhdlWriter(HdlModule module, Vocabulary words)
    {
        this.module = module;
        this.words = words;
    }

    private string Say(string key, params IReadOnlyList<Fact> facts) => words.Say(key, facts);

    /// <param name="head">What is said above it.</param>
    /// <param name="words">Of the comments.</param>
    public static string Of(HdlModule module, IReadOnlyList<string> head, Vocabulary words)
    {
        var writer = new VhdlWriter(module, words);
        foreach (var line in head)
        {
            writer.text.Remark(line);
        }
        writer.Write();
        return writer.text.ToString();
    }

    private void Write()
    {
        text.Line("library ieee;");
        text.Line("use ieee.std_logic_1164.all;");
        text.Line("use ieee.numeric_std.all;");
        text.Line();
        Entity();
        text.Line();
        text.Line($"architecture written of {module.Name} is");
        text.Inside(Declarations);
        text.Line("begin");
        text.Inside(() =>
        {
            Where();
            What();
            text.Line();
            foreach (var result in module.Results)
            {
                text.Line($"{result.Name} <= {VhdlWords.Of(result.Word)};");
            }
            if (module.Registers.Count > 0)
            {
                text.Line($"{HdlModule.All} <= {string.Join(" & ", module.Registers.Select(r => r.Name))};");
            }
        });
        text.Line("end architecture;");
    }

    private void Entity()
    {
        text.Line($"entity {module.Name} is");
        text.Inside(() =>
        {
            text.Line("port (");
            text.Inside(() =>
            {
                text.Line($"{HdlModule.Clock} : in std_logic;");
                text.Line($"{HdlModule.Reset} : in std_logic;", Say("hdl.says-reset"));
                text.Line($"{HdlModule.Start} : in std_logic;", Say("hdl.says-start"));
                text.Line($"{HdlModule.Cancel} : in std_logic;", Say("hdl.says-cancel"));
                foreach (var operand in module.Operands)
                {
                    text.Line($"{operand.Name} : in {VhdlWords.Type(operand.Width)};", operand.Said);
                }
                foreach (var result in module.Results)
                {
                    text.Line($"{result.Name} : out {VhdlWords.Type(result.Word.Width)};");
                }
                text.Line($"{HdlModule.Busy} : out std_logic;");
                var hasMore = module.Registers.Count > 0;
                text.Line($"{HdlModule.Done} : out std_logic{(hasMore ? ";" : "")}", Say("hdl.says-done"));
                if (hasMore)
                {
                    text.Line(
                        $"{HdlModule.All} : out {VhdlWords.Type(module.Registers.Sum(r => r.Width))}",
                        Say("hdl.says-all")
                    );
                }
            });
            text.Line(");");
        });
        text.Line("end entity;");
    }

    private void Declarations()
    {
        string[] places = [module.Idle, module.Finished, .. module.States.Select(s => s.Name)];
        text.Line($"type places is ({string.Join(", ", places)});");
        text.Line($"signal {HdlModule.At}, {HdlModule.Here} : places;");
        if (module.RoundBits > 0)
        {
            text.Line(
                $"signal {HdlModule.Round}, {HdlModule.Turn} : {VhdlWords.Type(module.RoundBits)};",
                Say("hdl.says-round")
            );
        }
        foreach (var register in module.Registers)
        {
            text.Line($"signal {register.Name} : {VhdlWords.Type(register.Width)};", register.Said);
        }
        foreach (var line in VhdlWords.Functions)
        {
            text.Line(line);
        }
        foreach (var table in module.Tables)
        {
            Table(table);
        }
    }

    private void Table(HdlTable table)
    {
        text.Line($"type {table.Rows} is array (0 to {table.Cells.Count - 1}) of {VhdlWords.Type(table.Width)};");
        text.Line($"constant {table.Name} : {table.Rows} := (");
        text.Inside(() =>
        {
            for (var i = 0; i < table.Cells.Count; i++)
            {
                var comma = i < table.Cells.Count - 1 ? "," : "";
                text.Line($"{i} => \"{Bits.Text(table.Cells[i], table.Width)}\"{comma}");
            }
        });
        text.Line(");");
    }

    /// <summary>Where the schedule stands: a loop whose condition is not so is left before anything is done.</summary>
    private void Where()
    {
        string[] reads =
        [
            HdlModule.At,
            .. module.RoundBits > 0 ? [HdlModule.Round] : Array.Empty<string>(),
            .. module.EarlyStops.Count > 0 ? module.Registers.Select(r => r.Name) : [],
        ];
        text.Remark(Say("hdl.says-where"));
        text.Line($"process ({string.Join(", ", reads)})");
        text.Inside(() =>
        {
            text.Line("variable now_at : places;");
            if (module.RoundBits > 0)
            {
                text.Line($"variable now_round : {VhdlWords.Type(module.RoundBits)};");
            }
            Variables(module.AskedWords);
        });
        text.Line("begin");
        text.Inside(() =>
        {
            text.Line($"now_at := {HdlModule.At};");
            if (module.RoundBits > 0)
            {
                text.Line($"now_round := {HdlModule.Round};");
            }
            if (module is { Gap.IsControl: true, EarlyStops.Count: > 0 })
            {
                text.Remark(Say("hdl.says-fill-leave"));
            }
            foreach (var stop in module.Gap is { IsControl: true } ? [] : module.EarlyStops)
            {
                text.Inside($"if now_at = {stop.First} then", () => Stop(stop), "end if;");
            }
            text.Line($"{HdlModule.Here} <= now_at;");
            if (module.RoundBits > 0)
            {
                text.Line($"{HdlModule.Turn} <= now_round;");
            }
        });
        text.Line("end process;");
        text.Line(
            $"{HdlModule.Busy} <= '0' when {HdlModule.Here} = {module.Idle} or {HdlModule.Here} = {module.Finished} else '1';"
        );
        text.Line($"{HdlModule.Done} <= '1' when {HdlModule.Here} = {module.Finished} else '0';");
    }

    private void Stop(HdlEarlyStop stop)
    {
        Statements(stop.Before);
        text.Inside(
            $"if not ({VhdlWords.Condition(stop.Goes)}) then",
            () =>
            {
                text.Line($"now_at := {stop.On};");
                text.Line($"now_round := {Round(1)};");
            },
            "end if;"
        );
    }

    private string Round(int number) => VhdlWords.Literal(module.RoundBits, number);

    private void Variables(IEnumerable<HdlName> words)
    {
        foreach (var word in words)
        {
            text.Line($"variable {word.Name} : {VhdlWords.Type(word.Width)};");
        }
    }

    private void What()
    {
        text.Line();
        text.Remark(Say("hdl.says-what"));
        text.Line($"process ({HdlModule.Clock})");
        text.Inside(() =>
        {
            text.Line($"variable {HdlModule.ThenAt} : places;");
            if (module.RoundBits > 0)
            {
                text.Line($"variable {HdlModule.ThenRound} : {VhdlWords.Type(module.RoundBits)};");
            }
            Variables(module.Registers.Select(r => new HdlName(r.Next, r.Width, "")));
            Variables(module.Words);
            Variables(module.Parted.Select(p => new HdlName(p.Value, p.Key, "")));
        });
        text.Line("begin");
        text.Inside(() => text.Inside($"if rising_edge({HdlModule.Clock}) then", Edge, "end if;"));
        text.Line("end process;");
    }

    private void Edge()
    {
        text.Line($"{HdlModule.ThenAt} := {module.Idle};");
        if (module.RoundBits > 0)
        {
            text.Line($"{HdlModule.ThenRound} := {Round(1)};");
        }
        foreach (var register in module.Registers)
        {
            text.Line($"{register.Next} := {register.Name};");
        }
        text.Inside($"case {HdlModule.Here} is", States, "end case;");
        text.Line(
            $"if {HdlModule.Reset} = '1' or {HdlModule.Cancel} = '1' then {HdlModule.ThenAt} := {module.Idle}; end if;"
        );
        text.Line($"{HdlModule.At} <= {HdlModule.ThenAt};");
        if (module.RoundBits > 0)
        {
            text.Line($"{HdlModule.Round} <= {HdlModule.ThenRound};");
        }
        foreach (var register in module.Registers)
        {
            text.Line($"{register.Name} <= {register.Next};");
        }
    }

    private void States()
    {
        foreach (var state in module.States)
        {
            text.Line($"when {state.Name} =>");
            text.Inside(() =>
            {
                text.Remark(state.Said);
                if (state.IsLeftOut)
                {
                    text.Remark(Say("hdl.says-fill-step"));
                }
                Statements(state.Does);
                Follows(state);
            });
        }
        text.Line("when others =>");
        text.Inside(() =>
            text.Inside(
                $"if {HdlModule.Start} = '1' then",
                () =>
                {
                    Statements(module.Load);
                    text.Line($"{HdlModule.ThenAt} := {module.First};");
                },
                "end if;"
            )
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
            text.Line($"{HdlModule.ThenAt} := {state.On};");
            if (state.Rounds > 1)
            {
                text.Line($"{HdlModule.ThenRound} := {HdlModule.Turn};");
            }
            return;
        }
        text.Inside(
            $"if {HdlModule.Turn} = {state.Rounds} then",
            () => text.Line($"{HdlModule.ThenAt} := {state.On};"),
            "else"
        );
        text.Inside(() =>
        {
            text.Line($"{HdlModule.ThenAt} := {state.Again};");
            text.Line($"{HdlModule.ThenRound} := {HdlModule.Turn} + 1;");
        });
        text.Line("end if;");
    }

    private void Statements(IReadOnlyList<HdlStatement> statements)
    {
        if (statements.Count == 0)
        {
            text.Line("null;");
        }
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
                Set(s);
                break;
            case HdlStatementKind.If:
                If(s);
                break;
            case HdlStatementKind.Case:
                Case(s);
                break;
            case HdlStatementKind.Remark:
                text.Remark(s.Text);
                break;
        }
    }

    private void Set(HdlStatement s)
    {
        var target = HdlWord.Joined(s.Targets);
        if (target.Kind != HdlWordKind.Joined)
        {
            text.Line($"{VhdlWords.Of(target)} := {VhdlWords.Of(s.Word!)};");
            return;
        }
        var whole = module.Parted[target.Width];
        text.Line($"{whole} := {VhdlWords.Of(s.Word!)};");
        var top = target.Width - 1;
        foreach (var place in target.Inputs)
        {
            text.Line($"{VhdlWords.Of(place)} := {whole}({top} downto {top - place.Width + 1});");
            top -= place.Width;
        }
    }

    private void If(HdlStatement s)
    {
        text.Line($"if {VhdlWords.Condition(s.Word!)} then");
        text.Inside(() => Statements(s.Ways[0].Does));
        if (s.Ways[1].Does.Count > 0)
        {
            text.Line("else");
            text.Inside(() => Statements(s.Ways[1].Does));
        }
        text.Line("end if;");
    }

    private void Case(HdlStatement s)
    {
        for (var i = 0; i < s.Ways.Count; i++)
        {
            var way = s.Ways[i];
            // Exactly one way acts, so the last needs no question.
            var isOther = way.Patterns.Count == 0 || i == s.Ways.Count - 1;
            if (isOther && i > 0)
            {
                text.Line("else");
            }
            else
            {
                var so = isOther
                    ? "true"
                    : string.Join(" or ", way.Patterns.Select(p => VhdlWords.Matched(s.Word!, p)));
                text.Line($"{(i == 0 ? "if" : "elsif")} {so} then");
            }
            text.Inside(() => Statements(way.Does));
            if (isOther)
            {
                break;
            }
        }
        text.Line("end if;");
    }
}
