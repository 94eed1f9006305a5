using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// What happened in a moment as one sentence: notes, the reasons, "so", the effects. Built from the description's spoken
/// names and the message table alone, so that it stays right for any name a description gives.
/// </summary>
internal static class Sentences
{
    /// <summary>The sentence of a moment; empty for one in which nothing is said.</summary>
    public static Content Told(IReadOnlyList<Happening> happenings, Speech speech)
    {
        var clauses = Clauses(happenings, speech);
        var why = Content.Join(speech.Say("walk.between-reasons"), clauses.Reasons);
        var what = Content.Join(speech.Say("walk.between-effects"), clauses.Effects);
        var besides = Content.Join(speech.Say("walk.between-effects"), clauses.Others);
        var told =
            why.IsEmpty ? what
            : what.IsEmpty ? why
            : speech.Spell("walk.so", ("reasons", why), ("effects", what));
        var sentence =
            told.IsEmpty ? besides
            : besides.IsEmpty ? told
            : why.IsEmpty ? Content.Join(speech.Say("walk.between-effects"), [told, besides])
            : speech.Spell("walk.in-any-case", ("sentence", told), ("effects", besides));
        return Content.Join(
            speech.Say("walk.between-effects"),
            sentence.IsEmpty ? clauses.Notes : [.. clauses.Notes, sentence]
        );
    }

    /// <summary>What was looked at and what follows; or, where nothing was, what came about.</summary>
    public static Content News(IReadOnlyList<Happening> happenings, Speech speech)
    {
        var clauses = Clauses(happenings, speech);
        var why = Content.Join(speech.Say("walk.between-reasons"), clauses.Reasons);
        var what = Content.Join(speech.Say("walk.between-effects"), clauses.Effects);
        return why.IsEmpty && what.IsEmpty ? Content.Join(speech.Say("walk.between-effects"), clauses.Others)
            : why.IsEmpty ? what
            : what.IsEmpty ? why
            : speech.Spell("walk.so", ("reasons", why), ("effects", what));
    }

    /// <summary>The description's words for what happened, without what they are about; nothing where it has none.</summary>
    public static Content Phrase(Happening? happening, Speech speech) =>
        happening switch
        {
            Said h when speech.UsesPhrases => Phrase(h, speech),
            Tested { Phrase: { } phrase } when speech.UsesPhrases => Content.Phrase(phrase.In(speech.Words.Language)),
            Remarked h => Content.Phrase(h.Text.In(speech.Words.Language)),
            _ => Content.Empty,
        };

    /// <summary>Each event of a moment as a sentence of its own, in the order in which it is told.</summary>
    public static IReadOnlyList<Content> OneByOne(IReadOnlyList<Happening> happenings, Speech speech)
    {
        var clauses = Clauses(happenings, speech);
        return [.. clauses.Notes, .. clauses.Reasons, .. clauses.Effects, .. clauses.Others];
    }

    /// <summary>What is noted, what was looked at, what follows from that, and what comes about in any case.</summary>
    private sealed record Telling(
        IReadOnlyList<Content> Notes,
        IReadOnlyList<Content> Reasons,
        IReadOnlyList<Content> Effects,
        IReadOnlyList<Content> Others
    );

    private static Telling Clauses(IReadOnlyList<Happening> happenings, Speech speech)
    {
        var notes = happenings.OfType<Remarked>().Select(h => Told(h, speech)).ToList();
        happenings = [.. happenings.Where(h => h is not Remarked)];
        var reasons = new List<Content>();
        var effects = new List<Content>();
        var others = new List<Content>();
        for (var i = 0; i < happenings.Count; i++)
        {
            var happening = happenings[i];
            var next = i + 1 < happenings.Count ? happenings[i + 1] : null;
            if (next is Became became && happening.Gives == became.Value)
            {
                // The sum that a transfer keeps is told with it.
                (became.Follows ? effects : others).Add(
                    speech.Spell(
                        "walk.named",
                        ("name", Names.Of(became.Places, speech.Words)),
                        ("what", Told(happening, speech))
                    )
                );
                i++;
            }
            else if (happening is Summed { Carry: { Says: not null } carry } && next is Said said && said.Wire == carry)
            {
                var what = Told(happening, speech);
                reasons.Add(speech.UsesPhrases ? Both(what, Phrase(said, speech), speech) : what);
                i++;
            }
            else if (Told(happening, speech) is { IsEmpty: false } text)
            {
                (
                    happening.IsReason ? reasons
                    : happening.Follows ? effects
                    : others
                ).Add(text);
            }
        }
        return new Telling(notes, reasons, effects, others);
    }

