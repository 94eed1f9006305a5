namespace Reckoner.Hdl;

/// <summary>Writes the bench of <see cref="VerilogBench"/> in VHDL (IEEE 1076-2008): the same files, the same order, the same last line.</summary>
internal sealed class VhdlBench
{
    private readonly HdlText text = new("--");
    private readonly HdlModule module;
    private readonly HdlVectors vectors;
    private readonly HdlFileNames files;

    private VhdlBench(HdlModule module, HdlVectors vectors, HdlFileNames files)
    {
        this.module = module;
        this.vectors = vectors;
        this.files = files;
    }

    public static string Of(HdlModule module, HdlVectors vectors, HdlFileNames files, IReadOnlyList<string> head)
    {
        var bench = new VhdlBench(module, vectors, files);
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
            text.Line("variable is_torn, is_busy_wrong : boolean := false;");
            text.Line();
            Get();
            Wrong();
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
            Counted("tried_count", vectors.Operations.Count, "operations");
            Counted("compared_count", vectors.Edges, "edges");
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
            text.Line("variable is_read : boolean;");
            text.Line("variable all_bits : unsigned(the_word'length - 1 downto 0);");
        });
        text.Line("begin");
        text.Inside(() =>
            text.Inside(
                "for place in all_bits'range loop",
                () =>
                {
                    text.Line("read(one_line, one_digit, is_read);");
                    text.Line("if is_read and one_digit = '_' then read(one_line, one_digit, is_read); end if;");
                    text.Line(
                        "if not is_read or (one_digit /= '0' and one_digit /= '1') then is_torn := true; end if;"
                    );
                    text.Line(
                        "if is_read and one_digit = '1' then all_bits(place) := '1'; else all_bits(place) := '0'; end if;"
                    );
                },
                "end loop;"
            )
        );
        text.Line("  the_word := all_bits;");
        text.Line("end procedure;");
    }

    /// <summary>Counts what is wrong and says why where it is the first.</summary>
    private void Wrong()
    {
        text.Line();
        text.Line("function shown(the_word : unsigned) return string is");
        text.Inside(() =>
        {
            text.Line("variable all_digits : string(1 to the_word'length);");
            text.Line("variable all_bits : unsigned(1 to the_word'length) := the_word;");
        });
        text.Line("begin");
        text.Inside(() =>
        {
            text.Inside(
                "for place in all_digits'range loop",
                () =>
                {
                    text.Line("all_digits(place) := 'x';");
                    text.Line("if all_bits(place) = '0' then all_digits(place) := '0'; end if;");
                    text.Line("if all_bits(place) = '1' then all_digits(place) := '1'; end if;");
                },
                "end loop;"
            );
            text.Line("return all_digits;");
        });
        text.Line("end function;");
        text.Line("procedure wrong(reason : string) is");
        text.Line("begin");
        text.Inside(() =>
        {
            text.Inside(
                "if wrong_count = 0 then",
                () =>
                {
                    text.Line(
                        "report \"first wrong: line \" & integer'image(line_number + 1) & \" of the vectors, \" & reason"
                    );
                    text.Line(
                        $"  & \"; operands \" & shown(given_bits) & \", results \" & shown({AllResults}) & \", expected \""
                    );
                    text.Line(
                        "  & shown(expected_bits) & \", cycles \" & integer'image(cycle_count) & \", expected \""
                    );
                    text.Line("  & integer'image(to_integer(expected_count)) severity warning;");
                },
                "end if;"
            );
            text.Line("wrong_count := wrong_count + 1;");
        });
        text.Line("end procedure;");
    }

    private string AllResults => Beside(Results.Select(r => r.Name).DefaultIfEmpty(VhdlWords.Literal(1, 0)));

    /// <summary>A file that was cut off has fewer lines.</summary>
    private void Counted(string count, int expected, string what)
    {
        text.Line($"if {count} /= {expected} then");
        text.Line(
            $"  report \"of {expected} {what} \" & integer'image({count}) & \" were in the file\" severity warning;"
        );
        text.Line("  wrong_count := wrong_count + 1;");
        text.Line("end if;");
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
        text.Line("procedure take(the_word : unsigned) is");
        text.Line("begin");
        text.Inside(() =>
        {
            text.Line("show(the_word);");
            text.Line("start <= '1';");
            text.Line("wait until falling_edge(clock);");
            text.Line("start <= '0';");
            text.Line("show(not the_word);");
            text.Line("cycle_count := 0;");
        });
        text.Line("end procedure;");
    }

    private void Operation()
    {
        text.Line("readline(vector_lines, one_line);");
        text.Line("is_torn := false;");
        text.Line("get(given_bits);");
        text.Line("get(expected_bits);");
        text.Line("get(expected_count);");
        text.Line("get(is_lawful);");
        text.Line("if is_torn then wrong(\"this line is torn\"); end if;");
        text.Line("if is_lawful = \"0\" then");
        text.Line("  if unlawful_count = 0 then first_unlawful := line_number + 1; end if;");
        text.Line("  unlawful_count := unlawful_count + 1;");
        text.Line("end if;");
        Disturbed(1, "reset");
        Disturbed(5, "cancel");
        text.Line("take(given_bits);");
        text.Line("is_busy_wrong := false;");
        text.Line($"while done /= '1' and cycle_count < {2L * module.Datapath.MostCycles + 8} loop");
        text.Inside(() =>
        {
            text.Line("if busy /= '1' then is_busy_wrong := true; end if;");
            text.Line(
                "if busy = '1' and line_number mod 3 = 1 then start <= '1'; end if;",
                "asked while busy: nothing happens"
            );
            text.Line("wait until falling_edge(clock);");
            text.Line("start <= '0';");
            text.Line("cycle_count := cycle_count + 1;");
        });
        text.Line("end loop;");
        text.Line("if busy /= '0' then is_busy_wrong := true; end if;");
        text.Line("tried_count := tried_count + 1;");
        text.Line("if done /= '1' then wrong(\"it is never done\");");
        text.Line($"elsif ({AllResults}) /= expected_bits then wrong(\"the results\");");
        text.Line("elsif cycle_count /= to_integer(expected_count) then wrong(\"the number of cycles\");");
        text.Line("elsif is_busy_wrong then wrong(\"busy while it works, and then alone\"); end if;");
        text.Remark("every other operation begins at once; before the rest the results must be kept");
        text.Line("if line_number mod 2 = 1 then");
        text.Line("  wait until falling_edge(clock);");
        text.Line("  if done /= '0' or busy /= '0' then wrong(\"at rest, busy or done\");");
        text.Line($"  elsif ({AllResults}) /= expected_bits then wrong(\"the results are not kept\"); end if;");
        text.Line("end if;");
        text.Line("line_number := line_number + 1;");
    }

    /// <summary>
    /// An operation with other operands, begun and not ended: dropped in the first cycle, the second, and so on from one such line to the
    /// next.
    /// </summary>
    private void Disturbed(int when, string by)
    {
        text.Line($"if line_number mod 8 = {when} then");
        text.Inside(() =>
        {
            text.Line("take(not given_bits);");
            text.Line("if expected_count > 0 then");
            text.Line("  for cycle in 1 to line_number / 8 mod to_integer(expected_count) loop");
            text.Line("    wait until falling_edge(clock);");
            text.Line("  end loop;");
            text.Line("end if;");
            text.Line($"{by} <= '1';");
            text.Line("wait until falling_edge(clock);");
            text.Line($"{by} <= '0';");
            text.Line($"if busy /= '0' or done /= '0' then wrong(\"after {by} it does not rest\"); end if;");
            text.Line("if line_number mod 16 > 7 then wait until falling_edge(clock); end if;");
            text.Line($"if busy /= '0' or done /= '0' then wrong(\"after {by} it does not stay at rest\"); end if;");
        });
        text.Line("end if;");
    }

    private void Edge()
    {
        text.Line("readline(edge_lines, one_line);");
        text.Line("is_torn := false;");
        text.Line("get(is_load);");
        text.Line("get(given_bits);");
        text.Line("if is_load = \"1\" then take(given_bits); else wait until falling_edge(clock); end if;");
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
        text.Line("if is_torn then wrong(\"that is, of the edges: it is torn\"); end if;");
        text.Line("compared_count := compared_count + 1;");
        text.Line("line_number := line_number + 1;");
    }
}
