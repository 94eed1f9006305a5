using System.Numerics;
using Reckoner.Binding;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Slips;

namespace Reckoner.Questions;

/// <summary>The machine that a question is about: its description, one thing done otherwise in it if that is wanted, its widths.</summary>
public sealed class AskedMachine
{
    private readonly IMachine machine;
    private readonly Datapath? bound;

    public AskedMachine(IMachine machine)
    {
        ArgumentNullException.ThrowIfNull(machine);
        this.machine = machine;
    }

    /// <summary>Hardware that is known already; whatever was remarked about it was remarked then.</summary>
    public AskedMachine(Datapath bound)
    {
        ArgumentNullException.ThrowIfNull(bound);
        machine = bound.Machine;
        this.bound = bound;
    }

    /// <summary>The name of a slip that is made in it; null for the machine as it is described.</summary>
    public string? Slip
    {
        get;
        init => field = value is null || bound is null ? value : throw AlreadyBound();
    }

    public AskedWidths Widths
    {
        get;
        init
        {
            ArgumentNullException.ThrowIfNull(value);
            field = value == AskedWidths.Usual || bound is null ? value : throw AlreadyBound();
        }
    } = AskedWidths.Usual;

    /// <summary>Whether it is asked for at several widths, one after the other.</summary>
    internal bool IsRange => Widths.IsRange;

    private static ArgumentException AlreadyBound() =>
        new("The hardware is bound already: its slip and its widths are those that it was bound with.");

    public static implicit operator AskedMachine(Machine machine) => new(machine);

    public static implicit operator AskedMachine(Datapath bound) => new(bound);

    /// <summary>The hardware, with everything that the binder remarks.</summary>
    public Answer<Datapath> Bind()
    {
        var found = new Findings();
        return Bound(0, found) is { } datapath ? found.Given(datapath) : found.Refused<Datapath>();
    }

    /// <summary>The hardware; null with what is wrong in the findings, which get remarks too.</summary>
    /// <param name="index">Which of the machines of the question this is.</param>
    internal Datapath? Bound(int index, Findings found) =>
        bound
        ?? (
            Read(index, found) is { } read && Widths.Chosen(read, index, found) is { } widths
                ? At(read, widths, index, found)
                : null
        );

    /// <summary>The hardware at each of the widths, before any is used: what would be refused in the end is refused at once.</summary>
    internal (bool IsRange, IReadOnlyList<Datapath> Datapaths)? BoundAtAll(Findings found)
    {
        if (bound is not null)
        {
            return (false, [bound]);
        }
        if (Read(0, found) is not { } read || Widths.Choices(read, found) is not var (isRange, choices))
        {
            return null;
        }
        var datapaths = new Datapath[choices.Count];
        // The ends first: where one of them is wrong, that is what was mistyped.
        foreach (var i in Enumerable.Range(0, choices.Count).OrderBy(i => i > 0 && i < choices.Count - 1))
        {
            if (At(read, choices[i], 0, found) is not { } datapath)
            {
                return null;
            }
            datapaths[i] = datapath;
        }
        return Widths.IsTooLong(found) ? null : (isRange, datapaths);
    }

    /// <summary>The machine with its slip. A description that is wrong has none, which is said when it is bound.</summary>
    private IMachine? Read(int index, Findings found)
    {
        if (Slip is null || machine.Found.Any(d => d.Severity == Severity.Error))
        {
            return machine;
        }
        var slips = Slips.Slip.Of(machine);
        if (slips.FirstOrDefault(s => s.Name == Slip) is { } slip)
        {
            return slip.Machine;
        }
        AddUnknown(found, AskedPart.Slip, index, machine.Name, Slip, slips.Select(s => s.Name));
        return null;
    }

    /// <summary>Says that a machine has no slip of a name, with the near ones.</summary>
    internal static void AddUnknown(
        Findings found,
        AskedPart part,
        int index,
        string machine,
        string slip,
        IEnumerable<string> names
    ) =>
        found.Add(
            Id.UnknownSlip,
            part,
            index,
            ("machine", machine),
            ("slip", slip),
            ("near", NearNames.Of(slip, names))
        );

    /// <summary>A slip whose results are of another width than the right machine's is not listed there, and is none at these widths.</summary>
    private Datapath? At(IMachine machine, IReadOnlyDictionary<string, BigInteger> widths, int index, Findings found)
    {
        var (datapath, diagnostics) = machine.At(widths);
        found.AddRange(diagnostics.Select(d => Placed(d, widths, index)));
        if (datapath is null || Slip is null || SlipStudy.IsListed(datapath, out var listed))
        {
            return datapath;
        }
        AddUnknown(found, AskedPart.Slip, index, datapath.Machine.Name, Slip, listed);
        return null;
    }

    /// <summary>A width that was asked for and is out of range is a slip of the question, not of the description.</summary>
    private static Finding Placed(Diagnostic diagnostic, IReadOnlyDictionary<string, BigInteger> widths, int index) =>
        diagnostic.Id == Id.WidthOutOfRange && widths.ContainsKey((string)diagnostic.Facts[0].Value)
            ? new Finding(diagnostic with { Source = null, Span = default }, AskedPart.Widths, index)
            : new Finding(diagnostic, AskedPart.Description, index);
}
