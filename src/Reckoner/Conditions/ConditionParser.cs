using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Conditions;

/// <summary>
/// Reads what a walk is to show. The words are those of the notation's lexer; formulas are read by its parser. What is decided is
/// named as the description names it.
/// </summary>
internal sealed partial class ConditionParser
{
    private static readonly string[] Words =
    [
        "happens",
        "never",
        "always",
        "exactly",
        "times",
        "once",
        "twice",
        "cycle",
        "cycles",
        "right",
        "after",
        "goes",
        "both",
        "ways",
        "every",
        "outcome",
        "digits",
        "operands",
        "slip",
        "exposed",
        "hidden",
        "alike",
    ];

    private readonly Datapath datapath;
    private readonly DecisionNames decisions;
    private readonly IKnownSlips slips;
    private readonly ConditionFormulas formulas;
    private readonly string text;
    private readonly Report report;
    private readonly List<Token> tokens;

    private ConditionParser(DecidedMachine machine, string text, Report report)
    {
        datapath = machine.Datapath;
        decisions = machine.Decisions;
        slips = machine.Slips;
        this.text = text;
        this.report = report;
        formulas = new ConditionFormulas(datapath, text, report);
        tokens = SlipNamesWhole([
            .. Lexer
                .Read(new Source("", text), report)
                .Tokens.Where(t => t.Kind is not (TokenKind.LineEnd or TokenKind.End)),
        ]);
    }

    /// <summary>The condition, or null with what is wrong in the report; its spans count in the text.</summary>
    public static Condition? Read(DecidedMachine machine, string text, Report report)
    {
        var parser = new ConditionParser(machine, text, report);
        if (report.HasErrors || parser.IsTooDeep())
        {
            return null;
        }
        var condition = parser.Read(0, parser.tokens.Count);
        return report.HasErrors ? null : condition;
    }

    /// <summary>
    /// Whether brackets and "not" nest deeper than in a description, which is told; looked at beforehand, since every level is read
    /// by a call and a stack that is used up cannot be caught.
    /// </summary>
    private bool IsTooDeep()
    {
        var (brackets, nots) = (0, 0);
        foreach (var token in tokens)
        {
            brackets +=
                token.Is("(") ? 1
                : token.Is(")") ? -1
                : 0;
            nots =
                token.Is("not") ? nots + 1
                : token.Is("(") ? nots
                : 0;
            if (brackets + nots > Parser.DeepestNesting)
            {
                report.Add(Id.NestingTooDeep, token.Span, ("limit", Parser.DeepestNesting));
                return true;
            }
        }
        return false;
    }

    /// <summary>The name of a slip has hyphens, which the notation takes for minus signs.</summary>
    private List<Token> SlipNamesWhole(List<Token> read)
    {
        var whole = new List<Token>();
        for (var i = 0; i < read.Count; i++)
        {
            whole.Add(read[i]);
            if (read[i] is not { Kind: TokenKind.Name, Text: "slip" } || i + 1 >= read.Count || !read[i + 1].Spaced)
            {
                continue;
            }
            var from = ++i;
            while (i + 1 < read.Count && !read[i + 1].Spaced && !read[i + 1].Is(")"))
            {
                i++;
            }
            if (i == from && read[i].Kind != TokenKind.Name)
            {
                // An operand called so, and then a relation, a sign or "and".
                whole.Add(read[i]);
                continue;
            }
            var span = Span.Covering(read[from].Span, read[i].Span);
            whole.Add(new Token(TokenKind.Name, text[span.Start..span.End], span, true));
        }
        return whole;
    }

    private Span Place(int from, int to) =>
        from < to ? Span.Covering(tokens[from].Span, tokens[to - 1].Span)
        : from < tokens.Count ? tokens[from].Span
        : new Span(0, text.Length);

    private string Text(int from, int to)
    {
        var place = Place(from, to);
        return text[place.Start..place.End];
    }

    /// <summary>condition = clause { "and" clause } | clause { "or" clause } ;</summary>
    private Condition? Read(int from, int to)
    {
        var parts = new List<Condition?>();
        string? chain = null;
        var start = from;
        for (var i = from; i < to; i++)
        {
            if (tokens[i].Is("("))
            {
                i = Occasion.Closing(tokens, i);
            }
            else if (tokens[i] is { Kind: TokenKind.Keyword, Text: "and" or "or" } joint)
            {
                chain ??= joint.Text;
                if (joint.Text != chain)
                {
                    report.Add(Id.BracketsNeeded, joint.Span, ("first", chain), ("second", joint.Text));
                    return null;
                }
                parts.Add(Clause(start, i));
                start = i + 1;
            }
        }
        parts.Add(Clause(start, to));
        if (parts.Contains(null))
        {
            return null;
        }
        return parts.Count == 1
            ? parts[0]
            : new Combined(chain == "and" ? Joint.And : Joint.Or, [.. parts.OfType<Condition>()]);
    }

