using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// What happened in a moment as one sentence: notes, the reasons, "so", the effects. Built from the description's spoken
/// names and the message table alone, so that it stays right for any name a description gives.
/// </summary>
public static class Sentences
{
    /// <summary>The sentence of a moment; empty for one in which nothing is said.</summary>
    public static string Of(IReadOnlyList<Happening> happenings, Vocabulary words)
    {
        var notes = happenings.OfType<Remarked>().Select(h => Of(h, words)).ToList();
        happenings = [.. happenings.Where(h => h is not Remarked)];
        var reasons = new List<string>();
        var effects = new List<string>();
        var others = new List<string>();
        for (var i = 0; i < happenings.Count; i++)
        {
            var happening = happenings[i];
            var next = i + 1 < happenings.Count ? happenings[i + 1] : null;
            if (
                happening is Summed or Multiplied
                && next is Became became
                && ReferenceEquals(became.Value, ValueOf(happening))
            )
            {
                // The sum that a transfer keeps is told with it.
                (became.Follows ? effects : others).Add(
                    words.Say("walk.named", ("name", Names.Of(became.Places, words)), ("what", Of(happening, words)))
                );
                i++;
            }
            else if (happening is Summed { Carry: { Says: not null } carry } && next is Said said && said.Wire == carry)
            {
                reasons.Add(words.Say("walk.said", ("what", Of(happening, words)), ("phrase", Of(said, words))));
                i++;
            }
            else if (Of(happening, words) is { Length: > 0 } text)
            {
                (
                    happening.IsReason ? reasons
                    : happening.Follows ? effects
                    : others
                ).Add(text);
            }
        }
        var why = string.Join(words.Say("walk.between-reasons"), reasons);
        var what = string.Join(words.Say("walk.between-effects"), effects);
        var besides = string.Join(words.Say("walk.between-effects"), others);
        var told =
            why.Length == 0 ? what
            : what.Length == 0 ? why
            : words.Say("walk.so", ("reasons", why), ("effects", what));
        var sentence =
            told.Length == 0 ? besides
            : besides.Length == 0 ? told
            : why.Length == 0 ? told + words.Say("walk.between-effects") + besides
            : words.Say("walk.in-any-case", ("sentence", told), ("effects", besides));
        return string.Join(words.Say("walk.between-effects"), sentence.Length == 0 ? notes : [.. notes, sentence]);
    }

    private static Value ValueOf(Happening happening) =>
        happening switch
        {
            Summed h => h.Value,
            Multiplied h => h.Value,
            _ => throw new InvalidOperationException(happening.GetType().Name),
        };

    /// <summary>One happening alone, as a clause.</summary>
    public static string Of(Happening happening, Vocabulary words) =>
        happening switch
        {
            Summed h => Of(h, words),
            Multiplied h => words.Say(
                "walk.product",
                ("a", Bits.Text(h.Left, h.Value.Inputs[0].Width)),
                ("b", Bits.Text(h.Right, h.Value.Inputs[1].Width)),
                ("product", Bits.Text(h.Bits, h.Value.Width))
            ),
            CarrySaved h => Of(h, words),
            LookedUp h => Of(h, words),
            Said h => Of(h, words),
            Tested h => Of(h, words),
            Shifted h => Of(h, words),
            Became h => words.Say("walk.becomes", ("name", Names.Of(h.Places, words)), ("bits", Fields(h))),
            Stayed h => words.Say("walk.unchanged", ("name", Names.Of(h.Place, words))),
            Remarked h => words.Say("walk.note", ("text", h.Text.In(words.Language))),
            _ => throw new InvalidOperationException(happening.GetType().Name),
        };

    private static string Of(Summed h, Vocabulary words)
    {
        var key = (h.Subtracts, h.Carry is not null, h.GivesCarry) switch
        {
            (true, true, true) => "walk.borrows",
            (true, true, false) => "walk.borrows-not",
            (false, true, true) => "walk.carries",
            (false, true, false) => "walk.carries-not",
            (true, false, _) => "walk.difference",
            (false, false, _) => "walk.sum",
        };
        return words.Say(
            key,
            ("a", Bits.Text(h.Left, h.Width)),
            ("b", Bits.Text(h.Right, h.Width)),
            ("sum", Bits.Text(h.Bits, h.Width))
        );
    }

    private static string Of(Said h, Vocabulary words)
    {
        var says = h.Wire.Says!;
        var phrase = h.Wire.Value.Width == 1 && h.Bits.IsZero ? says.WhenZero : says.WhenOne;
        var number = Bits.Text(Evaluator.Number(h.Wire.Value, h.Bits));
        return phrase?.In(words.Language).Replace("{}", number, StringComparison.Ordinal) ?? "";
    }

    /// <summary>A comparison or named bit is answered by yes or no; other bits are shown.</summary>
    private static string Of(Tested h, Vocabulary words)
    {
        var (inner, isTurned) = (h.Value, false);
        while (inner.Operation == Operation.Not)
        {
            (inner, isTurned) = (inner.Inputs[0], !isTurned);
        }
        if (inner.Operation == Operation.Last)
        {
            return words.Say(h.Bits.IsOne ^ isTurned ? "walk.last" : "walk.last-not");
        }
        var value = Printer.Text(h.Value.Written!);
        var isQuestion = h.IsCondition && h.Value.Operation is not (Operation.Slice or Operation.Register);
        if (isQuestion)
        {
            var asked =
                h.Sides.Count == 2 ? words.Say("walk.compared", ("value", value), ("bits", Sides(h, inner))) : value;
            return words.Say(h.Bits.IsOne ? "walk.yes" : "walk.no", ("value", asked));
        }
        var bits =
            h.Value.Reading == Reading.Bare || h.Value.Width == 1
                ? Bits.Text(h.Bits, h.Value.Width)
                : Bits.Text(Evaluator.Number(h.Value, h.Bits));
        return words.Say("walk.bits", ("value", value), ("bits", bits));
    }

    /// <summary>The two words of a comparison with its sign between them.</summary>
    private static string Sides(Tested h, Value comparison)
    {
        var width = comparison.Inputs[0].Width;
        var sign = Operations.Row(comparison.Operation).Written;
        return $"{Bits.Text(h.Sides[0], width)} {sign} {Bits.Text(h.Sides[1], width)}";
    }

    private static string Of(LookedUp h, Vocabulary words) =>
        words.Say(
            "walk.looked-up",
            ("table", h.Value.Table!.Name),
            ("indices", string.Join(words.Say("walk.between-names"), h.Indices)),
            ("number", Bits.Text(Evaluator.Number(h.Value, h.Bits)))
        );

    private static string Of(CarrySaved h, Vocabulary words)
    {
        string Text(BigInteger word) => Bits.Text(word, h.Value.Width);
        return words.Say(
            "walk.carry-saved",
            ("words", string.Join(" + ", h.Words.Select(Text))),
            ("sum", Text(h.Sum)),
            ("carry", Text(h.Carry))
        );
    }

    private static string Of(Shifted h, Vocabulary words)
    {
        var key = h.Left ? "walk.moved-left" : "walk.moved-right";
        return words.Say(key, ("name", Names.Of(h.Places, words)), ("bits", Bits.Text(h.Entering, h.EnteringWidth)));
    }

    /// <summary>The new bits, those of joined places apart.</summary>
    private static string Fields(Became h)
    {
        var fields = new List<string>();
        var low = h.Width;
        foreach (var place in h.Places)
        {
            low -= place.Width;
            fields.Add(Bits.Text(Bits.Wrap(h.Bits >> low, place.Width), place.Width));
        }
        return string.Join(' ', fields);
    }
}
