using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Datapaths;
using Reckoner.Explaining;
using Reckoner.Questions;
using Reckoner.Slips;

namespace Reckoner.Documents.Marking;

/// <summary>A question with the hardware that it is judged by; made once for all sheets.</summary>
internal sealed class MarkingKit
{
    private readonly Lazy<Slip?> planted;
    private readonly Lazy<Datapath?> slipped;
    private readonly Lazy<Datapath?> exposed;
    private Lazy<Ways?> ways;

    public MarkingKit(AskedForm form)
        : this(form, form.Hardware is { } hardware ? Built(hardware) : null) { }

    public MarkingKit(AskedForm form, Datapath? datapath)
    {
        Form = form;
        Datapath = datapath;
        ways = new Lazy<Ways?>(() => datapath is null ? null : Ways.Of(datapath, WhyQuestion.Others(datapath)));
        planted = new Lazy<Slip?>(() => SlipOf(form.Hardware?.Slip));
        slipped = new Lazy<Datapath?>(() => BuiltWith(planted.Value));
        exposed = new Lazy<Datapath?>(() => BuiltWith(SlipOf(form.Exposing)));
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

    /// <summary>The slip that was planted; null where there is none, or none of that name any more.</summary>
    public Slip? Planted => planted.Value;

    /// <summary>With the slip that was planted; null likewise.</summary>
    public Datapath? Slipped => slipped.Value;

    /// <summary>With the slip that chosen operands have to expose; null likewise.</summary>
    public Datapath? Exposed => exposed.Value;

    private Slip? SlipOf(string? name) =>
        name is null || Datapath is null ? null : Slip.Of(Datapath.Machine).FirstOrDefault(s => s.Name == name);

    private Datapath? BuiltWith(Slip? slip) =>
        slip?.Machine.Built(Datapath!.Widths.ToDictionary(w => w.Name, w => w.Value));

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
