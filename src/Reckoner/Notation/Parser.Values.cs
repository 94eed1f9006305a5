using Reckoner.Diagnostics;
using Reckoner.Numbers;

namespace Reckoner.Notation;

internal sealed partial class Parser
{
    private static readonly (string, Relation)[] Relations =
    [
        ("=", Relation.Equal),
        ("<>", Relation.Unequal),
        ("<", Relation.Less),
        ("<=", Relation.LessOrEqual),
        (">", Relation.Greater),
        (">=", Relation.GreaterOrEqual),
    ];

    /// <summary>formula = logic ;</summary>
    private Expression Formula() => In(formula: true, FormulaOrValue);

    /// <summary>number = sum ;</summary>
    private Expression FormulaSum() => In(formula: true, Sum);

    private Expression Value() => In(formula: false, FormulaOrValue);

    /// <summary>A value that was not read to its end is none: half of it would be complained about again.</summary>
    private Expression In(bool formula, Func<Expression> read)
    {
        var before = inFormula;
        inFormula = formula;
        depth++;
        var value = TooDeep(0) ? new Unreadable(Now.Span) : read();
        depth--;
        inFormula = before;
        return lost || IsValueStart(Now) ? new Unreadable(value.Span) : value;
    }

    /// <summary>
    /// What can begin a value never follows one. A name may be the next word of the sentence, misspelt; "by" stands between the
    /// widths of a multiplier, "point" and "until" behind a meaning's value.
    /// </summary>
    private static bool IsValueStart(Token token) =>
        token.Kind is TokenKind.Number or TokenKind.Bits
        || (
            token is { Kind: TokenKind.Name, Text: not ("by" or "point" or "until" or "of") }
            && NearNames.Of(token.Text, Keywords.Between).Count == 0
        );

    /// <summary>
    /// value = logic [ "when" logic "else" value ] ;
    /// inside = value (* in values *) | formula (* in formulas *) ;
    /// </summary>
    private Expression FormulaOrValue()
    {
        depth++;
        var value = TooDeep(0) ? new Unreadable(Now.Span) : Logic();
        if (!inFormula && Eat("when"))
        {
            var condition = Logic();
            if (!Eat("else"))
            {
                Fail(Id.ElseExpected, Now.Span, ("found", Found()));
            }
            var otherwise = FormulaOrValue();
            value = new Chosen(Span.Covering(value.Span, otherwise.Span), value, condition, otherwise);
        }
        if (Now.Is("<-"))
        {
            Fail(Id.ArrowInValue, Now.Span);
        }
        if (IsValueStart(Now))
        {
            FailToEnd();
        }
        depth--;
        return value;
    }

    /// <summary>
    /// logic = "every" range ":" logic (* in formulas *)
    /// | negation { "and" negation } | negation { "or" negation } | negation { "xor" negation } ;
    /// </summary>
    private Expression Logic()
    {
        var start = Now.Span.Start;
        if (IsRange("every"))
        {
            var (index, low, high) = Range(":");
            var body = Deeper(Logic);
            return new Every(From(start), index, low, high, body);
        }
        var left = Negation();
        string? chain = null;
        while (Now is { Kind: TokenKind.Keyword, Text: "and" or "or" or "xor" } word)
        {
            chain ??= word.Text;
            if (word.Text != chain)
            {
                Fail(Id.BracketsNeeded, word.Span, ("first", chain), ("second", word.Text));
                break;
            }
            at++;
            var op = word.Text switch
            {
                "and" => BinaryOperator.And,
                "or" => BinaryOperator.Or,
                _ => BinaryOperator.Xor,
            };
            left = Pair(op, left, Negation());
        }
        return left;
    }

    private Expression Pair(BinaryOperator op, Expression left, Expression right)
    {
        if (TooDeep(left.Depth))
        {
            return new Unreadable(left.Span);
        }
        return new Binary(Span.Covering(left.Span, right.Span), op, left, right);
    }

    /// <summary>negation = "not" negation | comparison ;</summary>
    private Expression Negation()
    {
        var start = Now.Span.Start;
        if (!Eat("not"))
        {
            return ReadComparison();
        }
        return Prefixed(start, UnaryOperator.Not, Negation);
    }

    private Unary Prefixed(int start, UnaryOperator op, Func<Expression> read)
    {
        var operand = Deeper(read);
        return new Unary(From(start), op, operand);
    }

