using System.Numerics;
using System.Security.Cryptography;
using System.Text;
using Reckoner.Catalogue;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Binding;

/// <summary>Finds the text of a machine named by another; null when there is none.</summary>
public delegate Source? Library(string name);

/// <summary>
/// A description with the machines it names (its core, the one it follows), widths still symbols. <see cref="At(int?)"/> checks it at
/// chosen widths and gives the hardware.
/// </summary>
public sealed class Machine : IMachine
{
    private Machine(
        Description description,
        Machine? core,
        Machine? followed,
        IReadOnlyList<Diagnostic> found,
        FilledTables tables,
        string? slip = null
    )
    {
        Description = description;
        Core = core;
        Followed = followed;
        Found = found;
        Tables = tables;
        Slip = slip;
    }

    public Description Description { get; }

    /// <summary>The machine inside this one, if any.</summary>
    public Machine? Core { get; }

    /// <summary>The machine that this one follows, if any and if it can be read.</summary>
    public Machine? Followed { get; }

    IMachine? IMachine.Followed => Followed;

    /// <summary>Of a machine in which one thing is done otherwise, the name of that slip; else null.</summary>
    public string? Slip { get; }

    /// <summary>Of such a machine the one without the slip; else null.</summary>
    public Machine? Right { get; private init; }

    IMachine? IMachine.Right => Right;

    /// <summary>Tables filled before, for this machine or one that shares sentences with it.</summary>
    internal FilledTables Tables { get; }

    /// <summary>What is wrong with the sentences and with the machines named, whatever the widths.</summary>
    public IReadOnlyList<Diagnostic> Found { get; }

    public string Name => Description.Name;

    public Phrase? Title => Description.Declarations.OfType<TitleLine>().FirstOrDefault()?.Title;

    public IEnumerable<Phrase> Notes => Description.Declarations.OfType<NoteLine>().Select(n => n.Text);

    /// <summary>Widths and parameters in the order of the text; the first is the main one.</summary>
    public IEnumerable<WidthLine> Widths => Description.Declarations.OfType<WidthLine>();

