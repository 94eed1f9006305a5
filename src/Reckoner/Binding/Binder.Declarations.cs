using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Binding;

internal sealed partial class Binder
{
    /// <summary>Sets widths and parameters. False when one is out of range, about which alone is then spoken.</summary>
    private bool Widths(IReadOnlyDictionary<string, BigInteger> chosen)
    {
        var inRange = true;
        var known = machine.Widths.Select(w => w.Name.Text).ToList();
        foreach (var name in chosen.Keys.Where(name => known.Count > 0 && IsWhole && !known.Contains(name)))
        {
            report.Add(
                Id.UnknownWidth,
                Lines.Count > 0 ? Lines[0].Span : new Span(0, 0),
                ("machine", machine.Name),
                ("name", name),
                ("known", known),
                ("near", NearNames.Of(name, known))
            );
        }
        foreach (var line in machine.Widths)
        {
            var name = line.Name.Text;
            BigInteger? value = chosen.TryGetValue(name, out var asked) ? asked : Whole(line.Default);
            var low = Whole(line.Low);
            var high = Whole(line.High);
            Declare(
                line.Name,
                new NumberSymbol(name, LineOf(line.Span), line.IsParameter ? "parameter" : "width", value)
            );
            if (value is null || low is null || high is null)
            {
                machineTornWidths.Add(name);
                continue;
            }
            if (low > high)
            {
                // A range that is turned round by a width out of range is no slip of its own.
                if (inRange)
                {
                    report.Add(
                        Id.RangeTurned,
                        Span.Covering(line.Low.Span, line.High.Span),
                        ("name", name),
                        ("low", low.Value),
                        ("high", high.Value)
                    );
                }
                inRange = false;
                numbers.TryAdd(name, value.Value);
                continue;
            }
            // Nor is a default that follows from one.
            if ((value < low || value > high) && (inRange || chosen.ContainsKey(name)))
            {
                inRange = false;
                report.Add(
                    Id.WidthOutOfRange,
                    line.Name.Span,
                    ("name", name),
                    ("value", value.Value),
                    ("low", low.Value),
                    ("high", high.Value),
                    ("machine", machine.Name),
                    ("way", new Term(WayInto(line, value.Value), ("machine", machine.Name)))
                );
            }
            numbers.TryAdd(name, value.Value);
        }
        return inRange;
    }

    /// <summary>A range can be widened only to what a word may have.</summary>
    private static string WayInto(WidthLine line, BigInteger value) =>
        value < 1 && !line.IsParameter ? "way.at-least-one"
        : value > WidestWord ? "way.in-range"
        : "way.in-range-or-widen";

    private readonly HashSet<string> machineTornWidths = [];

    private void Constants()
    {
        foreach (var line in Lines.OfType<ConstantLine>())
        {
            var number = Whole(line.Formula);
            var name = line.Name.Text;
            if (line.Type is null)
            {
                Declare(line.Name, new NumberSymbol(name, LineOf(line.Span), "constant", number));
            }
            else
            {
                Declare(line.Name, new BitsSymbol(name, LineOf(line.Span), ConstantBits(line, number)));
            }
            if (number is { } value && symbols.TryGetValue(name, out var symbol) && symbol.Line == LineOf(line.Span))
            {
                numbers.TryAdd(name, value);
            }
        }
    }

    private Value ConstantBits(ConstantLine line, BigInteger? number)
    {
        if (Bits(line.Type!.Width, line.Name.Text) is not { } size || number is not { } value)
        {
            return Value.Unknown;
        }
        if (!Numbers.Bits.Fits(value, size.Count, line.Type.IsSigned))
        {
            report.Add(Id.DoesNotFit, line.Formula.Span, ("number", Spoken(line.Formula, value)), ("size", size));
            return Value.Unknown;
        }
        return new Value(Operation.Constant, size, ReadingOf(line.Type))
        {
            Bits = Numbers.Bits.Wrap(value, size.Count),
            Written = new NameReference(line.Name.Span, line.Name.Text),
            Source = source,
        };
    }

    private static Reading ReadingOf(TypeSyntax type) => type.IsSigned ? Reading.Signed : Reading.Unsigned;

