using Reckoner.Binding;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Editing;
using Reckoner.Questions;

namespace Reckoner.Editor;

/// <summary>
/// A text that an editor has open, as it is at one moment; each change makes another. It is read when something is first asked of
/// it, with the others as they are then.
/// </summary>
internal sealed class OpenDocument
{
    private readonly Lazy<Machine> machine;
    private readonly Lazy<Mentions> mentions;
    private readonly Lazy<(Datapath? Datapath, IReadOnlyList<Diagnostic> Found)> bound;

    /// <param name="width">At which its hardware is looked at; where that is none of its widths, at its own.</param>
    public OpenDocument(string uri, int version, Source source, Library library, AskedWidths width)
    {
        (Uri, Version, Source) = (uri, version, source);
        machine = new(() => Machine.Read(source, library));
        mentions = new(() => Mentions.Of(machine.Value.Description));
        bound = new(() => Bound(machine.Value, width));
    }

    public string Uri { get; }
    public int Version { get; }
    public Source Source { get; }
    public Machine Machine => machine.Value;
    public Mentions Mentions => mentions.Value;

    /// <summary>Null where something is wrong.</summary>
    public Datapath? Datapath => bound.Value.Datapath;

    /// <summary>What is wrong or remarkable in it; what is wrong in a machine that it names stands at the name.</summary>
    public IReadOnlyList<Diagnostic> Found => bound.Value.Found;

    private static (Datapath?, IReadOnlyList<Diagnostic>) Bound(Machine machine, AskedWidths width)
    {
        var answer = new AskedMachine(machine) { Widths = width }.Bind();
        if (answer.Found.Any(f => f.Part == AskedPart.Widths))
        {
            answer = new AskedMachine(machine).Bind();
        }
        return (answer.Data, [.. answer.Found.Select(f => f.Diagnostic)]);
    }
}
