using System.Collections.Immutable;
using System.Numerics;
using Reckoner.Catalogue;
using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Questions;
using Reckoner.Running;

namespace Reckoner.Page.State;

/// <summary>What is wrong with something typed into a field.</summary>
public sealed record FieldSlip(string Field, Diagnostic Diagnostic);

/// <summary>What a sheet gives: as far as it is right, its machine, hardware and walk, and everything that is wrong.</summary>
public sealed class Reading
{
    private Reading(Sheet sheet, IMachine machine)
    {
        Sheet = sheet;
        Machine = machine;
        Cut = Cut.Of(machine.Description);
    }

    public Sheet Sheet { get; }
    public IMachine Machine { get; }
    public Cut Cut { get; }

    /// <summary>Widths that were set, as far as they are numbers and the text has them.</summary>
    public IReadOnlyDictionary<string, BigInteger> ChosenWidths { get; private init; } =
        new Dictionary<string, BigInteger>();

    /// <summary>Null where the text or a width is wrong.</summary>
    public Datapath? Datapath { get; private init; }

    /// <summary>Null where an operand is wrong too.</summary>
    public Walk? Walk { get; private init; }

    /// <summary>What is wrong or remarked in the text.</summary>
    public IReadOnlyList<Diagnostic> Found { get; private init; } = [];

    /// <summary>What is wrong with widths and operands.</summary>
    public IReadOnlyList<FieldSlip> Fields { get; private init; } = [];

    public IEnumerable<Diagnostic> Errors => Found.Where(d => d.Severity == Severity.Error);

    public static Reading Of(Sheet sheet)
    {
        var machine = Binding.Machine.Read(new Source(Named(sheet), sheet.Text), MachineCatalogue.Find);
        return Of(sheet, machine);
    }

    /// <summary>The text alone, where nothing could be made of it.</summary>
    public static Reading Unread(Sheet sheet) =>
        new(sheet, Binding.Machine.Read(new Source(Named(sheet), sheet.Text), MachineCatalogue.Find));

    /// <summary>The same for a machine that was read already, such as a slip of one.</summary>
    public static Reading Of(Sheet sheet, IMachine machine)
    {
        var fields = new List<FieldSlip>();
        var widths = Widths(sheet, machine, fields);
        var bound = new AskedMachine(machine) { Widths = AskedWidths.Named(widths) }.Bind();
        var (datapath, found) = (bound.Data, bound.Found.Select(f => f.Diagnostic).ToList());
        fields.AddRange(found.Where(d => d.Id == Id.WidthOutOfRange).Select(d => new FieldSlip(WidthOf(d), d)));
        found.RemoveAll(d => d.Id == Id.WidthOutOfRange);
        var walk = datapath is null || fields.Count > 0 ? null : Walked(sheet, datapath, fields);
        return new Reading(sheet, machine)
        {
            ChosenWidths = widths,
            Datapath = datapath,
            Found = found,
            Fields = fields,
            Walk = walk,
        };
    }

    /// <summary>Other machines at the widths that were set, as far as they have them and are right at them.</summary>
    internal IEnumerable<Datapath> AtItsWidths(IEnumerable<IMachine> machines) =>
        machines
            .Select(m =>
                new AskedMachine(m)
                {
                    Widths = AskedWidths.Named(
                        ChosenWidths
                            .Where(w => m.Widths.Any(own => own.Name.Text == w.Key))
                            .ToDictionary(w => w.Key, w => w.Value)
                    ),
                }
                    .Bind()
                    .Data
            )
            .OfType<Datapath>();

    private static string Named(Sheet sheet) => sheet.Origin.Length > 0 ? sheet.Origin + ".machine" : "text";

    private static string WidthOf(Diagnostic diagnostic) =>
        diagnostic.Facts.First(f => f.Name == "name").Value.ToString()!;

    /// <summary>Widths that the text does not have any more are passed over; they come back with it.</summary>
    private static Dictionary<string, BigInteger> Widths(Sheet sheet, IMachine machine, List<FieldSlip> fields)
    {
        var widths = new Dictionary<string, BigInteger>();
        foreach (var name in machine.Widths.Select(w => w.Name.Text).Distinct())
        {
            if (sheet.Widths.GetValueOrDefault(name) is not { } typed)
            {
                continue;
            }
            if (OperandReader.Number(typed) is { } number)
            {
                widths[name] = number;
            }
            else
            {
                fields.Add(new FieldSlip(name, Slip(typed, Id.OperandNotNumber, ("value", Excerpt.Of(typed)))));
            }
        }
        return widths;
    }

    /// <summary>Null where an operand is wrong. The page walks those too that the machine is not for, and says so.</summary>
    private static Walk? Walked(Sheet sheet, Datapath datapath, List<FieldSlip> fields)
    {
        var defaults = new Lazy<IReadOnlyList<string>>(() => DefaultOperands.Of(datapath));
        var answer = new WalkQuestion(datapath)
        {
            Operands = [.. datapath.Operands.Select(o => new AskedOperand(o.Name, Typed(o)))],
            Anyway = true,
            IsTraced = Views.Parted.ShowsOrigins,
        }.Ask();
        fields.AddRange(answer.Refusals.Select(f => new FieldSlip(datapath.Operands[f.Index].Name, f.Diagnostic)));
        return answer.Data;

        string Typed(Operand operand) =>
            sheet.Operand(operand.Index).Trim() is { Length: > 0 } typed ? typed : defaults.Value[operand.Index];
    }

    private static Diagnostic Slip(string typed, Id id, params ImmutableArray<Fact> facts) =>
        new(id, new Source("", typed) { IsRequest = true }, new Span(0, typed.Length), facts);
}
