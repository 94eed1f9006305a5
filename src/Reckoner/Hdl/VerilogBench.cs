namespace Reckoner.Hdl;

/// <summary>
/// Writes a bench in Verilog (IEEE 1364-2005): every operation of a file of vectors, one after the other and with pauses, asked again
/// while busy, reset and dropped in mid-work; then a few operations edge by edge.
/// </summary>
internal sealed class VerilogBench
{
    private readonly HdlText text = new("//");
    private readonly HdlModule module;
    private readonly HdlVectors vectors;
    private readonly HdlFileNames files;

    private VerilogBench(HdlModule module, HdlVectors vectors, HdlFileNames files)
    {
        this.module = module;
        this.vectors = vectors;
        this.files = files;
    }

    public static string Of(HdlModule module, HdlVectors vectors, HdlFileNames files, IReadOnlyList<string> head)
    {
        var bench = new VerilogBench(module, vectors, files);
        foreach (var line in head)
        {
            bench.text.Remark(line);
        }
        bench.Write();
        return bench.text.ToString();
    }

    /// <summary>One bit stands for the operands of a machine that has none; likewise for results.</summary>
    private int OperandBits => Math.Max(1, module.Operands.Sum(o => o.Width));

    private int ResultBits => Math.Max(1, module.Results.Sum(r => r.Word.Width));

    private int RegisterBits => module.Registers.Sum(r => r.Width);

    /// <summary>Many more cycles than any operation takes: a machine that is not done by then never will be.</summary>
    private long Patience => 2L * module.Datapath.MostCycles + 8;

    private string Operands => "{" + string.Join(", ", module.Operands.Select(o => o.Name)) + "}";

    private string Results =>
        module.Results.Count > 0 ? "{" + string.Join(", ", module.Results.Select(r => r.Name)) + "}" : "1'b0";

    private string Registers => "{" + string.Join(", ", module.Registers.Select(r => "device." + r.Name)) + "}";

    private void Write()
    {
        text.Line("`timescale 1ns / 1ns");
        text.Line("module bench;");
        text.Inside(() =>
        {
            Declarations();
            Device();
            text.Line("always #5 clock = !clock;");
            Wrong();
            Take();
            Finish();
            Operation();
            Edges();
            Run();
        });
        text.Line("endmodule");
    }

    private void Declarations()
    {
        text.Line("reg clock = 0, reset = 1, start = 0, cancel = 0;");
        foreach (var operand in module.Operands)
        {
            text.Line($"reg {VerilogWords.Range(operand.Width)}{operand.Name} = 0;");
        }
        foreach (var result in module.Results)
        {
            text.Line($"wire {VerilogWords.Range(result.Word.Width)}{result.Name};");
        }
        text.Line("wire busy, done;");
        text.Line();
        text.Line($"localparam OPERATION_COUNT = {vectors.Operations.Count}, EDGE_COUNT = {vectors.Edges};");
        var wide = OperandBits + ResultBits + HdlVectors.CycleBits + 1;
        text.Line($"reg [{wide - 1}:0] vector_lines [0:OPERATION_COUNT-1];");
        text.Line($"reg [{OperandBits + RegisterBits}:0] edge_lines [0:EDGE_COUNT-1];");
        text.Line($"reg [{OperandBits - 1}:0] given_bits;");
        text.Line($"reg [{ResultBits - 1}:0] expected_bits;");
        if (RegisterBits > 0)
        {
            text.Line($"reg [{RegisterBits - 1}:0] held_bits;");
        }
        text.Line($"reg [{HdlVectors.CycleBits - 1}:0] expected_count;");
        text.Line("reg is_load, is_lawful;");
        text.Line(
            "integer line_index, cycle_count, tried_count = 0, compared_count = 0, wrong_count = 0, unlawful_count = 0, first_unlawful = 0;"
        );
        text.Line("reg is_busy_wrong;");
        text.Line("integer wait_count;");
        text.Line();
    }

    private void Device()
    {
        text.Line($"{module.Name} device (");
        text.Inside(() =>
        {
            string[] ports =
            [
                "clock",
                "reset",
                "start",
                "cancel",
                .. module.Operands.Select(o => o.Name),
                .. module.Results.Select(r => r.Name),
                "busy",
                "done",
            ];
            for (var i = 0; i < ports.Length; i++)
            {
                text.Line($".{ports[i]}({ports[i]}){(i < ports.Length - 1 ? "," : "")}");
            }
        });
        text.Line(");");
    }