    /// <summary>One happening alone, as a clause.</summary>
    public static Content Told(Happening happening, Speech speech) =>
        happening.Match(
            summed: h => Told(h, speech),
            multiplied: h =>
                speech.Spell(
                    "walk.product",
                    ("a", speech.Bits(h.Left, h.Value.Inputs[0].Width)),
                    ("b", speech.Bits(h.Right, h.Value.Inputs[1].Width)),
                    ("product", speech.Bits(h.Bits, h.Value.Width))
                ),
            carrySaved: h => Told(h, speech),
            lookedUp: h => Told(h, speech),
            said: h => Told(h, speech),
            tested: h => Told(h, speech),
            shifted: h => Told(h, speech),
            became: h =>
                speech.Spell("walk.becomes", ("name", Names.Of(h.Places, speech.Words)), ("bits", Given(h, speech))),
            stayed: h => speech.Spell("walk.unchanged", ("name", Names.Of(h.Place, speech.Words))),
            remarked: h => speech.Spell("walk.note", ("text", h.Text.In(speech.Words.Language)))
        );

    /// <summary>A subtraction as one, with its borrow; or as the adder does it, with the complement, a carry in of 1 and the carry out.</summary>
    private static Content Told(Summed h, Speech speech)
    {
        var byComplement = h.Subtracts && speech.ByComplement;
        var gives = byComplement ? !h.GivesCarry : h.GivesCarry;
        var key = (h.Subtracts, byComplement, h.Carry is not null, gives) switch
        {
            (_, true, true, true) => "walk.complement-carries",
            (_, true, true, false) => "walk.complement-carries-not",
            (_, true, false, _) => "walk.complement",
            (true, _, true, true) => "walk.borrows",
            (true, _, true, false) => "walk.borrows-not",
            (false, _, true, true) => "walk.carries",
            (false, _, true, false) => "walk.carries-not",
            (true, _, false, _) => "walk.difference",
            (false, _, false, _) => "walk.sum",
        };
        return speech.Spell(
            key,
            ("a", speech.Bits(h.Left, h.Width)),
            ("b", speech.Bits(byComplement ? h.Complement : h.Right, h.Width)),
            ("sum", speech.Bits(h.Bits, h.Width))
        );
    }

    private static Content Told(Said h, Speech speech)
    {
        if (!speech.UsesPhrases)
        {
            return Bare(h, speech);
        }
        return Both(Gates(h.Gates), Phrase(h, speech), speech);
    }

    private static Content Phrase(Said h, Speech speech)
    {
        var phrase = h.Phrase?.In(speech.Words.Language);
        var number = Bits.Text(h.Wire.Value.Number(h.Bits));
        return Content.Phrase(phrase?.Replace("{}", number, StringComparison.Ordinal) ?? "");
    }

    /// <summary>A named value without its words.</summary>
    private static Content Bare(Said h, Speech speech)
    {
        var name = Content.Phrase(h.Wire.In(speech.Words.Language));
        return h.Wire.Value.Width == 1
            ? speech.Spell(h.Bits.IsOne ? "walk.yes" : "walk.no", ("value", Compared(name, Gates(h.Gates), speech)))
            : speech.Spell("walk.bits", ("value", name), ("bits", Run.Number(h.Wire.Value.Number(h.Bits))));
    }

