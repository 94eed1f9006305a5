using Reckoner.Diagnostics;

namespace Reckoner.Notation;

internal sealed partial class Parser
{
    /// <summary>moments = { statement } { "then" NL { statement } } ;</summary>
    private List<Moment> Moments()
    {
        var moments = new List<Moment>();
        var then = Comments.None;
        while (true)
        {
            var statements = Statements();
            while (IsStray(Now))
            {
                PassStray();
                statements.AddRange(Statements());
            }
            moments.Add(new Moment(then, statements));
            if (!Now.Is("then"))
            {
                return moments;
            }
            var above = Above();
            at++;
            then = EndLine(above);
        }
    }

    /// <summary>Statements up to a line that is none: end, else, then, a label, or a declaration.</summary>
    private List<Statement> Statements()
    {
        var statements = new List<Statement>();
        while (!AtEnd)
        {
            MendStatementWord();
            var word = Now;
            var begins =
                word.Kind == TokenKind.Keyword
                    ? word.Text is "let" or "if" or "case" or "hold" or "note"
                    : !IsLabelStart(word);
            if (!begins)
            {
                break;
            }
            statements.Add(Statement());
        }
        return statements;
    }

    /// <summary>
    /// The statements of a branch that began at a place. A step that stands farther in than that was meant to be part of it; any
    /// other comes after it.
    /// </summary>
    private List<Statement> Branch(int start)
    {
        var statements = Statements();
        while (Now.Is("step") && ColumnOf(Now.Span.Start) > ColumnOf(start))
        {
            var above = Above();
            Say(Id.StepInside, Now.Span);
            Tear();
            lost = true;
            EndLine(above);
            statements.AddRange(Statements());
        }
        return statements;
    }

    private int ColumnOf(int place) => place - source.LineSpan(source.LineOf(place)).Start;

    private static bool IsLabelStart(Token token) => token.Kind is TokenKind.Bits or TokenKind.Number || token.Is("-");

    /// <summary>
    /// statement = let | transfer | if | case | hold | note ;
    /// hold = "hold" NL ;
    /// </summary>
    private Statement Statement()
    {
        var above = Above();
        var start = Now.Span.Start;
        depth++;
        if (TooDeep(0, DeepestBlocks))
        {
            PassOverBlocks();
            depth--;
            return new HoldLine(From(start), Comments.None);
        }
        var statement = Statement(start, above);
        depth--;
        return statement;
    }

    private Statement Statement(int start, List<string> above)
    {
        if (Eat("let"))
        {
            return Let(start, above);
        }
        if (Eat("if"))
        {
            return If(start, above);
        }
        if (Eat("case"))
        {
            return Case(start, above);
        }
        if (Eat("hold"))
        {
            return new HoldLine(From(start), EndLine(above));
        }
        if (Eat("note"))
        {
            return new RemarkLine(Spanned(start, NeedPhrase(), out var text), EndLine(above), text);
        }
        return Transfer(start, above);
    }

    /// <summary>
    /// let = "let" named [ "," named ] "=" value [ "via" NAME ] [ says ] NL
    /// | "let" named "=" "case" value NL { arm value NL } "end" NL ;
    /// </summary>
    private Statement Let(int start, List<string> above)
    {
        var name = Named();
        var second = Eat(",") ? Named() : null;
        Need("=", "let");
        if (Now.Is("case"))
        {
            at++;
            return LetCase(start, above, name);
        }
        var value = Value();
        var via = Eat("via") ? Name() : null;
        var says = Says();
        return new LetLine(From(start), EndLine(above), name, second, value, via, says);
    }

    /// <summary>says = "says" phrase [ "else" phrase ] ;</summary>
    private Says? Says()
    {
        if (!Eat("says"))
        {
            return null;
        }
        var one = NeedPhrase();
        return new Says(one, Eat("else") ? NeedPhrase() : null);
    }

    private LetCase LetCase(int start, List<string> above, Declared name)
    {
        var subject = Value();
        var comments = EndLine(above);
        var arms = new List<ValueArm>();
        while (InArms())
        {
            var aboveArm = Above();
            var armStart = Now.Span.Start;
            var (labels, says) = Arm();
            var value = Value();
            arms.Add(new ValueArm(From(armStart), EndLine(aboveArm), labels, says, value));
        }
        return new LetCase(From(start), comments, name, subject, arms, BlockEnd("case", start));
    }

    /// <summary>arm = ( label { "," label } | "else" ) [ "says" phrase ] ":" ; for "else" there are no labels.</summary>
    private (List<Label>? Labels, Phrase? Says) Arm()
    {
        List<Label>? labels = null;
        if (!Eat("else"))
        {
            labels = [];
            do
            {
                labels.Add(ReadLabel());
            } while (Eat(","));
        }
        var says = Eat("says") ? NeedPhrase() : null;
        Need(":", "arm");
        return (labels, says);
    }