    /// <summary>Counts what is wrong and says why where it is the first.</summary>
    private void Wrong()
    {
        text.Line();
        text.Inside(
            "task wrong;",
            () =>
            {
                text.Line("input [8*48-1:0] reason;");
                text.Inside(
                    "begin",
                    () =>
                    {
                        text.Line("if (wrong_count == 0)");
                        text.Inside(() =>
                            text.Line(
                                "$display(\"first wrong: line %0d of the vectors, %0s; operands %b, results %b, expected %b, "
                                    + "cycles %0d, expected %0d\", line_index + 1, reason, given_bits, "
                                    + $"{Results}, expected_bits, cycle_count, expected_count);"
                            )
                        );
                        text.Line("wrong_count = wrong_count + 1;");
                    },
                    "end"
                );
            },
            "endtask"
        );
    }

    /// <summary>The load: operands stand for one clock edge, then others do, which must not matter.</summary>
    private void Take()
    {
        text.Line();
        text.Remark("operands stand for one clock edge; what stands there afterwards must not matter");
        text.Inside(
            "task take;",
            () =>
            {
                text.Line($"input [{OperandBits - 1}:0] taken_bits;");
                text.Inside(
                    "begin",
                    () =>
                    {
                        Show("taken_bits");
                        text.Line("start = 1;");
                        text.Line("@(negedge clock);");
                        text.Line("start = 0;");
                        Show("~taken_bits");
                        text.Line("cycle_count = 0;");
                    },
                    "end"
                );
            },
            "endtask"
        );
    }

    private void Show(string word)
    {
        if (module.Operands.Count > 0)
        {
            text.Line($"{Operands} = {word};");
        }
    }

    private void Finish()
    {
        text.Line();
        text.Inside(
            "task work_on;",
            () =>
                text.Inside(
                    "begin",
                    () =>
                    {
                        text.Line("is_busy_wrong = 0;");
                        text.Inside(
                            $"while (done !== 1'b1 && cycle_count < {Patience}) begin",
                            () =>
                            {
                                text.Line("if (busy !== 1'b1) is_busy_wrong = 1;");
                                text.Line(
                                    "start = busy === 1'b1 && line_index % 3 == 1;",
                                    "asked while busy: nothing happens"
                                );
                                text.Line("@(negedge clock);");
                                text.Line("start = 0;");
                                text.Line("cycle_count = cycle_count + 1;");
                            },
                            "end"
                        );
                        text.Line("if (busy !== 1'b0) is_busy_wrong = 1;");
                    },
                    "end"
                ),
            "endtask"
        );
    }

    private void Operation()
    {
        text.Line();
        text.Inside(
            "task operation;",
            () =>
                text.Inside(
                    "begin",
                    () =>
                    {
                        text.Line("{given_bits, expected_bits, expected_count, is_lawful} = vector_lines[line_index];");
                        text.Line("if (^vector_lines[line_index] === 1'bx) wrong(\"this line is missing or torn\");");
                        text.Inside(
                            "if (is_lawful === 1'b0) begin",
                            () =>
                            {
                                text.Line("if (unlawful_count == 0) first_unlawful = line_index + 1;");
                                text.Line("unlawful_count = unlawful_count + 1;");
                            },
                            "end"
                        );
                        Disturbed(1, "reset");
                        Disturbed(5, "cancel");
                        text.Line("take(given_bits);");
                        text.Line("work_on;");
                        text.Line("tried_count = tried_count + 1;");
                        text.Line("if (done !== 1'b1) wrong(\"it is never done\");");
                        text.Line($"else if ({Results} !== expected_bits) wrong(\"the results\");");
                        text.Line("else if (cycle_count !== expected_count) wrong(\"the number of cycles\");");
                        text.Line("else if (is_busy_wrong) wrong(\"busy while it works, and then alone\");");
                        text.Remark("every other operation begins at once; before the rest the results must be kept");
                        text.Inside(
                            "if (line_index % 2 == 1) begin",
                            () =>
                            {
                                text.Line("@(negedge clock);");
                                text.Line("if (done !== 1'b0 || busy !== 1'b0) wrong(\"at rest, busy or done\");");
                                text.Line(
                                    $"else if ({Results} !== expected_bits) wrong(\"the results are not kept\");"
                                );
                            },
                            "end"
                        );
                    },
                    "end"
                ),
            "endtask"
        );
    }

