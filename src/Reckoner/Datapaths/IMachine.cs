using System.Numerics;
using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Datapaths;

/// <summary>
/// A description with the machines it names, widths still symbols: what a datapath remembers of where it came from, so that whoever
/// has the one can ask for the other widths, for the machine it follows, and for the same with a slip.
/// </summary>
public interface IMachine
{
    Description Description { get; }

    string Name { get; }

    Phrase? Title { get; }

    IEnumerable<Phrase> Notes { get; }

    /// <summary>Widths and parameters in the order of the text; the first is the main one.</summary>
    IEnumerable<WidthLine> Widths { get; }

    /// <summary>The SHA-256 of the canonical text, the canonical text of every core appended.</summary>
    string Hash { get; }

    /// <summary>What is wrong with the sentences and with the machines named, whatever the widths.</summary>
    IReadOnlyList<Diagnostic> Found { get; }

    /// <summary>The machine that this one follows, if any and if it can be read.</summary>
    IMachine? Followed { get; }

    /// <summary>Of a machine in which one thing is done otherwise, the name of that slip; else null.</summary>
    string? Slip { get; }

    /// <summary>Of such a machine the one without the slip; else null.</summary>
    IMachine? Right { get; }

    /// <summary>
    /// The hardware at chosen widths; those not named take their default, which may use earlier ones. Null when something is
    /// wrong; the list then says everything that is, in the order of the text.
    /// </summary>
    (Datapath? Datapath, IReadOnlyList<Diagnostic> Diagnostics) At(IReadOnlyDictionary<string, BigInteger> widths);

    /// <summary>The same with the main width alone, or all at their defaults.</summary>
    (Datapath? Datapath, IReadOnlyList<Diagnostic> Diagnostics) At(int? width = null);

    /// <summary>
    /// The hardware without a look at operands: whether anyone satisfies "given", and what "follows" promises, is not asked. Null
    /// when something is wrong.
    /// </summary>
    internal Datapath? Built(IReadOnlyDictionary<string, BigInteger> widths);

    /// <summary>
    /// The hardware at the widths of a machine that follows this one; null, with the reasons, where it cannot be so wide. What it
    /// follows itself is not asked.
    /// </summary>
    internal (Datapath? Datapath, IReadOnlyList<Diagnostic> Found) Beside(Datapath later);

    /// <summary>The same machine with other sentences; the machines it names stay those that were found.</summary>
    internal IMachine With(Description description, string slip);
}
