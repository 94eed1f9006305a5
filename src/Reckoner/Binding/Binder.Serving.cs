using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Numbers;

namespace Reckoner.Binding;

internal sealed partial class Binder
{
    private Via? TakeVia()
    {
        var taken = via is { IsTaken: false } ? via : null;
        if (taken is not null)
        {
            taken.IsTaken = true;
        }
        return taken;
    }

    /// <summary>Enters an operation that needs a unit, the named one or one to be shared.</summary>
    private Value Served(Value value, Via? named)
    {
        if (IsWiringOnly(value.Written!))
        {
            return Value.Unknown;
        }
        var kind = Operations.Row(value.Operation).Unit!.Value;
        if (named is not null)
        {
            if (named.Unit.Kind != kind)
            {
                report.Add(
                    Id.ViaKind,
                    named.Name.Span,
                    ("unit", named.Name.Text),
                    ("is", new Term("a-" + Word(named.Unit.Kind))),
                    ("operation", new Term("a-" + Word(kind)))
                );
                return Value.Unknown;
            }
            if (named.Unit.Size.Count != Sharing.Width(value).Count || named.Unit.By.Count != Sharing.By(value).Count)
            {
                report.Add(
                    Id.ViaWidth,
                    named.Name.Span,
                    ("unit", named.Name.Text),
                    ("size", Spoken(named.Unit.Size, named.Unit.By)),
                    ("operands", Spoken(Sharing.Width(value), Sharing.By(value)))
                );
                return Value.Unknown;
            }
        }
        var place = named?.Name.Span ?? value.Written!.Span;
        var unitName = named?.Name.Text ?? "";
        var whole = isStepWhole;
        build.Uses.Add(
            new PendingUse(
                value,
                kind,
                step,
                inLoopCondition,
                path,
                named?.Unit,
                LineOf(place),
                whole ? line => report.Add(Id.UnitBusy, place, ("unit", unitName), ("line", line)) : _ => { }
            )
        );
        return value;
    }

    private static object Spoken(Size width, Size by) => width.Count == by.Count ? width : $"{width}, {by}";

    private static string Word(Datapaths.UnitKind kind) =>
        kind switch
        {
            Datapaths.UnitKind.Adder => "adder",
            Datapaths.UnitKind.Multiplier => "multiplier",
            Datapaths.UnitKind.Comparator => "comparator",
            Datapaths.UnitKind.CarrySaveAdder => "carry-save-adder",
        };
}
