using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Documents.Lessons;
using Reckoner.Explaining;
using Reckoner.Marking;
using Reckoner.Running;

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
        if (filled.Open.TryGetValue(answer.Number, out var unread))
        {
            return new MarkedQuestion(kit.Form, null)
            {
                Open = unread.Count > 0 ? OpenReason.Unread : OpenReason.NotFound,
                Unread = unread,
            };
        }
        return kit.Form.Task switch
        {
            QuestionTask.Fill => new WalkJudge(kit, answer, filled).Judged(scheme) ?? Compared(kit, answer, filled),
            QuestionTask.Say when WalkOf(kit, answer) is { } walk => Placed(
                kit,
                answer.Fields.Select(f => FieldJudge.Said(f, Typed(f), walk))
            ),
            QuestionTask.Find when WalkOf(kit, answer) is { } walk && kit.Slipped is { } wrong => Placed(
                kit,
                FieldJudge.Found(answer.Fields, Typed, walk, Walk.Of(wrong, walk.Operands))
            ),
            QuestionTask.Choose
                when kit.Datapath is { } datapath && Shows(kit, datapath, answer.Fields, Typed) is { } standing =>
                Placed(
                    kit,
                    answer.Fields.Select(f => new MarkedPlace(
                        f,
                        Typed(f),
                        Typed(f).Length == 0 ? PlaceStanding.Empty : standing,
                        f.Expected
                    ))
                ),
            QuestionTask.Mend when kit.Datapath is not null && new MendJudge(kit, answer) is { CanTell: true } mend =>
                Placed(kit, answer.Fields.Select(f => f.Name == MendJudge.Text ? mend.Mended(f, Typed(f)) : Plain(f))),
            QuestionTask.Say or QuestionTask.Find or QuestionTask.Choose or QuestionTask.Mend => Expected(
                Compared(kit, answer, filled)
            ),
            QuestionTask.Which or QuestionTask.Complete => Compared(kit, answer, filled),
        };

        string Typed(AnsweredField field) => filled[$"{answer.Number}.{field.Name}"];

        MarkedPlace Plain(AnsweredField field) =>
            new(field, Typed(field), FieldJudge.Same(Typed(field), field.Expected), field.Expected);
    }

    /// <summary>Where more than what was expected may be right and nothing tells, a person looks at whatever is otherwise.</summary>
    private static MarkedQuestion Expected(MarkedQuestion compared) =>
        compared.Places.Any(p => p.Standing == PlaceStanding.Wrong)
            ? compared with
            {
                Credit = null,
                Open = OpenReason.NotJudged,
                Places =
                [
                    .. compared.Places.Select(p =>
                        p.Standing == PlaceStanding.Wrong ? p with { Standing = PlaceStanding.Unread } : p
                    ),
                ],
            }
            : compared;

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

    /// <summary>
    /// Whether operands that somebody chose show the condition, or expose the slip, read as numbers or as bits; null where that cannot
    /// be found out.
    /// </summary>
    private PlaceStanding? Shows(
        MarkingKit kit,
        Datapath datapath,
        IReadOnlyList<AnsweredField> fields,
        Func<AnsweredField, string> typed
    )
    {
        var texts = datapath
            .Operands.Select(o => fields.FirstOrDefault(f => f.Name == o.Name) is { } field ? typed(field) : "")
            .ToList();
        if (texts.Contains(""))
        {
            return PlaceStanding.Wrong;
        }
        var readings = datapath.Operands.Select(o => FieldJudge.Readings(texts[o.Index], o.Width)).ToList();
        if (readings.Exists(r => r.Count == 0))
        {
            return PlaceStanding.Unread;
        }
        var shown = FieldJudge.Combinations(readings).Select(o => Shows(kit, datapath, o)).ToList();
        return shown.Contains(null) ? null
            : shown.Contains(true) ? PlaceStanding.Right
            : PlaceStanding.Wrong;
    }

    private bool? Shows(MarkingKit kit, Datapath datapath, IReadOnlyList<BigInteger> operands)
    {
        if (
            datapath.Operands.Any(o => !Numbers.Bits.Fits(operands[o.Index], o.Width, isSigned: false))
            || !datapath.IsGiven(operands)
        )
        {
            return false;
        }
        if (kit.Form.Exposing is not null)
        {
            if (kit.Exposed is not { } wrong)
            {
                return null;
            }
            if (Walk.Of(wrong, operands).Results.SequenceEqual(Walk.Of(datapath, operands).Results))
            {
                return false;
            }
        }
        return kit.Form.Condition is not { } condition ? true
            : Choosing
                .Candidates.Of(
                    datapath,
                    engine,
                    [
                        [.. operands],
                    ]
                )
                .Showing(condition, new Diagnostics.Report(new Source("", condition)))
                is { } found
                ? found.Count > 0
            : null;
    }
}
