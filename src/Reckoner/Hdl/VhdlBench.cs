namespace Reckoner.Hdl;

/// <summary>Writes the bench of <see cref="VerilogBench"/> in VHDL (IEEE 1076-2008): the same files, the same order, the same last line.</summary>
internal sealed class VhdlBench
{
    private readonly HdlText text = new("--");
    private readonly HdlModule module;
    private readonly HdlFileNames files;

    private VhdlBench(HdlModule module, HdlFileNames files)
    {
        this.module = module;
        this.files = files;
    }

    public static string Of(HdlModule module, HdlFileNames files, IReadOnlyList<string> head)
    {
        var bench = new VhdlBench(module, files);
        foreach (var line in head)
        {
            bench.text.Remark(line);
        }
        bench.Write();
        return bench.text.ToString();
    }

    private IEnumerable<HdlName> Results => module.Results.Select(r => new HdlName(r.Name, r.Word.Width, ""));

    /// <summary>One bit stands for the operands of a machine that has none; likewise for results.</summary>
    private int OperandBits => Math.Max(1, module.Operands.Sum(o => o.Width));

    private int ResultBits => Math.Max(1, module.Results.Sum(r => r.Word.Width));

    private int RegisterBits => module.Registers.Sum(r => r.Width);

    private static string Beside(IEnumerable<string> names) => string.Join(" & ", names);

    private void Write()
    {
        text.Line("library ieee;");
        text.Line("use ieee.std_logic_1164.all;");
        text.Line("use ieee.numeric_std.all;");
        text.Line("use std.textio.all;");
        text.Line();
        text.Line($"entity {module.Name}_bench is");
        text.Line("end entity;");
        text.Line();
        text.Line($"architecture run of {module.Name}_bench is");
        text.Inside(() =>
        {
            text.Line("signal clock, reset, start, cancel : std_logic := '0';");
            text.Line("signal busy, done : std_logic;");
            if (RegisterBits > 0)
            {
                text.Line($"signal {HdlModule.All} : {VhdlWords.Type(RegisterBits)};");
            }
            text.Line("signal bench_over : boolean := false;");
            foreach (var operand in module.Operands)
            {
                text.Line($"signal {operand.Name} : {VhdlWords.Type(operand.Width)} := (others => '0');");
            }
            foreach (var result in Results)
            {
                text.Line($"signal {result.Name} : {VhdlWords.Type(result.Width)};");
            }
        });
        text.Line("begin");
        text.Inside(() =>
        {
            Device();
            text.Line("clock <= not clock after 5 ns when not bench_over else '0';");
            text.Line();
            Process();
        });
        text.Line("end architecture;");
    }

    private void Device()
    {
        string[] ports =
        [
            "clock",
            "reset",
            "start",
            "cancel",
            .. module.Operands.Select(o => o.Name),
            .. Results.Select(r => r.Name),
            "busy",
            "done",
            .. RegisterBits > 0 ? [HdlModule.All] : Array.Empty<string>(),
        ];
        text.Line($"device : entity work.{module.Name} port map ({string.Join(", ", ports)});");
    }

    private void Process()
    {
        text.Line("process");
        text.Inside(() =>
        {
            text.Line($"file vector_lines : text open read_mode is \"{files.Operations}\";");
            text.Line($"file edge_lines : text open read_mode is \"{files.Edges}\";");
            text.Line("variable one_line : line;");
            text.Line($"variable given_bits : {VhdlWords.Type(OperandBits)};");
            text.Line($"variable expected_bits : {VhdlWords.Type(ResultBits)};");
            if (RegisterBits > 0)
            {
                text.Line($"variable held_bits : {VhdlWords.Type(RegisterBits)};");
            }
            text.Line($"variable expected_count : {VhdlWords.Type(HdlVectors.CycleBits)};");
            text.Line("variable is_lawful, is_load : unsigned(0 downto 0);");
            text.Line(
                "variable cycle_count, line_number, tried_count, compared_count, wrong_count, unlawful_count, first_unlawful : natural := 0;"
            );
            text.Line();
            Get();
            Take();
        });
        text.Line("begin");
        text.Inside(() =>
        {
            text.Line("reset <= '1';");
            text.Line("wait until falling_edge(clock);");
            text.Line("wait until falling_edge(clock);");
            text.Line("reset <= '0';");
            text.Inside("while not endfile(vector_lines) loop", Operation, "end loop;");
            text.Line("wait until falling_edge(clock);");
            text.Line("line_number := 0;");
            text.Inside("while not endfile(edge_lines) loop", Edge, "end loop;");
            text.Line(
                "report integer'image(tried_count) & \" operations, \" & integer'image(compared_count) & \" clock edges: \""
            );
            text.Line("  & integer'image(wrong_count) & \" wrong\" severity note;");
            text.Line("if unlawful_count > 0 then");
            text.Line(
                "  report integer'image(unlawful_count) & \" operations break a law of the description, which is how it is \""
            );
            text.Line(
                "    & \"described; the first is line \" & integer'image(first_unlawful) & \" of the vectors\" severity note;"
            );
            text.Line("end if;");
            text.Line("bench_over <= true;");
            text.Line(
                "if wrong_count = 0 then report \"PASSED\" severity note; else report \"FAILED\" severity failure; end if;"
            );
            text.Line("wait;");
        });
        text.Line("end process;");
    }

