using System.Globalization;
using System.Numerics;
using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Conditions;

internal sealed partial class ConditionParser
{
    /// <summary>
    /// decided = event [ "never" | "always" ] "happens" | event "happens" ( times | when )
    ///         | event "goes" "both" "ways" | "every" "outcome" "happens" ;
    /// when = "the" ( "first" | "last" ) "time" | "in" "cycle" NUMBER
    ///      | "in" "the" ( "first" | "last" ) "cycle" | "right" "after" event ;
    /// </summary>
    private Condition? Happens(int from, int verb, int to)
    {
        var adverb = verb > from && tokens[verb - 1].Text is "never" or "always" ? tokens[verb - 1].Text : null;
        if (Event(from, adverb is null ? verb : verb - 1) is not { } what)
        {
            return null;
        }
        var rest = verb + 1;
        if (adverb is not null)
        {
            return rest < to ? TooMuch(rest, to)
                : adverb == "always" ? new HappensAlways(what)
                : new HappensTimes(what, new Amount(Bound.AtMost, 0));
        }
        if (rest == to)
        {
            return new Happens(what);
        }
        if (Says(rest, to, "the", "first", "time") || Says(rest, to, "the", "last", "time"))
        {
            return new HappensAtEnd(what, tokens[rest + 1].Text == "first" ? End.First : End.Last);
        }
        if (Says(rest, to, "in", "the", "last", "cycle"))
        {
            return new HappensInLastCycle(what);
        }
        if (Says(rest, to, "in", "the", "first", "cycle"))
        {
            return new HappensInCycle(what, 1);
        }
        if (to - rest >= 2 && Says(rest, rest + 2, "in", "cycle"))
        {
            return to - rest == 3 && Number(rest + 2) is { } cycle
                ? new HappensInCycle(what, cycle)
                : Missing("NUMBER", rest + 2, to);
        }
        if (to - rest > 2 && Says(rest, rest + 2, "right", "after"))
        {
            return Event(rest + 2, to) is { } before ? new HappensAfter(what, before) : null;
        }
        return Times(rest, to) is { } times ? new HappensTimes(what, times) : null;
    }

    /// <summary>event = [ "not" ] DECISION | VALUE relation [ "-" ] NUMBER ;</summary>
    private Occasion? Event(int from, int to)
    {
        if (from >= to)
        {
            Missing("DECISION", from, from);
            return null;
        }
        if (Known(from, to) is { } found)
        {
            return found;
        }
        var name = Text(from, to);
        var known = decisions.Names.ToList();
        report.Add(
            Id.UnknownDecision,
            Place(from, to),
            ("machine", datapath.Machine.Name),
            ("name", name),
            ("known", known.Count > 0 ? known : new Term("nothing")),
            ("near", NearNames.Of(name, known.Concat(known.Select(k => $"{Occasion.Of(k).Opposite}"))))
        );
        return null;
    }

    /// <summary>times = [ bound ] ( "once" | "twice" | NUMBER ( "times" | "time" ) ) ;</summary>
    private Amount? Times(int from, int to)
    {
        var (bound, at) = BoundOf(from, to);
        if (Says(at, to, "once") || Says(at, to, "twice"))
        {
            return new Amount(bound, tokens[at].Text == "once" ? 1 : 2);
        }
        if (at < to && Number(at) is { } count && (Says(at + 1, to, "times") || Says(at + 1, to, "time")))
        {
            return new Amount(bound, count);
        }
        Missing("times", at < to && Number(at) is not null ? at + 1 : at, to);
        return null;
    }

    private Amount? AmountOf(int from, int to)
    {
        var (bound, at) = BoundOf(from, to);
        if (to - at == 1 && Number(at) is { } count)
        {
            return new Amount(bound, count);
        }
        NoCondition(from, Math.Max(from + 1, to));
        return null;
    }

    /// <summary>bound = "exactly" | "at" ( "least" | "most" ) ;</summary>
    private (Bound, int) BoundOf(int from, int to) =>
        from < to && tokens[from].Text == "exactly" ? (Bound.Exactly, from + 1)
        : from + 1 < to && Says(from, from + 2, "at", "least") ? (Bound.AtLeast, from + 2)
        : from + 1 < to && Says(from, from + 2, "at", "most") ? (Bound.AtMost, from + 2)
        : (Bound.Exactly, from);

    /// <summary>A number, or a width or constant of the machine that is whole.</summary>
    private Count? Number(int at)
    {
        if (tokens[at].Kind == TokenKind.Number)
        {
            var digits = tokens[at].Text.Replace("_", "", StringComparison.Ordinal);
            return int.TryParse(digits, CultureInfo.InvariantCulture, out var number) ? number : int.MaxValue;
        }
        return datapath.Numbers.TryGetValue(tokens[at].Text, out var value) && value is { IsWhole: true, Sign: >= 0 }
            ? new Count(tokens[at].Text, (int)BigInteger.Min(value.Numerator, int.MaxValue))
            : null;
    }

    private Condition? TooMuch(int from, int to)
    {
        report.Add(Id.WordTooMany, Place(from, to), ("word", Text(from, to)), ("usage", new Term("form.decision")));
        return null;
    }
}