    /// <summary>
    /// comparison = sum [ relation sum ] | sum { relation sum } (* in formulas *) | sum "in" sum ".." sum (* in formulas *) ;
    /// </summary>
    private Expression ReadComparison()
    {
        var first = Sum();
        if (inFormula && Eat("in"))
        {
            var low = Sum();
            Need("..", "range");
            var high = Sum();
            return new Within(Span.Covering(first.Span, high.Span), first, low, high);
        }
        var terms = new List<Expression> { first };
        var relations = new List<Relation>();
        while (RelationHere() is { } relation)
        {
            if (IsForeign(first))
            {
                break;
            }
            if (relations.Count == 1 && !inFormula)
            {
                Fail(Id.ComparisonChain, Now.Span);
                break;
            }
            at++;
            relations.Add(relation);
            terms.Add(Sum());
        }
        return relations.Count == 0
            ? first
            : new Comparison(Span.Covering(first.Span, terms[^1].Span), terms, relations);
    }

    /// <summary>Says how it is written here what other notations write with one of these signs twice.</summary>
    private bool IsForeign(Expression left)
    {
        var next = tokens[at + 1];
        if (next.Spaced || next.Text != Now.Text || Now.Text is not ("=" or "<" or ">"))
        {
            return false;
        }
        var both = Span.Covering(Now.Span, next.Span);
        var value = Excerpt.Of(source[left.Span]);
        if (Now.Text == "=")
        {
            Fail(Id.EqualsTwice, both, ("value", value));
        }
        else
        {
            var function = Now.Text == "<" ? "shl" : "shr";
            Fail(Id.ShiftOperator, both, ("symbol", source[both]), ("function", function), ("value", value));
        }
        return true;
    }

    /// <summary>Whether a range of numbers begins here: "sum" and "every" are names wherever no name and "in" stand behind them.</summary>
    private bool IsRange(string word) =>
        inFormula
        && Now is { Kind: TokenKind.Name } token
        && token.Text == word
        && tokens[at + 1].Kind == TokenKind.Name
        && tokens[at + 2].Is("in");

    /// <summary>range = NAME "in" sum ".." sum ;</summary>
    private (Declared Index, Expression Low, Expression High) Range(string end)
    {
        at++;
        var index = Name();
        Need("in", "each");
        var low = Sum();
        Need("..", "each");
        var high = Sum();
        if (Now is { Kind: TokenKind.Name, Text: "of" } && end == "of")
        {
            at++;
        }
        else
        {
            Need(end, "each");
        }
        return (index, low, high);
    }

    private Expression Deeper(Func<Expression> read)
    {
        depth++;
        var value = TooDeep(0) ? new Unreadable(Now.Span) : read();
        depth--;
        return value;
    }

    /// <summary>relation = "=" | "&lt;&gt;" | "&lt;" | "&lt;=" | "&gt;" | "&gt;=" ;</summary>
    private Relation? RelationHere()
    {
        foreach (var (symbol, relation) in Relations)
        {
            if (Now.Is(symbol))
            {
                return relation;
            }
        }
        return null;
    }

    /// <summary>sum = product { ( "+" | "-" ) product } ;</summary>
    private Expression Sum()
    {
        var left = Product();
        while (Now.Is("+") || Now.Is("-"))
        {
            var op = Now.Is("+") ? BinaryOperator.Add : BinaryOperator.Subtract;
            at++;
            left = Pair(op, left, Product());
        }
        return left;
    }

    /// <summary>
    /// product = "sum" range "of" product (* in formulas *) | sign { ( "*" | "/" ) sign } ; binding takes "/" between numbers only.
    /// </summary>
    private Expression Product()
    {
        var start = Now.Span.Start;
        if (IsRange("sum"))
        {
            var (index, low, high) = Range("of");
            var body = Deeper(Product);
            return new Total(From(start), index, low, high, body);
        }
        var left = Sign();
        while (Now.Is("*") || Now.Is("/"))
        {
            var op = Now.Is("*") ? BinaryOperator.Multiply : BinaryOperator.Divide;
            at++;
            left = Pair(op, left, Sign());
        }
        return left;
    }