    /// <summary>The description's words, and what they are about; one of them where the other is missing.</summary>
    private static Content Both(Content what, Content phrase, Speech speech) =>
        phrase.IsEmpty ? what
        : what.IsEmpty ? phrase
        : speech.Spell("walk.said", ("phrase", phrase), ("what", what));

    private static Content Compared(Content value, Content bits, Speech speech) =>
        bits.IsEmpty ? value : speech.Spell("walk.compared", ("value", value), ("bits", bits));

    /// <summary>What gates were given, with their signs: "1 xor 0"; nothing where there are none.</summary>
    private static Content Gates(GateWork? work) => work is null ? Content.Empty : Run.Formula(GateText.Of(work));

    private static Content Told(Tested h, Speech speech) =>
        Both(h.IsTold ? Content.Empty : Looked(h, speech), Phrase(h, speech), speech);

    /// <summary>A comparison or named bit is answered by yes or no; other bits are shown.</summary>
    private static Content Looked(Tested h, Speech speech)
    {
        if (h.IsLast is { } last)
        {
            return speech.Spell(last ? "walk.last" : "walk.last-not");
        }
        var inner = h.Value;
        while (inner.Operation == Operation.Not)
        {
            inner = inner.Inputs[0];
        }
        Content value = Run.Formula(WrittenText.Of(h.Value, speech.Words));
        var isQuestion = h.IsCondition && h.Value.Operation is not (Operation.Slice or Operation.Register);
        if (isQuestion)
        {
            var asked = Compared(value, h.Sides.Count == 2 ? Sides(h, inner, speech) : Gates(h.Gates), speech);
            return speech.Spell(h.Bits.IsOne ? "walk.yes" : "walk.no", ("value", asked));
        }
        var bits =
            h.Value.Reading == Reading.Bare || h.Value.Width == 1
                ? speech.Bits(h.Bits, h.Value.Width)
                : Run.Number(h.Value.Number(h.Bits));
        return speech.Spell("walk.bits", ("value", value), ("bits", bits));
    }

    /// <summary>The two words of a comparison with its sign between them.</summary>
    private static Content Sides(Tested h, Value comparison, Speech speech)
    {
        var width = comparison.Inputs[0].Width;
        var sign = Content.Text($" {Operations.Row(comparison.Operation).Written} ");
        return (Content)speech.Bits(h.Sides[0], width) + sign + speech.Bits(h.Sides[1], width);
    }

    private static Content Told(LookedUp h, Speech speech) =>
        speech.Spell(
            "walk.looked-up",
            ("table", h.Value.Table!.Name),
            ("indices", Content.Join(speech.Say("walk.between-names"), h.Indices.Select(i => (Content)Run.Number(i)))),
            ("number", Run.Number(h.Value.Number(h.Bits)))
        );

    private static Content Told(CarrySaved h, Speech speech) =>
        speech.Spell(
            "walk.carry-saved",
            ("words", Content.Join(" + ", h.Words.Select(w => (Content)speech.Bits(w, h.Value.Width)))),
            ("sum", speech.Bits(h.Sum, h.Value.Width)),
            ("carry", speech.Bits(h.Carry, h.Value.Width))
        );

    private static Content Told(Shifted h, Speech speech)
    {
        var key = h.Left ? "walk.moved-left" : "walk.moved-right";
        return speech.Spell(
            key,
            ("name", Names.Of(h.Places, speech.Words)),
            ("bits", speech.Bits(h.Entering, h.EnteringWidth))
        );
    }

    /// <summary>The new bits, and the gates that gave them.</summary>
    private static Content Given(Became h, Speech speech) =>
        h.Gates is null ? Fields(h, speech) : Gates(h.Gates) + Content.Text(" = ") + Fields(h, speech);

    /// <summary>The new bits, those of joined places apart.</summary>
    private static Content Fields(Became h, Speech speech)
    {
        var fields = new List<Content>();
        var low = h.Width;
        foreach (var place in h.Places)
        {
            low -= place.Width;
            fields.Add(speech.Bits(Bits.Wrap(h.Bits >> low, place.Width), place.Width));
        }
        return Content.Join(" ", fields);
    }
}
