using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Documents.Lessons;
using Reckoner.Explaining;
using Reckoner.Marking;
using Reckoner.Running;
using Reckoner.Slips;

namespace Reckoner.Documents.Marking;

/// <summary>Judges a question of a sheet by its kind. Whatever is right counts, be it as it was expected or not.</summary>
/// <param name="engine">Asks whether chosen operands show what they have to.</param>
internal sealed class QuestionJudge(MarkScheme scheme, IPlaneEngine engine)
{
    public MarkedQuestion Of(MarkingKit kit, AnsweredQuestion answer, FilledSheet filled)
    {
        if (answer.Tables.Count == 0 && answer.Fields.Count == 0)
        {
            return new MarkedQuestion(kit.Form, null) { Open = OpenReason.OnPaper };
        }
        return kit.Form.Task switch
        {
            QuestionTask.Fill => new WalkJudge(kit, answer, filled).Judged(scheme) ?? Compared(kit, answer, filled),
            QuestionTask.Say when WalkOf(kit, answer) is { } walk => Placed(
                kit,
                answer.Fields.Select(f => FieldJudge.Said(f, Typed(f), walk))
            ),
            QuestionTask.Find when WalkOf(kit, answer) is { } walk && Slipped(kit) is { } wrong => Placed(
                kit,
                FieldJudge.Found(answer.Fields, Typed, walk, Walk.Of(wrong, walk.Operands))
            ),
            QuestionTask.Choose when kit.Datapath is { } datapath => Placed(kit, Chosen(kit, datapath)),
            QuestionTask.Mend when kit.Datapath is not null => Placed(
                kit,
                answer.Fields.Select(f =>
                    f.Name == MendJudge.Text ? new MendJudge(kit, answer).Mended(f, Typed(f)) : Plain(f)
                )
            ),
            QuestionTask.Say
            or QuestionTask.Find
            or QuestionTask.Which
            or QuestionTask.Choose
            or QuestionTask.Mend
            or QuestionTask.Complete => Compared(kit, answer, filled),
        };

        string Typed(AnsweredField field) => filled[$"{answer.Number}.{field.Name}"];

        MarkedPlace Plain(AnsweredField field) =>
            new(field, Typed(field), FieldJudge.Same(Typed(field), field.Expected), field.Expected);

        IEnumerable<MarkedPlace> Chosen(MarkingKit asked, Datapath datapath)
        {
            var standing = Shows(asked, datapath, answer.Fields, Typed);
            return answer.Fields.Select(f => new MarkedPlace(
                f,
                Typed(f),
                Typed(f).Length == 0 ? PlaceStanding.Empty : standing,
                f.Expected
            ));
        }
    }

    /// <summary>Each place counts; where one cannot be read the question waits.</summary>
    private static MarkedQuestion Placed(MarkingKit kit, IEnumerable<MarkedPlace> judged)
    {
        List<MarkedPlace> places = [.. judged];
        var unread = places.Where(p => p.Standing == PlaceStanding.Unread).ToList();
        Credit? credit =
            unread.Count > 0 ? null : new Credit(places.Count, places.Count(p => p.Standing != PlaceStanding.Right));
        return new MarkedQuestion(kit.Form, credit)
        {
            Open = unread.Count > 0 ? OpenReason.Unread : null,
            Places = places,
            Unread = [.. unread.Select(p => new UnreadCell(0, p.Field.Label, p.Typed))],
        };
    }

    private static MarkedQuestion Compared(MarkingKit kit, AnsweredQuestion answer, FilledSheet filled)
    {
        var tables = answer.Tables.Select(t => CellsJudge.Of(t, filled)).ToList();
        var places = Placed(
            kit,
            answer.Fields.Select(f =>
            {
                var typed = filled[$"{answer.Number}.{f.Name}"];
                return new MarkedPlace(f, typed, FieldJudge.Same(typed, f.Expected), f.Expected);
            })
        );
        return places with
        {
            Credit = tables.Aggregate(places.Credit!.Value, (all, t) => all + t.Credit),
            Cells = [.. tables.Select(t => t.Cells)],
        };
    }

    private static Walk? WalkOf(MarkingKit kit, AnsweredQuestion answer)
    {
        if (kit.Datapath is not { } datapath)
        {
            return null;
        }
        var bits = new List<BigInteger>();
        foreach (var operand in datapath.Operands)
        {
            if (
                answer.Operands.Where(o => o.Name == operand.Name).Select(o => (BigInteger?)o.Number).FirstOrDefault()
                is not { } number
            )
            {
                return null;
            }
            bits.Add(Numbers.Bits.Wrap(number, operand.Width));
        }
        return Walk.Of(datapath, bits);
    }

    private static Datapath? Slipped(MarkingKit kit) => kit.Form.Hardware?.Slip is { } name ? Slipped(kit, name) : null;

    private static Datapath? Slipped(MarkingKit kit, string name) =>
        Slip.Of(kit.Datapath!.Machine)
            .FirstOrDefault(s => s.Name == name)
            ?.Machine.Built(kit.Datapath.Widths.ToDictionary(w => w.Name, w => w.Value));

    /// <summary>Whether operands that somebody chose show the condition, or expose the slip.</summary>
    private PlaceStanding Shows(
        MarkingKit kit,
        Datapath datapath,
        IReadOnlyList<AnsweredField> fields,
        Func<AnsweredField, string> typed
    )
    {
        var operands = new List<BigInteger>();
        foreach (var operand in datapath.Operands)
        {
            var text = fields.FirstOrDefault(f => f.Name == operand.Name) is { } field ? typed(field) : "";
            if (FieldJudge.BitsOf(text, operand.Width) is not { } bits)
            {
                return text.Length == 0 ? PlaceStanding.Wrong : PlaceStanding.Unread;
            }
            if (!Numbers.Bits.Fits(bits, operand.Width, isSigned: false))
            {
                return PlaceStanding.Wrong;
            }
            operands.Add(bits);
        }
        if (!datapath.IsGiven(operands))
        {
            return PlaceStanding.Wrong;
        }
        var right = Walk.Of(datapath, operands);
        var isExposed =
            kit.Form.Exposing is not { } slip
            || Slipped(kit, slip) is { } wrong && !Walk.Of(wrong, operands).Results.SequenceEqual(right.Results);
        var isShown =
            kit.Form.Condition is not { } condition
            || Choosing
                .Candidates.Of(
                    datapath,
                    engine,
                    [
                        [.. operands],
                    ]
                )
                .Showing(condition, new Diagnostics.Report(new Source("", condition)))
                ?.Count > 0;
        return isExposed && isShown ? PlaceStanding.Right : PlaceStanding.Wrong;
    }
}