    /// <summary>The SHA-256 of the canonical text, the canonical text of every core appended.</summary>
    public string Hash => "sha256:" + Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(HashedText)));

    private string HashedText => Printer.Text(Description) + Core?.HashedText;

    /// <summary>Reads a text and the machines it names.</summary>
    public static Machine Read(Source source, Library library) => Read(source, library, [], []);

    /// <summary>Several texts of one library, in their order; what they name is read once for all of them.</summary>
    /// <param name="sources">Each with the name that the library has it by.</param>
    internal static IReadOnlyList<Machine> ReadAll(IEnumerable<(string Name, Source Source)> sources, Library library)
    {
        var known = new Dictionary<string, Machine>();
        return
        [
            .. sources.Select(s =>
                known.TryGetValue(s.Name, out var machine)
                    ? machine
                    : known[s.Name] = Read(s.Source, library, [], known)
            ),
        ];
    }

    /// <summary>A machine of an edited description; the machines it names are looked up anew.</summary>
    public static Machine Of(Description description, Library library) =>
        Linked(description, new Report(description.Source), library, [], []);

    /// <param name="chain">The names on the way to this text.</param>
    /// <param name="known">The machines read to their end; each is read once, however many name it.</param>
    private static Machine Read(Source source, Library library, List<string> chain, Dictionary<string, Machine> known)
    {
        var (description, found) = Parser.Read(source);
        var report = new Report(source);
        report.AddRange(found);
        return Linked(description, report, library, chain, known);
    }

    private static Machine Linked(
        Description description,
        Report report,
        Library library,
        List<string> chain,
        Dictionary<string, Machine> known
    )
    {
        chain = [.. chain, description.Name];
        var coreLine = description.Declarations.OfType<CoreBlock>().FirstOrDefault();
        var followsLine = description.Declarations.OfType<FollowsLine>().FirstOrDefault();
        var core = coreLine is null ? null : Named(coreLine.Machine, report, library, chain, known);
        var followed = followsLine is null ? null : Named(followsLine.Machine, report, library, chain, known);
        return new Machine(description, core, followed, report.InOrder(), new FilledTables());
    }

    private static Machine? Named(
        Declared name,
        Report report,
        Library library,
        List<string> chain,
        Dictionary<string, Machine> known
    )
    {
        if (name.Text.Length == 0)
        {
            return null;
        }
        if (chain.Contains(name.Text))
        {
            var circle = chain.SkipWhile(n => n != name.Text).Append(name.Text);
            report.Add(Id.MachineCircle, name.Span, ("machine", name.Text), ("path", string.Join(" > ", circle)));
            return null;
        }
        if (!known.TryGetValue(name.Text, out var machine))
        {
            if (library(name.Text) is not { } source)
            {
                var near = NearNames.Of(name.Text, MachineCatalogue.Names);
                report.Add(Id.UnknownMachine, name.Span, ("machine", name.Text), ("near", near));
                return null;
            }
            known[name.Text] = machine = Read(source, library, chain, known);
        }
        // A circle further on is said in every text that leads into it.
        if (machine.Found.FirstOrDefault(d => d.Id == Id.MachineCircle) is { } inner)
        {
            report.Add(Id.MachineCircle, name.Span, [.. inner.Facts]);
            return null;
        }
        return machine;
    }

    /// <summary>
    /// The hardware at chosen widths; those not named take their default, which may use earlier ones. Null when something is
    /// wrong; the list then says everything that is, in the order of the text.
    /// </summary>
    public (Datapath? Datapath, IReadOnlyList<Diagnostic> Diagnostics) At(
        IReadOnlyDictionary<string, BigInteger> widths
    )
    {
        var report = new Report(Description.Source);
        report.AddRange(Found);
        var datapath = Binder.Bind(this, widths, report);
        if (datapath is not null && !report.HasErrors)
        {
            Lineage.Check(this, datapath, report);
        }
        // A line that could not be read has been spoken of; what its remains seem to mean is nobody's slip.
        var broken = Found.Where(d => d.Severity == Severity.Error).Select(d => d.Line).ToHashSet();
        var said = new HashSet<Diagnostic>(Found, ReferenceEqualityComparer.Instance);
        IReadOnlyList<Diagnostic> found =
        [
            .. report.InOrder().Where(d => said.Contains(d) || !broken.Contains(d.Line)),
        ];
        if (report.HasErrors || datapath is null)
        {
            return (null, found);
        }
        datapath.Remarks = found;
        return (datapath, found);
    }

    (Datapath? Datapath, IReadOnlyList<Diagnostic> Found) IMachine.Beside(Datapath later) => Beside(later);

    /// <inheritdoc cref="IMachine.Beside"/>
    internal (Datapath? Datapath, IReadOnlyList<Diagnostic> Found) Beside(Datapath later)
    {
        var shared = Widths
            .Select(w => w.Name.Text)
            .Where(later.Numbers.ContainsKey)
            .ToDictionary(name => name, name => later.Numbers[name].Numerator);
        var report = new Report(Description.Source);
        report.AddRange(Found);
        var bound = report.HasErrors ? null : Binder.Bind(this, shared, report);
        return (report.HasErrors ? null : bound, report.InOrder());
    }

    /// <summary>The same machine with other sentences; the machines it names stay those that were found.</summary>
    IMachine IMachine.With(Description description, string slip) =>
        new Machine(description, Core, Followed, [], Tables, slip) { Right = this };

    Datapath? IMachine.Built(IReadOnlyDictionary<string, BigInteger> widths) => Built(widths);

    /// <summary>
    /// The hardware without a look at operands: whether anyone satisfies "given", and what "follows" promises, is not asked.
    /// </summary>
    internal Datapath? Built(IReadOnlyDictionary<string, BigInteger> widths)
    {
        var report = new Report(Description.Source);
        var datapath = Binder.Bind(this, widths, report, examine: false);
        return report.HasErrors ? null : datapath;
    }

    /// <summary>The same with the main width alone, or all at their defaults.</summary>
    public (Datapath? Datapath, IReadOnlyList<Diagnostic> Diagnostics) At(int? width = null) =>
        At(
            width is { } w && Widths.FirstOrDefault() is { } main
                ? new Dictionary<string, BigInteger> { [main.Name.Text] = w }
                : new Dictionary<string, BigInteger>()
        );
}