    /// <summary>
    /// An operation with other operands, begun and not ended: dropped in the first cycle, the second, and so on from one such line to the
    /// next.
    /// </summary>
    private void Disturbed(int when, string by) =>
        text.Inside(
            $"if (line_index % 8 == {when}) begin",
            () =>
            {
                text.Line("take(~given_bits);");
                text.Line("wait_count = expected_count > 0 ? line_index / 8 % expected_count : 0;");
                text.Line("repeat (wait_count) @(negedge clock);");
                text.Line($"{by} = 1;");
                text.Line("@(negedge clock);");
                text.Line($"{by} = 0;");
                text.Line($"if (busy !== 1'b0 || done !== 1'b0) wrong(\"after {by} it does not rest\");");
                text.Line("if (line_index % 16 > 7) @(negedge clock);");
                text.Line($"if (busy !== 1'b0 || done !== 1'b0) wrong(\"after {by} it does not stay at rest\");");
            },
            "end"
        );

    private void Edges()
    {
        text.Line();
        text.Inside(
            "task edge_by_edge;",
            () =>
                text.Inside(
                    "begin",
                    () =>
                    {
                        var all = RegisterBits > 0 ? "{is_load, given_bits, held_bits}" : "{is_load, given_bits}";
                        text.Line($"{all} = edge_lines[line_index];");
                        text.Line(
                            "if (^edge_lines[line_index] === 1'bx) wrong(\"that is, of the edges: it is missing or torn\");"
                        );
                        text.Line("if (is_load) take(given_bits); else @(negedge clock);");
                        if (RegisterBits > 0)
                        {
                            text.Inside(
                                $"if ({Registers} !== held_bits) begin",
                                () =>
                                {
                                    text.Line(
                                        "if (wrong_count == 0) $display(\"first wrong: line %0d of the edges, registers %b, "
                                            + $"expected %b\", line_index + 1, {Registers}, held_bits);"
                                    );
                                    text.Line("wrong_count = wrong_count + 1;");
                                },
                                "end"
                            );
                        }
                        text.Line("compared_count = compared_count + 1;");
                    },
                    "end"
                ),
            "endtask"
        );
    }

    private void Run()
    {
        text.Line();
        text.Inside(
            "initial begin",
            () =>
            {
                text.Line($"$readmemb(\"{files.Operations}\", vector_lines);");
                text.Line($"$readmemb(\"{files.Edges}\", edge_lines);");
                text.Line("@(negedge clock);");
                text.Line("@(negedge clock);");
                text.Line("reset = 0;");
                text.Line("for (line_index = 0; line_index < OPERATION_COUNT; line_index = line_index + 1) operation;");
                text.Line("@(negedge clock);");
                text.Line("for (line_index = 0; line_index < EDGE_COUNT; line_index = line_index + 1) edge_by_edge;");
                text.Line(
                    "$display(\"%0d operations, %0d clock edges: %0d wrong\", tried_count, compared_count, wrong_count);"
                );
                text.Line("if (unlawful_count > 0)");
                text.Inside(() =>
                    text.Line(
                        "$display(\"%0d operations break a law of the description, which is how it is described; "
                            + "the first is line %0d of the vectors\", unlawful_count, first_unlawful);"
                    )
                );
                text.Inside(
                    "if (wrong_count == 0) begin",
                    () =>
                    {
                        text.Line("$display(\"PASSED\");");
                        text.Line("$finish;");
                    },
                    "end else begin"
                );
                text.Inside(() =>
                {
                    text.Line("$display(\"FAILED\");");
                    text.Line("`ifdef __ICARUS__");
                    text.Line("$fatal(1);");
                    text.Line("`endif");
                    text.Line("$finish;");
                });
                text.Line("end");
            },
            "end"
        );
    }
}
