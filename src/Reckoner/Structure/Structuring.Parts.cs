using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Structure;

/// <summary>Registers, units, choices and nets, once every state is known.</summary>
internal sealed partial class Structuring
{
    private RegisterStructure Of(Register register)
    {
        var index = register.Index;
        var writing = Enumerable.Range(1, stored.Count - 1).Where(s => stored[s][index] != held[index]).ToList();
        return new RegisterStructure(
            register,
            [.. drafts.SelectMany(d => d.Entries).Where(e => e.Register == register)],
            [.. stored.Select(s => nets[s[index]])],
            writing,
            writing.Select(s => stored[s][index]).Distinct().Count()
        );
    }

    private UnitStructure Of(Unit unit) =>
        new(
            unit,
            [
                .. drafts
                    .SelectMany(d => d.Settings)
                    .Concat(stops.SelectMany(s => s.Settings))
                    .Where(s => s.Unit == unit),
            ],
            [.. nets.Nets.Where(n => n.Unit == unit)]
        );

    private Choice? ChoiceOf(Word word, int place) =>
        word.Operation == WordOperation.Choose
            ? new Choice(
                word.Origin,
                word.Width,
                nets[word.Inputs[0]],
                nets[word.Inputs[1]],
                nets[word.Inputs[2]],
                nets[place]
            )
            : null;

    /// <summary>The nets that anything takes; the graph knows more.</summary>
    private List<Net> Reached(IEnumerable<Bundle> results)
    {
        var guards = drafts.SelectMany(d => d.Doings).SelectMany(d => d.When).Select(g => g.Word);
        var settings = drafts.SelectMany(d => d.Settings).Concat(stops.SelectMany(s => s.Settings));
        var taken = results
            .Concat(stored.SelectMany(s => s).Select(place => nets[place]))
            .Concat(guards)
            .Concat(stops.Select(s => s.Goes.Word))
            .Concat(settings.SelectMany(s => s.Operands));
        var reached = Reach.From(taken.SelectMany(b => b.Nets), n => n.Inputs.SelectMany(i => i.Nets));
        return [.. nets.Nets.Where(reached.Contains)];
    }
}