    /// <summary>sign = "-" sign | join [ "^" sign ] ; binding takes "^" between numbers only.</summary>
    private Expression Sign()
    {
        var start = Now.Span.Start;
        if (Eat("-"))
        {
            return Prefixed(start, UnaryOperator.Negate, Sign);
        }
        var value = Join();
        if (!Now.Is("^"))
        {
            return value;
        }
        if (value is Scaled)
        {
            Fail(
                Id.PowerUnclear,
                Span.Covering(value.Span, Now.Span),
                ("value", value.ToString()),
                ("name", ((Scaled)value).Name.Name),
                ("factor", ((Scaled)value).Factor.Text)
            );
            return value;
        }
        at++;
        var power = Deeper(Sign);
        return Pair(BinaryOperator.Power, value, power);
    }

    /// <summary>join = postfix | postfix { ":" postfix } (* in values *) ;</summary>
    private Expression Join()
    {
        var first = Postfix();
        if (inFormula || !Now.Is(":"))
        {
            return first;
        }
        var parts = new List<Expression> { first };
        while (Eat(":"))
        {
            parts.Add(Postfix());
        }
        return new Joined(Span.Covering(first.Span, parts[^1].Span), parts);
    }

    /// <summary>postfix = atom | atom { slice } (* in values *) ;</summary>
    private Expression Postfix() => Slices(Atom());

    /// <summary>slice = "[" number [ ".." number ] "]" ; no blank before the bracket.</summary>
    private Expression Slices(Expression value)
    {
        while (Now.Is("[") && !Now.Spaced)
        {
            if (TooDeep(value.Depth))
            {
                return value;
            }
            at++;
            var high = FormulaSum();
            var low = Eat("..") ? FormulaSum() : null;
            Need("]", "bracket");
            var span = From(value.Span.Start);
            value = low is null ? new Sliced(span, value, high) : new Sliced(span, value, high, low);
        }
        return value;
    }

    /// <summary>
    /// atom = NUMBER | MULTIPLE | BITS | NAME | call | "(" inside ")" | "last" (* in values *) ;
    /// A multiple is 2n, without a blank. That "last" and slices are no formulas is said by binding.
    /// </summary>
    private Expression Atom()
    {
        var token = Now;
        switch (token.Kind)
        {
            case TokenKind.Number:
                at++;
                var number = new NumberLiteral(token.Span, token.Text);
                if (Now.Kind == TokenKind.Name && !Now.Spaced)
                {
                    var name = new NameReference(Now.Span, Now.Text);
                    at++;
                    return new Scaled(From(token.Span.Start), number, name);
                }
                return number;
            case TokenKind.Bits:
                at++;
                return new BitsLiteral(token.Span, token.Text);
            case TokenKind.Keyword when token.Text is "signed" or "unsigned" && !tokens[at + 1].Is("("):
                at++;
                Need("(", "reading");
                return new Unreadable(token.Span);
            case TokenKind.Name:
            case TokenKind.Keyword when token.Text is "signed" or "unsigned" or "last":
                at++;
                return Now.Is("(") && !Now.Spaced ? Arguments(token) : new NameReference(token.Span, token.Text);
            case TokenKind.Symbol when token.Text == "(":
                at++;
                var inner = FormulaOrValue();
                Need(")", "bracket");
                return new Bracketed(From(token.Span.Start), inner);
            case TokenKind.Keyword when token.Text is "not":
                Fail(Id.NotInside, token.Span);
                return new Unreadable(token.Span);
            case TokenKind.Keyword when token.Text is not ("when" or "else" or "via" or "says"):
                Fail(Id.ReservedWord, token.Span, ("word", token.Text));
                return new Unreadable(token.Span);
            default:
                Fail(Id.ValueExpected, token.Span, ("found", Found()));
                return new Unreadable(token.Span);
        }
    }

    /// <summary>
    /// call = NAME "(" inside { "," inside } ")" | ( "signed" | "unsigned" ) "(" inside ")" (* in values *) ;
    /// No blank before the bracket. How many values a function takes is said by binding.
    /// </summary>
    private Call Arguments(Token name)
    {
        at++;
        var arguments = new List<Expression>();
        if (!Now.Is(")"))
        {
            do
            {
                arguments.Add(FormulaOrValue());
            } while (Eat(","));
        }
        Need(")", "bracket");
        return new Call(From(name.Span.Start), name.Span, name.Text, arguments);
    }
}
