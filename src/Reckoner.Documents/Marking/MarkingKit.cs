using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Datapaths;
using Reckoner.Explaining;
using Reckoner.Questions;

namespace Reckoner.Documents.Marking;

/// <summary>A question with the hardware that it is judged by; made once for all sheets.</summary>
internal sealed class MarkingKit
{
    private Lazy<Ways?> ways;

    public MarkingKit(AskedForm form)
        : this(form, form.Hardware is { } hardware ? Built(hardware) : null) { }

    public MarkingKit(AskedForm form, Datapath? datapath)
    {
        Form = form;
        Datapath = datapath;
        ways = new Lazy<Ways?>(() => datapath is null ? null : Ways.Of(datapath, WhyQuestion.Others(datapath)));
    }

    /// <summary>By the number of the question; questions about the same hardware search the same ways.</summary>
    public static IReadOnlyDictionary<int, MarkingKit> Of(IReadOnlyList<AskedForm> questions)
    {
        var kits = questions.ToDictionary(q => q.Number, q => new MarkingKit(q));
        var alike = kits.Values.GroupBy(k =>
            k.Datapath is { } datapath
                ? $"{datapath.Machine.Hash} {string.Join(' ', datapath.Widths.Select(w => w.Value))}"
                : ""
        );
        foreach (var kit in alike.SelectMany(g => g.Skip(1).Select(k => (Kit: k, First: g.First()))))
        {
            kit.Kit.ways = kit.First.ways;
        }
        return kits;
    }

    public AskedForm Form { get; }

    /// <summary>Without the slip that was planted; null where it is not known any more as it was, so that cells are compared.</summary>
    public Datapath? Datapath { get; private init; }

    /// <summary>Null where the rows are too wide to be searched.</summary>
    public Ways? Ways => ways.Value;

    private static Datapath? Built(AskedHardware hardware)
    {
        var source = hardware.Text is { } text
            ? new Source(hardware.Machine, text)
            : MachineCatalogue.Find(hardware.Machine);
        if (source is null)
        {
            return null;
        }
        var machine = Machine.Read(source, MachineCatalogue.Find);
        return machine.Hash == hardware.Hash ? machine.At(hardware.Widths).Datapath : null;
    }
}