    /// <summary>Reads binary digits from a line; strokes between them mean nothing.</summary>
    private void Get()
    {
        text.Line("procedure get(the_word : out unsigned) is");
        text.Inside(() =>
        {
            text.Line("variable one_digit : character;");
            text.Line("variable all_bits : unsigned(the_word'length - 1 downto 0);");
        });
        text.Line("begin");
        text.Inside(() =>
            text.Inside(
                "for place in all_bits'range loop",
                () =>
                {
                    text.Line("read(one_line, one_digit);");
                    text.Line("if one_digit = '_' then read(one_line, one_digit); end if;");
                    text.Line("if one_digit = '1' then all_bits(place) := '1'; else all_bits(place) := '0'; end if;");
                },
                "end loop;"
            )
        );
        text.Line("  the_word := all_bits;");
        text.Line("end procedure;");
    }

    private void Take()
    {
        text.Line();
        text.Remark("operands stand for one clock edge; what stands there afterwards must not matter");
        text.Line("procedure show(the_word : unsigned) is");
        text.Line($"  variable all_bits : {VhdlWords.Type(OperandBits)} := the_word;");
        text.Line("begin");
        text.Inside(() =>
        {
            var top = OperandBits - 1;
            foreach (var operand in module.Operands)
            {
                text.Line($"{operand.Name} <= all_bits({top} downto {top - operand.Width + 1});");
                top -= operand.Width;
            }
            if (module.Operands.Count == 0)
            {
                text.Line("null;");
            }
        });
        text.Line("end procedure;");
        text.Line("procedure take is");
        text.Line("begin");
        text.Inside(() =>
        {
            text.Line("show(given_bits);");
            text.Line("start <= '1';");
            text.Line("wait until falling_edge(clock);");
            text.Line("start <= '0';");
            text.Line("show(not given_bits);");
            text.Line("cycle_count := 0;");
        });
        text.Line("end procedure;");
    }

    private void Operation()
    {
        text.Line("readline(vector_lines, one_line);");
        text.Line("get(given_bits);");
        text.Line("get(expected_bits);");
        text.Line("get(expected_count);");
        text.Line("get(is_lawful);");
        text.Line("if is_lawful = \"0\" then");
        text.Line("  if unlawful_count = 0 then first_unlawful := line_number + 1; end if;");
        text.Line("  unlawful_count := unlawful_count + 1;");
        text.Line("end if;");
        Disturbed(5, "reset");
        Disturbed(11, "cancel");
        text.Line("take;");
        text.Line($"while done /= '1' and cycle_count < {2L * module.Datapath.MostCycles + 8} loop");
        text.Inside(() =>
        {
            text.Line(
                "if busy = '1' and line_number mod 3 = 1 then start <= '1'; end if;",
                "asked while busy: nothing happens"
            );
            text.Line("wait until falling_edge(clock);");
            text.Line("start <= '0';");
            text.Line("cycle_count := cycle_count + 1;");
        });
        text.Line("end loop;");
        text.Line("tried_count := tried_count + 1;");
        var results = Beside(Results.Select(r => r.Name).DefaultIfEmpty(VhdlWords.Literal(1, 0)));
        text.Line($"if done /= '1' or ({results}) /= expected_bits or cycle_count /= to_integer(expected_count) then");
        text.Line("  if wrong_count = 0 then");
        text.Line(
            "    report \"first wrong: line \" & integer'image(line_number + 1) & \" of the vectors\" severity warning;"
        );
        text.Line("  end if;");
        text.Line("  wrong_count := wrong_count + 1;");
        text.Line("end if;");
        text.Remark("every other operation begins at once; before the rest the results must be kept");
        text.Line("if line_number mod 2 = 1 then");
        text.Line("  wait until falling_edge(clock);");
        text.Line(
            $"  if done /= '0' or busy /= '0' or ({results}) /= expected_bits then wrong_count := wrong_count + 1; end if;"
        );
        text.Line("end if;");
        text.Line("line_number := line_number + 1;");
    }

    /// <summary>The same operation, begun and not ended.</summary>
    private void Disturbed(int when, string by)
    {
        text.Line($"if line_number mod 16 = {when} then");
        text.Inside(() =>
        {
            text.Line("take;");
            text.Line($"{by} <= '1';");
            text.Line("wait until falling_edge(clock);");
            text.Line($"{by} <= '0';");
            text.Line("if busy /= '0' or done /= '0' then wrong_count := wrong_count + 1; end if;");
        });
        text.Line("end if;");
    }

    private void Edge()
    {
        text.Line("readline(edge_lines, one_line);");
        text.Line("get(is_load);");
        text.Line("get(given_bits);");
        text.Line("if is_load = \"1\" then take; else wait until falling_edge(clock); end if;");
        if (RegisterBits > 0)
        {
            text.Line("get(held_bits);");
            text.Line($"if {HdlModule.All} /= held_bits then");
            text.Line("  if wrong_count = 0 then");
            text.Line(
                "    report \"first wrong: line \" & integer'image(line_number + 1) & \" of the edges\" severity warning;"
            );
            text.Line("  end if;");
            text.Line("  wrong_count := wrong_count + 1;");
            text.Line("end if;");
        }
        text.Line("compared_count := compared_count + 1;");
        text.Line("line_number := line_number + 1;");
    }
}
