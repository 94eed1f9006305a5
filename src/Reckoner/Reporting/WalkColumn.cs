using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Notation;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>A column of a walk's table: its head, what its cells show, and what its short name stands for.</summary>
internal sealed record WalkColumn(GridColumn Head, Func<WalkRow, Cell> Cell)
{
    /// <summary>The description's words for it, and for the parts that stand apart in it.</summary>
    public IReadOnlyList<(Content Name, Content Said)> Legend { get; init; } = [];

    /// <summary>A register, part, meaning, named value or operand of this name; null when the machine has none.</summary>
    public static WalkColumn? Named(Walk walk, string name, StyleColumn asked, HouseStyle style, Vocabulary words)
    {
        var datapath = walk.Datapath;
        var digits = asked.Digits(style.Digits);
        var heading = asked.Heading ?? name;
        if (datapath.Registers.FirstOrDefault(r => r.Name == name) is { } register)
        {
            return Of(register, heading, digits, words);
        }
        if (datapath.Registers.SelectMany(r => r.Parts).FirstOrDefault(p => p.Name == name) is { } part)
        {
            return new WalkColumn(
                new GridColumn(heading, ColumnRole.Digits),
                row =>
                    Tables.Cell.Of(
                        digits.Of(
                            Numbers.Bits.Wrap(row.Registers[part.Register.Index] >> part.Low, part.Width),
                            part.Width,
                            part.Reading == Reading.Signed
                        )
                    )
            )
            {
                Legend = Said(heading, part.Phrase, words),
            };
        }
        if (datapath.Meanings.FirstOrDefault(m => m.Name == name) is { } meaning)
        {
            return Of(meaning, heading, words);
        }
        if (Wires(datapath).Any(w => w.Name == name))
        {
            return new WalkColumn(
                new GridColumn(heading, ColumnRole.Digits, OnWires: true),
                row =>
                    row.Value(name) is { } value
                        ? Tables.Cell.Of(
                            digits.Of(value.Bits, value.Wire.Value.Width, value.Wire.Value.Reading == Reading.Signed)
                        )
                        : Tables.Cell.Empty
            );
        }
        return datapath.Operands.FirstOrDefault(o => o.Name == name) is { } operand
            ? new WalkColumn(
                new GridColumn(heading, ColumnRole.Digits, OnWires: true),
                row =>
                    row.IsLoad
                        ? Tables.Cell.Of(digits.Of(walk.Operands[operand.Index], operand.Width, operand.IsSigned))
                        : Tables.Cell.Empty
            )
            {
                Legend = Said(heading, operand.Phrase, words),
            }
            : null;
    }

    public static WalkColumn Of(Register register, string heading, Digits digits, Vocabulary words)
    {
        var cuts = Columns.Cuts(register);
        return new WalkColumn(
            new GridColumn(heading, ColumnRole.Digits),
            row => Tables.Cell.Of(digits.Of(row.Registers[register.Index], register.Width, register.IsSigned, cuts))
        )
        {
            Legend =
            [
                .. Said(heading, register.Phrase, words),
                .. register.Parts.Select(p =>
                    (
                        (Content)Run.Formula($"{heading}[{Places(p)}]"),
                        Content.Phrase(WalkText.Both(p.Name, p.Phrase?.In(words.Language)))
                    )
                ),
            ],
        };
    }

    /// <summary>What registers stand for, while they do.</summary>
    public static WalkColumn Of(Meaning meaning, string heading, Vocabulary words) =>
        new(
            new GridColumn(heading, ColumnRole.Short) { IsMeaning = true },
            row =>
                meaning.IsSoAfter(row.Row.Step)
                    ? Tables.Cell.Of(words.Decimal(meaning.Say(NumberWords.Over(row.Registers))))
                    : Tables.Cell.Empty
        )
        {
            Legend = [(Content.Phrase(heading), Content.Phrase(WalkText.StandsFor(meaning, words)))],
        };

    private static string Places(Part part) => part.Width == 1 ? $"{part.Low}" : $"{part.High}..{part.Low}";

    private static IReadOnlyList<(Content, Content)> Said(string heading, Phrase? phrase, Vocabulary words) =>
        phrase?.In(words.Language) is { } said && said != heading
            ? [(Content.Phrase(heading), Content.Phrase(said))]
            : [];

    /// <summary>1 where a register or part is written (or shifted) in a row, 0 where it is not; nothing at the load.</summary>
    public static WalkColumn? Signal(Walk walk, string name, ColumnKind kind, string? heading, Vocabulary words)
    {
        var registers = walk.Datapath.Registers;
        var register =
            registers.FirstOrDefault(r => r.Name == name)
            ?? registers.FirstOrDefault(r => r.Parts.Any(p => p.Name == name));
        if (register is null)
        {
            return null;
        }
        var part = register.Name == name ? null : register.Parts.First(p => p.Name == name);
        var (high, low) = part is null ? (register.Width - 1, 0) : (part.High, part.Low);
        bool Touches(Place place) => place.Register == register && place.High >= low && place.Low <= high;
        bool Acts(Happening happening) =>
            (kind == ColumnKind.Moves) == happening is Shifted && happening.Written.Any(Touches);
        heading ??= words.Say(kind == ColumnKind.Moves ? "table.moves" : "table.writes", ("name", name));
        return new WalkColumn(
            new GridColumn(heading, ColumnRole.Short),
            row =>
                row.IsLoad
                    ? Tables.Cell.Empty
                    : Tables.Cell.Of(
                        new Run(RunKind.Number, row.Moments.Any(m => m.Happenings.Any(Acts)) ? "1" : "0", 10)
                    )
        );
    }

    /// <summary>The signals that a machine has: each register that is ever written, then each that is ever shifted.</summary>
    public static IEnumerable<(string Name, ColumnKind Kind)> Signals(Datapath datapath)
    {
        var transfers = Acts(datapath)
            .SelectMany(act =>
                act.Match<IEnumerable<TransferAct>>(
                    let: _ => [],
                    transfer: a => [a],
                    branch: _ => [],
                    arms: _ => [],
                    hold: _ => [],
                    remark: _ => []
                )
            )
            .ToList();
        bool Any(Register register, bool moves) =>
            transfers.Exists(t => (t.Entering is not null) == moves && t.Places.Any(p => p.Register == register));
        foreach (var register in datapath.Registers)
        {
            if (Any(register, moves: false))
            {
                yield return (register.Name, ColumnKind.Writes);
            }
            if (Any(register, moves: true))
            {
                yield return (register.Name, ColumnKind.Moves);
            }
        }
    }

    /// <summary>Everything that a description names inside a cycle.</summary>
    public static IEnumerable<Wire> Wires(Datapath datapath) => Acts(datapath).SelectMany(a => a.Names);

    private static IEnumerable<Act> Acts(Datapath datapath) =>
        datapath.Steps.SelectMany(s => s.Moments).SelectMany(m => m.SelectMany(a => a.All));
}