    /// <summary>
    /// clause = "(" condition ")" | "not" clause | "always" | decided | cycles | digits | slip
    ///        | TRUTH | AMOUNT "is" ( "odd" | "even" ) ;
    /// </summary>
    private Condition? Clause(int from, int to)
    {
        if (from >= to)
        {
            return Missing("CONDITION", from, from, "form.condition");
        }
        if (tokens[from].Is("(") && Occasion.Closing(tokens, from) == to - 1)
        {
            return Read(from + 1, to - 1);
        }
        if (Says(from, to, "always"))
        {
            return new Always();
        }
        if (OfOwnNames(from, to) is { } formula)
        {
            return formula;
        }
        var plain = Enumerable.Range(from, to - from).FirstOrDefault(i => !tokens[i].Is("not"), from);
        if (Says(plain, to, "every", "outcome", "happens"))
        {
            return plain > from ? Turned(from, to) : new EveryOutcome();
        }
        if (Says(from, to, "no", "two", "cycles", "alike") || Says(from, to, "no", "two", "cycles", "are", "alike"))
        {
            return new NoTwoAlike();
        }
        if (Find(from, to, "happens") is { } happens && !IsOwnName(from, happens))
        {
            return Happens(from, happens, to);
        }
        if (Find(from, to, "goes") is { } goes)
        {
            return Event(from, goes) is not { } what ? null
                : Says(goes + 1, to, "both", "ways") ? new GoesBothWays(what)
                : Missing("both ways", goes + 1, to);
        }
        return tokens[from].Is("not") ? Turned(from, to) : Plain(from, to);
    }

    private Condition? Turned(int from, int to)
    {
        if (Known(from, to) is not null && !IsComparison(from, to))
        {
            return Missing("happens", to, to);
        }
        return Clause(from + 1, to) is { } inner ? new NotSo(inner) : null;
    }

    /// <summary>
    /// cycles = [ "takes" ] [ bound ] NUMBER ( "cycles" | "cycle" ) | "no" "two" "cycles" [ "are" ] "alike" ;
    /// digits = ( NAME | "operands" | "results" ) ( "has" | "have" ) [ bound ] NUMBER ( "digits" | "digit" ) ;
    /// </summary>
    private Condition? Plain(int from, int to)
    {
        if (tokens[from].Text == "slip" && (Ends(from, to, "is", "exposed") || Ends(from, to, "stays", "hidden")))
        {
            return SlipClause(from + 1, to - 2, tokens[to - 1].Text == "exposed");
        }
        if (Ends(from, to, "cycles") || Ends(from, to, "cycle"))
        {
            var start = tokens[from].Text == "takes" ? from + 1 : from;
            return AmountOf(start, to - 1) is { } cycles ? new TakesCycles(cycles) : null;
        }
        if (
            (Ends(from, to, "digits") || Ends(from, to, "digit"))
            && (Find(from, to, "has") ?? Find(from, to, "have")) is { } has
        )
        {
            return AmountOf(has + 1, to - 1) is { } digits && Whose(from, has) is { } names
                ? new HasDigits(names.Whose, names.Name, digits)
                : null;
        }
        if (Ends(from, to, "is", "odd") || Ends(from, to, "is", "even"))
        {
            return formulas.Number(Place(from, to - 2)) is { } number ? new HasParity(number, ParityAt(to - 1)) : null;
        }
        if (Known(from, to) is not null && !IsFormula(from, to))
        {
            return Missing("happens", to, to);
        }
        if (!HasRelation(from, to))
        {
            return NoCondition(from, to);
        }
        return formulas.Truth(Place(from, to)) is { } formula ? new IsTrue(formula) : null;
    }

    /// <summary>A word of ours that begins the clause is a name of the description, if that has it.</summary>
    private bool IsOwnName(int from, int at) =>
        formulas.Knows(tokens[at].Text) && Enumerable.Range(from, at - from).All(i => tokens[i].Is("not"));