    private void DeclareOperands()
    {
        foreach (var line in Lines.OfType<OperandLine>())
        {
            var name = line.Name.Text;
            var value = Value.Unknown;
            if (Bits(line.Type.Width, name) is { } size)
            {
                var operand = new Operand(name, line.Phrase, size, line.Type.IsSigned, operands.Count)
                {
                    Declared = line.Name,
                };
                operands.Add(operand);
                value = new Value(Operation.Operand, size, operand.Reading)
                {
                    Operand = operand,
                    Written = new NameReference(line.Name.Span, name),
                    Source = source,
                };
            }
            Declare(line.Name, new OperandSymbol(name, LineOf(line.Span), value));
        }
    }

    /// <summary>Tables, registers, parts and units; what registers load comes later.</summary>
    private void DeclareHardware()
    {
        foreach (var line in Lines.OfType<TableBlock>())
        {
            Declare(line.Name, new TableSymbol(line.Name.Text, LineOf(line.Span), BindTable(line)));
        }
        foreach (var line in Lines.OfType<RegisterLine>())
        {
            Register? register = null;
            if (Bits(line.Type.Width, line.Name.Text) is { } size)
            {
                register = new Register(line.Name.Text, line.Phrase, size, line.Type.IsSigned, build.Registers.Count);
                build.Registers.Add(register);
            }
            Declare(line.Name, new RegisterSymbol(line.Name.Text, LineOf(line.Span), register));
        }
        foreach (var line in Lines.OfType<PartLine>())
        {
            if (OperandPart(line) is { } bits)
            {
                Declare(line.Name, bits);
                continue;
            }
            var part = BindPart(line);
            part?.Register.Add(part);
            Declare(line.Name, new PartSymbol(line.Name.Text, LineOf(line.Span), part));
        }
        foreach (var line in Lines.OfType<MeaningLine>())
        {
            Declare(line.Name, new MeaningSymbol(line.Name.Text, LineOf(line.Span)));
        }
        foreach (var line in Lines.OfType<FormulaLine>())
        {
            Declare(line.Name, new FormulaSymbol(line.Name.Text, LineOf(line.Span)));
            foreach (var again in line.Parameters.Where((p, i) => line.Parameters.Take(i).Any(e => e.Text == p.Text)))
            {
                report.Add(Id.DeclaredTwice, again.Span, ("name", again.Text), ("line", LineOf(line.Span)));
            }
        }
        foreach (var line in Lines.OfType<UnitLine>())
        {
            Unit? unit = null;
            if (Bits(line.Width, line.Name.Text) is { } size)
            {
                var by = line.By is null ? size : Bits(line.By, line.Name.Text);
                var kind =
                    line.Kind == Notation.UnitKind.Adder ? Datapaths.UnitKind.Adder : Datapaths.UnitKind.Multiplier;
                unit = by is null ? null : new Unit(line.Name.Text, kind, size, by, build.Units.Count + 1);
            }
            if (unit is not null)
            {
                build.Units.Add(unit);
            }
            Declare(line.Name, new UnitSymbol(line.Name.Text, LineOf(line.Span), unit));
        }
    }

    /// <summary>What a part is a slice of, and how it is read.</summary>
    private static (Expression Slice, Reading Reading) SliceOf(PartLine line) =>
        line.Slice is Call { Function: "signed" or "unsigned", Arguments: [var inner] } call
            ? (inner, call.Function == "signed" ? Reading.Signed : Reading.Unsigned)
            : (line.Slice, Reading.Unsigned);

    /// <summary>Null for a part of anything but an operand, and where its places are wrong, which is then reported.</summary>
    private OperandPartSymbol? OperandPart(PartLine line)
    {
        var (slice, reading) = SliceOf(line);
        if (
            slice is not Sliced { Value: NameReference of } sliced
            || symbols.GetValueOrDefault(of.Name) is not OperandSymbol operand
        )
        {
            return null;
        }
        var range = operand.Value.IsUnknown ? null : Range(sliced, operand.Value.Size, of.Name);
        return new OperandPartSymbol(line.Name.Text, LineOf(line.Span), operand, reading, range);
    }