    /// <summary>label = PATTERN | [ "-" ] NUMBER ;</summary>
    private Label ReadLabel()
    {
        var start = Now.Span.Start;
        var negative = Eat("-");
        var token = Now;
        if (token.Kind == TokenKind.Number || (token.Kind == TokenKind.Bits && !negative))
        {
            at++;
            Expression literal =
                token.Kind == TokenKind.Number
                    ? new NumberLiteral(token.Span, token.Text)
                    : new BitsLiteral(token.Span, token.Text);
            return new Label(From(start), literal, negative);
        }
        Fail(Id.LabelExpected, token.Span, ("found", Found()));
        return new Label(From(start), new Unreadable(token.Span), false);
    }

    /// <summary>True until a line that is no arm. One that begins with anything but a label was meant as one.</summary>
    private bool InArms()
    {
        MendEnd();
        return !AtEnd && (Now.Kind != TokenKind.Keyword || Now.Is("else"));
    }

    /// <summary>transfer = target { ":" target } "&lt;-" value [ "via" NAME ] NL ;</summary>
    private Statement Transfer(int start, List<string> above)
    {
        var targets = new List<Expression>();
        var isTransfer = LineHas("<-");
        if (!isTransfer)
        {
            // It may have been meant to open a block.
            extraEndsForgiven++;
            strayStatementsReported = true;
        }
        if (!isTransfer && tokens[at + 1].Kind != TokenKind.Symbol)
        {
            Fail(Id.NoStatement, Now.Span, ("word", Found()), ("near", Array.Empty<string>()));
        }
        do
        {
            targets.Add(Target());
        } while (isTransfer && Eat(":"));
        Need("<-", "transfer");
        var value = Value();
        var via = Eat("via") ? Name() : null;
        if (lost)
        {
            targets = [new Unreadable(From(start))];
        }
        return new TransferLine(From(start), EndLine(above), targets, value, via);
    }

    /// <summary>target = NAME { slice } ;</summary>
    private Expression Target()
    {
        var name = Name();
        return Slices(new NameReference(name.Span, name.Text));
    }

    /// <summary>if = "if" value [ says ] NL { statement } ( "end" NL | "else" NL { statement } "end" NL | "else" if ) ;</summary>
    private IfBlock If(int start, List<string> above)
    {
        var condition = Value();
        if (Now.Is("then"))
        {
            Fail(Id.ThenAfterCondition, Now.Span);
        }
        var says = Says();
        var comments = EndLine(above);
        var then = Branch(start);
        if (!Now.Is("else"))
        {
            return new IfBlock(
                From(start),
                comments,
                condition,
                says,
                then,
                Comments.None,
                null,
                false,
                BlockEnd("if", start)
            );
        }
        var aboveElse = Above();
        at++;
        if (Now.Is("if"))
        {
            var innerStart = Now.Span.Start;
            at++;
            depth++;
            var inner = TooDeep(0, DeepestBlocks) ? null : If(innerStart, aboveElse);
            depth--;
            if (inner is null)
            {
                PassOverBlocks();
                return new IfBlock(
                    From(start),
                    comments,
                    condition,
                    says,
                    then,
                    Comments.None,
                    null,
                    false,
                    Comments.None
                );
            }
            return new IfBlock(
                From(start),
                comments,
                condition,
                says,
                then,
                Comments.None,
                [inner],
                true,
                Comments.None
            );
        }
        var atElse = EndLine(aboveElse);
        var otherwise = Branch(start);
        return new IfBlock(
            From(start),
            comments,
            condition,
            says,
            then,
            atElse,
            otherwise,
            false,
            BlockEnd("if", start)
        );
    }

    /// <summary>case = "case" value NL { arm [ NL ] { statement } } "end" NL ;</summary>
    private CaseBlock Case(int start, List<string> above)
    {
        var subject = Value();
        var comments = EndLine(above);
        var arms = new List<StatementArm>();
        while (InArms())
        {
            var aboveArm = Above();
            var armStart = Now.Span.Start;
            var (labels, says) = Arm();
            var besideLabels = Now.Kind == TokenKind.LineEnd ? EndLine(aboveArm) : new Comments(aboveArm, null);
            var body = Statements();
            arms.Add(new StatementArm(From(armStart), besideLabels, labels, says, body));
        }
        return new CaseBlock(From(start), comments, subject, arms, BlockEnd("case", start));
    }
}