    /// <summary>What reads as a formula of the description's names alone is one, even if some of them are words of ours.</summary>
    private Condition? OfOwnNames(int from, int to)
    {
        var own = new ConditionFormulas(datapath, text, new Report(null));
        if (tokens[from].Is("not"))
        {
            return null;
        }
        if ((Ends(from, to, "is", "odd") || Ends(from, to, "is", "even")) && IsFormula(from, to - 2))
        {
            return own.Number(Place(from, to - 2)) is { } number ? new HasParity(number, ParityAt(to - 1)) : null;
        }
        return IsComparison(from, to) && own.Truth(Place(from, to)) is { } truth ? new IsTrue(truth) : null;
    }

    private Parity ParityAt(int at) => tokens[at].Text == "odd" ? Parity.Odd : Parity.Even;

    /// <summary>What words name that this machine decides, or null.</summary>
    private Occasion? Known(int from, int to) => decisions.Known(Occasion.Of(tokens.GetRange(from, to - from), text));

    /// <summary>Whether it compares what formulas know, be it spelt like a decision or not.</summary>
    private bool IsComparison(int from, int to) => HasRelation(from, to) && IsFormula(from, to);

    private bool HasRelation(int from, int to) => tokens.GetRange(from, to - from).Exists(IsRelation);

    private bool IsFormula(int from, int to) =>
        Enumerable
            .Range(from, to - from)
            .Where(i => tokens[i].Kind == TokenKind.Name)
            .All(i => IsOfFormulas(tokens[i].Text));

    private bool IsOfFormulas(string name) =>
        formulas.Knows(name) || datapath.Numbers.ContainsKey(name) || Claims.Functions.Names.Contains(name);

    private static bool IsRelation(Token token) => token.Text is "=" or "<>" or "<" or "<=" or ">" or ">=" or "in";

    /// <summary>slip = "slip" SLIP ( "is" "exposed" | "stays" "hidden" ) ;</summary>
    private Condition? SlipClause(int from, int to, bool exposed)
    {
        if (from == to)
        {
            return Missing("SLIP", from, to, "form.slip");
        }
        var name = Text(from, to);
        if (slips.Built(name) is not null)
        {
            return exposed ? new SlipShows(name) : new NotSo(new SlipShows(name));
        }
        report.Add(
            Id.UnknownSlip,
            Place(from, to),
            ("machine", datapath.Machine.Name),
            ("slip", name),
            ("near", NearNames.Of(name, slips.Names))
        );
        return null;
    }

    /// <summary>What is a name of the description is that, even if it is one of our words.</summary>
    private (Whose Whose, string Name)? Whose(int from, int to)
    {
        var name = from < to ? Text(from, to) : "";
        if (formulas.Knows(name))
        {
            return (Conditions.Whose.Named, name);
        }
        switch (name)
        {
            case "operands":
                return (Conditions.Whose.Operands, "");
            case "results":
                return (Conditions.Whose.Results, "");
            default:
                formulas.ReportUnknown(name, Place(from, to));
                return null;
        }
    }

    private bool Says(int from, int to, params ReadOnlySpan<string> words)
    {
        if (to - from != words.Length)
        {
            return false;
        }
        for (var i = 0; i < words.Length; i++)
        {
            if (tokens[from + i].Text != words[i])
            {
                return false;
            }
        }
        return true;
    }

    private bool Ends(int from, int to, params ReadOnlySpan<string> words) =>
        to - from > words.Length && Says(to - words.Length, to, words);

    private int? Find(int from, int to, string word)
    {
        for (var i = from; i < to; i++)
        {
            if (tokens[i].Is("("))
            {
                i = Occasion.Closing(tokens, i);
            }
            else if (tokens[i].Kind == TokenKind.Name && tokens[i].Text == word)
            {
                return i;
            }
        }
        return null;
    }

    private Condition? NoCondition(int from, int to)
    {
        var near = Enumerable
            .Range(from, Math.Max(0, to - from))
            .Where(i => tokens[i].Kind == TokenKind.Name)
            .SelectMany(i =>
                NearNames.Of(tokens[i].Text, Words.Concat(decisions.Names).Concat(formulas.Names)).Take(1)
            );
        report.Add(
            Id.NoCondition,
            Place(from, to),
            ("text", from < to ? Text(from, to) : new Term("text-end")),
            ("example", formulas.Example),
            ("near", near.Distinct().Take(3).ToList())
        );
        return null;
    }

    private Condition? Missing(string expected, int from, int to, string form = "form.decision")
    {
        object found = from < tokens.Count ? Text(from, Math.Max(to, from + 1)) : new Term("text-end");
        report.Add(
            Id.WordExpected,
            from < tokens.Count ? Place(from, Math.Max(to, from + 1)) : new Span(text.Length, text.Length),
            ("expected", expected),
            ("found", found),
            ("form", new Term(form))
        );
        return null;
    }
}