    private Part? BindPart(PartLine line)
    {
        var (slice, reading) = SliceOf(line);
        if (slice is not Sliced { Value: NameReference of } sliced)
        {
            if (slice is not Unreadable)
            {
                report.Add(Id.NotAPart, slice.Span, ("name", line.Name.Text), ("value", Printer.Text(slice)));
            }
            return null;
        }
        if (!symbols.TryGetValue(of.Name, out var symbol))
        {
            ReportUnknown(of, symbols.Values.OfType<RegisterSymbol>().Select(s => s.Name));
            return null;
        }
        if (symbol is not RegisterSymbol { Register: var register })
        {
            report.Add(Id.NotAPart, slice.Span, ("name", line.Name.Text), ("value", Printer.Text(slice)));
            return null;
        }
        return register is not null && Range(sliced, register.Size, register.Name) is var (high, low, size)
            ? new Part(line.Name.Text, line.Phrase, register, high, low, reading, size)
            : null;
    }

    /// <summary>The places of a slice of a word, checked to lie inside it.</summary>
    private (int High, int Low, Size Size)? Range(Sliced slice, Size size, string name)
    {
        var high = Whole(slice.High);
        var low = slice.HasLow ? Whole(slice.Low) : high;
        if (high is null || low is null)
        {
            return null;
        }
        var places = slice.HasLow ? Span.Covering(slice.High.Span, slice.Low.Span) : slice.High.Span;
        if (high < low)
        {
            report.Add(
                Id.SliceEmpty,
                places,
                ("slice", Printer.Text(slice)),
                ("high", Spoken(slice.High, high.Value)),
                ("low", Spoken(slice.Low, low.Value))
            );
            return null;
        }
        if (low < 0 || high >= size.Count)
        {
            var outside = low < 0 ? Spoken(slice.Low, low.Value) : Spoken(slice.High, high.Value);
            report.Add(
                Id.SliceOutside,
                places,
                ("slice", Printer.Text(slice)),
                ("name", name),
                ("size", size),
                ("place", outside),
                ("top", size.Count - 1)
            );
            return null;
        }
        var width = (int)(high.Value - low.Value) + 1;
        var symbol = slice.HasLow
            ? LinearFormula.Of(slice.High) - LinearFormula.Of(slice.Low) + Linear.Of(1)
            : Linear.Of(1);
        return ((int)high.Value, (int)low.Value, new Size(width, symbol));
    }

    /// <summary>Binds the core's declarations; its names join ours, its operands are values over ours.</summary>
    private Binder? DeclareCore()
    {
        if (Lines.OfType<CoreBlock>().FirstOrDefault() is not { } line || machine.Core is not { } core)
        {
            return null;
        }
        if (Lines.TakeWhile(d => d != line).Any(d => d is RepeatBlock or StepBlock))
        {
            report.Add(Id.CoreNotFirst, line.Machine.Span, ("machine", line.Machine.Text));
        }
        var inner = new Report(core.Description.Source);
        inner.AddRange(core.Found);
        if (core.Description.Declarations.OfType<CoreBlock>().FirstOrDefault() is { } nested)
        {
            report.Add(Id.CoreInCore, line.Machine.Span, ("machine", line.Machine.Text), ("core", nested.Machine.Text));
            ReportBroken(line, inner);
            return null;
        }
        var binder = new Binder(core, inner, build);
        var widths = core
            .Widths.Where(w => numbers.ContainsKey(w.Name.Text))
            .ToDictionary(w => w.Name.Text, w => numbers[w.Name.Text].Numerator);
        foreach (var used in widths.Keys)
        {
            symbols[used].IsUsed = true;
        }
        if (inner.HasErrors || machineTornWidths.Count > 0 || !binder.Widths(widths))
        {
            ReportBroken(line, inner);
            return null;
        }
        binder.Constants();
        binder.DeclareCoreOperands(this, line);
        binder.DeclareHardware();
        foreach (
            var symbol in binder.symbols.Values.Where(s =>
                s is RegisterSymbol or PartSymbol or MeaningSymbol or UnitSymbol or TableSymbol
            )
        )
        {
            Declare(new Declared(line.Machine.Span, symbol.Name), symbol);
        }
        if (inner.HasErrors)
        {
            ReportBroken(line, inner);
            return null;
        }
        return binder;
    }

