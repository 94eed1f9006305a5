using System.Numerics;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Page.State;

/// <summary>What a line of the description did in a moment.</summary>
/// <param name="Text">In words.</param>
/// <param name="Writes">The bits that the line gave new values.</param>
/// <param name="IsIdle">It is a line of this moment and was not taken.</param>
public sealed record LineNote(int Line, string Text, IReadOnlyList<WrittenBits> Writes, bool IsIdle);

/// <summary>What each line of a description did in one moment of a walk: what it loaded, saw, wrote, gave or claimed.</summary>
public static class LineNotes
{
    /// <param name="moment">0 is the load, one more than the last cycle the results.</param>
    public static IReadOnlyList<LineNote> Of(Walk walk, int moment, Vocabulary words) =>
        moment <= 0 ? AtLoad(walk, words)
        : moment > walk.Cycles ? AtEnd(walk, words)
        : InCycle(walk.Rows[moment], walk, words);

    private static LineNote Note(int line, string text) => new(line, text, [], IsIdle: false);

    private static List<LineNote> AtLoad(Walk walk, Vocabulary words)
    {
        var (datapath, notes) = (walk.Datapath, new List<LineNote>());
        var source = datapath.Machine.Description.Source;
        foreach (var declaration in datapath.Machine.Description.Declarations)
        {
            var line = source.LineOf(declaration.Span.Start);
            switch (declaration)
            {
                case WidthLine w:
                    notes.AddRange(
                        datapath.Widths.Where(x => x.Name == w.Name.Text).Select(x => Note(line, Bits.Text(x.Value)))
                    );
                    break;
                case OperandLine o:
                    notes.AddRange(
                        datapath
                            .Operands.Where(x => x.Name == o.Name.Text)
                            .Select(x =>
                                Note(line, Both(x.Number(walk.Operands[x.Index]), walk.Operands[x.Index], x.Width))
                            )
                    );
                    break;
                case RegisterLine r:
                    notes.AddRange(
                        datapath
                            .Registers.Where(x => x.Name == r.Name.Text)
                            .Select(x => new LineNote(
                                line,
                                Columns.Text(x, walk.Rows[0].Registers[x.Index]),
                                [WrittenBits.All(x)],
                                false
                            ))
                    );
                    break;
                case GivenLine when !walk.IsGiven:
                    notes.Add(Note(line, words.Say("page.outside-given")));
                    break;
            }
        }
        return notes;
    }

    private static string Both(BigInteger number, BigInteger bits, int width) =>
        $"{Bits.Text(number)} = {Bits.Text(bits, width)}";

    private static IReadOnlyList<LineNote> InCycle(Row row, Walk walk, Vocabulary words)
    {
        var own = walk.Datapath.Machine.Description.Source;
        var happenings = row.Moments.SelectMany(m => m.Happenings).ToList();
        // What happens inside a core has its lines in another text; it is told beside the line that names the core.
        var core = walk.Datapath.Machine.Description.Declarations.OfType<CoreBlock>().FirstOrDefault();
        var speech = Speech.Of(walk.Datapath, words, HouseStyle.None);
        var coreLine = core is null ? 0 : own.LineOf(core.Span.Start);
        return
        [
            .. happenings
                .GroupBy(h => h.Source == own ? h.Line : coreLine)
                .Where(g => g.Key > 0)
                .OrderBy(g => g.Key)
                .Select(g => InCycle(g.Key, [.. g], speech))
                .Where(n => n.Text.Length > 0),
        ];
    }

    private static LineNote InCycle(int line, IReadOnlyList<Happening> happenings, Speech speech)
    {
        var told = $"{Sentences.Told(happenings, speech)}";
        var idle = happenings.Any(h => h is Stayed) && happenings.All(h => h is Stayed or Tested);
        return new LineNote(
            line,
            idle ? speech.Say("page.not-taken", ("what", told)) : told,
            [.. happenings.SelectMany(h => h.Written).Select(WrittenBits.Of).Distinct()],
            idle
        );
    }

    private static List<LineNote> AtEnd(Walk walk, Vocabulary words)
    {
        var (datapath, notes) = (walk.Datapath, new List<LineNote>());
        var source = datapath.Machine.Description.Source;
        var numbers = datapath.Widths.ToDictionary(w => w.Name, w => w.Value);
        foreach (var operand in datapath.Operands)
        {
            numbers[operand.Name] = operand.Number(walk.Operands[operand.Index]);
        }
        foreach (var (result, bits) in datapath.Results.Zip(walk.Results))
        {
            numbers[result.Name] = result.Number(bits);
            var line = datapath
                .Machine.Description.Declarations.OfType<ResultLine>()
                .First(l => l.Name.Text == result.Name);
            notes.Add(Note(source.LineOf(line.Span.Start), Both(result.Number(bits), bits, result.Width)));
        }
        foreach (var claim in walk.Claims)
        {
            var verdict = words.Say(
                claim switch
                {
                    { Applies: false } => "walk.applies-not",
                    { Holds: true } => "walk.holds",
                    _ => "walk.broken",
                }
            );
            var said = claim.Applies ? $"{verdict}: {ClaimText.Applied(claim, numbers, datapath, words)}" : verdict;
            notes.Add(Note(source.LineOf(claim.Claim.Place.Start), said));
        }
        return notes;
    }
}