    /// <summary>What shows only when the core's loads, steps and units are bound.</summary>
    private void CheckCore(Binder? core)
    {
        if (core is { report.HasErrors: true })
        {
            ReportBroken(Lines.OfType<CoreBlock>().First(), core.report);
        }
    }

    private void ReportBroken(CoreBlock line, Report inner)
    {
        if (inner.InOrder().FirstOrDefault(d => d.Severity == Severity.Error) is { } first)
        {
            report.Add(
                Id.CoreBroken,
                line.Machine.Span,
                ("machine", line.Machine.Text),
                ("word", first.Id.Name),
                ("line", first.Line)
            );
        }
        for (var core = machine.Core; core is not null; core = core.Core)
        {
            lostNames.UnionWith(core.Description.Declarations.SelectMany(DeclaredNames));
        }
    }

    /// <summary>Names of a core that could not be used, and unknown ones once they are reported; nothing more is said about them.</summary>
    private readonly HashSet<string> lostNames = [];

    /// <summary>The names that a machine has from such a line of its core.</summary>
    private static IEnumerable<string> DeclaredNames(Declaration line) =>
        line.Match<IEnumerable<string>>(
            machine: _ => [],
            title: _ => [],
            note: _ => [],
            follows: _ => [],
            width: _ => [],
            constant: _ => [],
            operand: _ => [],
            given: _ => [],
            register: d => [d.Name.Text],
            part: d => [d.Name.Text],
            meaning: d => [d.Name.Text],
            unit: d => [d.Name.Text],
            table: d => [d.Name.Text],
            core: _ => [],
            repeat: _ => [],
            step: _ => [],
            result: _ => [],
            formula: _ => [],
            claim: _ => []
        );

    private void DeclareCoreOperands(Binder outer, CoreBlock block)
    {
        var given = new Dictionary<string, CoreOperand>();
        foreach (var row in block.Operands)
        {
            if (!given.TryAdd(row.Name.Text, row) && row.Name.Text.Length > 0)
            {
                outer.report.Add(
                    Id.DeclaredTwice,
                    row.Name.Span,
                    ("name", row.Name.Text),
                    ("line", outer.LineOf(given[row.Name.Text].Span))
                );
            }
        }
        var known = Lines.OfType<OperandLine>().Select(o => o.Name.Text).ToList();
        var isMisspelt = given.Keys.Any(name => !known.Contains(name));
        foreach (var line in Lines.OfType<OperandLine>())
        {
            var name = line.Name.Text;
            var value = Value.Unknown;
            if (!given.Remove(name, out var row))
            {
                // A row with a name that the core does not know was probably meant for this operand.
                if (outer.IsWhole && !isMisspelt)
                {
                    outer.report.Add(
                        Id.CoreOperandMissing,
                        block.Machine.Span,
                        ("machine", block.Machine.Text),
                        ("operand", name)
                    );
                }
            }
            else if (Bits(line.Type.Width, name) is { } size)
            {
                value = outer.Load(row.Value, size, ReadingOf(line.Type), row.Name.Text);
            }
            Declare(line.Name, new OperandSymbol(name, LineOf(line.Span), value) { IsUsed = true });
        }
        foreach (var (name, row) in given)
        {
            if (!outer.IsTorn(name))
            {
                outer.report.Add(
                    Id.CoreOperandUnknown,
                    row.Name.Span,
                    ("machine", block.Machine.Text),
                    ("operand", name),
                    ("near", NearNames.Of(name, known))
                );
            }
        }
    }

    private void Loads()
    {
        inLoad = true;
        foreach (var line in Lines.OfType<RegisterLine>())
        {
            if (
                symbols.TryGetValue(line.Name.Text, out var symbol)
                && symbol is RegisterSymbol { Register: { } register }
                && symbol.Line == LineOf(line.Span)
            )
            {
                register.Loads = Load(line.Loads, register.Size, register.Reading, register.Name);
            }
            else
            {
                EvaluateFor(line.Loads, null, Reading.Bare);
            }
        }
        inLoad = false;
    }

    /// <summary>A value over the operands that a register or a core's operand takes at the load.</summary>
    private Value Load(Expression written, Size size, Reading reading, string name)
    {
        var before = inLoad;
        inLoad = true;
        var value = Fit(Evaluate(written, size, reading), size, reading, name, written);
        inLoad = before;
        return value;
    }
}
