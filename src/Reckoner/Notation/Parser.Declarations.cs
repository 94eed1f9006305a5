using Reckoner.Diagnostics;

namespace Reckoner.Notation;

internal sealed partial class Parser
{
    /// <summary>description = machine { declaration } ; only machine names have hyphens.</summary>
    private List<Declaration> Declarations()
    {
        var declarations = new List<Declaration>();
        var first = tokens[at];
        if (
            !first.Is("machine")
            && !(first.Kind == TokenKind.Name && Meant(first, Keywords.Declarations) is ["machine", ..])
        )
        {
            Say(Id.MachineFirst, first.Span);
            if (!Keywords.Declarations.Contains(first.Text) || tokens[at + 1] is { Text: "-", Spaced: false })
            {
                PassLine();
                EndLine([]);
            }
        }
        while (!AtEnd)
        {
            if (Declaration() is { } declaration)
            {
                declarations.Add(declaration);
            }
        }
        return declarations;
    }

    /// <summary>
    /// declaration = title | note | follows | width | constant | operand | given | register | part | meaning | unit | table
    /// | core | repeat | step | result | definition | claim ;
    /// machine = "machine" MACHINE NL ;
    /// title = "title" phrase NL ;
    /// note = "note" phrase NL ;
    /// follows = "follows" MACHINE NL ;
    /// given = "given" formula NL ;
    /// </summary>
    private Declaration? Declaration()
    {
        MendFirstWord();
        var above = Above();
        var start = Now.Span.Start;
        var word = Now;
        if (word.Kind != TokenKind.Keyword || !Keywords.Declarations.Contains(word.Text))
        {
            return Stray(above);
        }
        strayStatementsReported = false;
        at++;
        switch (word.Text)
        {
            case "machine":
                return new MachineLine(Spanned(start, Name(), out var name), EndLine(above), name);
            case "title":
                return new TitleLine(Spanned(start, NeedPhrase(), out var title), EndLine(above), title);
            case "note":
                return new NoteLine(Spanned(start, NeedPhrase(), out var note), EndLine(above), note);
            case "follows":
                return new FollowsLine(Spanned(start, Name(), out var followed), EndLine(above), followed);
            case "width":
            case "parameter":
                return Width(start, above, word.Text == "parameter");
            case "constant":
                return Constant(start, above);
            case "operand":
                return Operand(start, above);
            case "given":
                return new GivenLine(Spanned(start, Formula(), out var given), EndLine(above), given);
            case "register":
                return Register(start, above);
            case "part":
                return Part(start, above);
            case "meaning":
                return Meaning(start, above);
            case "unit":
                return Unit(start, above);
            case "table":
                return Table(start, above);
            case "core":
                return Core(start, above);
            case "repeat":
                return Repeat(start, above);
            case "step":
                return Step(start, above);
            case "result":
                return Result(start, above);
            case "formula":
                return Definition(start, above);
            default:
                return Claim(start, above, word.Text == "outside");
        }
    }

    private Span Spanned<T>(int start, T part, out T same)
    {
        same = part;
        return From(start);
    }

    /// <summary>width = ( "width" | "parameter" ) NAME "=" number "in" number ".." number NL ;</summary>
    private WidthLine Width(int start, List<string> above, bool isParameter)
    {
        var form = isParameter ? "parameter" : "width";
        var name = Name();
        Need("=", form);
        var value = FormulaSum();
        Need("in", form);
        var low = FormulaSum();
        Need("..", form);
        var high = FormulaSum();
        return new WidthLine(From(start), EndLine(above), isParameter, name, value, low, high);
    }

    /// <summary>constant = "constant" NAME [ ":" type ] "=" formula NL ;</summary>
    private ConstantLine Constant(int start, List<string> above)
    {
        var name = Name();
        var type = Eat(":") ? Type() : null;
        Need("=", "constant");
        type = UnlessLost(type);
        var formula = Formula();
        return new ConstantLine(From(start), EndLine(above), name, type, formula);
    }

    /// <summary>operand = "operand" named [ phrase ] ":" type NL ;</summary>
    private OperandLine Operand(int start, List<string> above)
    {
        var name = Named();
        var phrase = OptionalPhrase();
        Need(":", "operand");
        var type = Type();
        return new OperandLine(From(start), EndLine(above), name, phrase, type);
    }

    /// <summary>register = "register" NAME [ phrase ] ":" type "loads" value NL ;</summary>
    private RegisterLine Register(int start, List<string> above)
    {
        var name = Name();
        var phrase = OptionalPhrase();
        Need(":", "register");
        var type = Type();
        Need("loads", "register");
        type = UnlessLost(type)!;
        var loads = Value();
        return new RegisterLine(From(start), EndLine(above), name, phrase, type, loads);
    }

    /// <summary>part = "part" NAME [ phrase ] "=" value NL ; binding takes a slice of one register, or signed( ) of one.</summary>
    private PartLine Part(int start, List<string> above)
    {
        var name = Name();
        var phrase = OptionalPhrase();
        Need("=", "part");
        var slice = Value();
        return new PartLine(From(start), EndLine(above), name, phrase, slice);
    }

    /// <summary>meaning = "meaning" NAME [ phrase ] "=" value [ "point" number ] [ "until" NAME ] NL ;</summary>
    private MeaningLine Meaning(int start, List<string> above)
    {
        var name = Name();
        var phrase = OptionalPhrase();
        Need("=", "meaning");
        var value = Value();
        Expression? point = null;
        if (Now is { Kind: TokenKind.Name, Text: "point" })
        {
            at++;
            point = FormulaSum();
        }
        Declared? until = null;
        if (Now is { Kind: TokenKind.Name, Text: "until" })
        {
            at++;
            until = Name();
        }
        return new MeaningLine(From(start), EndLine(above), name, phrase, value, point, until);
    }

    /// <summary>unit = "unit" NAME ":" ( "adder" number | "multiplier" number [ "by" number ] ) NL ;</summary>
    private UnitLine Unit(int start, List<string> above)
    {
        var name = Name();
        Need(":", "unit");
        var kind = UnitKind.Adder;
        var word = Now;
        if (word.Kind == TokenKind.Name && word.Text is "adder" or "multiplier")
        {
            kind = word.Text == "adder" ? UnitKind.Adder : UnitKind.Multiplier;
            at++;
        }
        else
        {
            Fail(Id.UnknownUnitKind, word.Span, ("found", Found()));
        }
        var width = FormulaSum();
        Expression? by = null;
        if (kind == UnitKind.Multiplier && Now is { Kind: TokenKind.Name, Text: "by" })
        {
            at++;
            by = FormulaSum();
        }
        return new UnitLine(From(start), EndLine(above), name, kind, width, by);
    }

    /// <summary>
    /// table = "table" NAME "(" index { "," index } ")" ":" type NL { row } "end" NL ;
    /// index = NAME ":" type ;
    /// </summary>
    private TableBlock Table(int start, List<string> above)
    {
        var name = Name();
        Need("(", "table");
        var indices = new List<TableIndex>();
        do
        {
            var index = Name();
            Need(":", "table");
            indices.Add(new TableIndex(index, Type()));
        } while (Eat(","));
        Need(")", "table");
        Need(":", "table");
        var type = Type();
        var comments = EndLine(above);
        var rows = new List<TableRow>();
        while (InBlock())
        {
            rows.Add(Row());
        }
        return new TableBlock(From(start), comments, name, indices, type, rows, BlockEnd("table", start));
    }

    /// <summary>row = ( formula | "else" ) ":" formula NL ;</summary>
    private TableRow Row()
    {
        var above = Above();
        var start = Now.Span.Start;
        var condition = Eat("else") ? null : Formula();
        Need(":", "row");
        var value = Formula();
        return new TableRow(From(start), EndLine(above), condition, value);
    }

    /// <summary>core = "core" MACHINE NL { NAME "=" value NL } "end" NL ;</summary>
    private CoreBlock Core(int start, List<string> above)
    {
        var machine = Name();
        var comments = EndLine(above);
        var operands = new List<CoreOperand>();
        while (InBlock())
        {
            var aboveRow = Above();
            var name = Name();
            Need("=", "core");
            var value = Value();
            operands.Add(new CoreOperand(From(name.Span.Start), EndLine(aboveRow), name, value));
        }
        return new CoreBlock(From(start), comments, machine, operands, BlockEnd("core", start));
    }

    /// <summary>True until the line that ends a block of rows, or one that cannot belong to it.</summary>
    private bool InBlock()
    {
        MendEnd();
        return !AtEnd && !Now.Is("end") && !(Now.Kind == TokenKind.Keyword && Keywords.Declarations.Contains(Now.Text));
    }

    private Comments BlockEnd(string opener, int start)
    {
        if (Now.Is("end"))
        {
            var above = Above();
            at++;
            return EndLine(above);
        }
        if (endsUncounted)
        {
            return Comments.None;
        }
        report.Add(
            Id.EndMissing,
            new Span(start, start + opener.Length),
            ("opener", opener),
            ("line", source.LineOf(start)),
            ("found", Found())
        );
        extraEndsForgiven++;
        return Comments.None;
    }

    /// <summary>repeat = "repeat" ( number | "at" "most" number "while" value ) NL ( moments | step { step } ) "end" NL ;</summary>
    private RepeatBlock Repeat(int start, List<string> above)
    {
        Expression? condition = null;
        Expression count;
        if (Eat("at"))
        {
            Need("most", "repeat");
            count = FormulaSum();
            Need("while", "repeat");
            condition = Value();
        }
        else
        {
            if (Now.Is("while"))
            {
                Fail(Id.WhileUnbounded, Now.Span);
            }
            count = FormulaSum();
        }
        var comments = EndLine(above);
        var steps = new List<StepBlock>();
        if (Now.Is("step"))
        {
            while (Now.Is("step"))
            {
                var aboveStep = Above();
                var stepStart = Now.Span.Start;
                at++;
                steps.Add(Step(stepStart, aboveStep));
            }
        }
        else
        {
            var body = Now.Span.Start;
            var moments = Moments();
            steps.Add(new StepBlock(new Span(body, Math.Max(body, Before)), Comments.None, null, null, moments));
        }
        if (Now.Is("repeat"))
        {
            Say(Id.RepeatInside, Now.Span, ("line", source.LineOf(start)));
            extraEndsForgiven++;
            return new RepeatBlock(From(start), comments, count, condition, steps, Comments.None);
        }
        return new RepeatBlock(From(start), comments, count, condition, steps, BlockEnd("repeat", start));
    }

    /// <summary>step = "step" named [ phrase ] NL moments ;</summary>
    private StepBlock Step(int start, List<string> above)
    {
        var name = Named();
        var phrase = OptionalPhrase();
        var comments = EndLine(above);
        var moments = Moments();
        return new StepBlock(From(start), comments, name, phrase, moments);
    }

    /// <summary>result = "result" named "=" value NL ;</summary>
    private ResultLine Result(int start, List<string> above)
    {
        var name = Named();
        Need("=", "result");
        var value = Value();
        return new ResultLine(From(start), EndLine(above), name, value);
    }

    /// <summary>definition = "formula" named [ "(" NAME { "," NAME } ")" ] "=" formula NL ;</summary>
    private FormulaLine Definition(int start, List<string> above)
    {
        var name = Named();
        var parameters = new List<Declared>();
        if (Eat("("))
        {
            do
            {
                parameters.Add(Name());
            } while (Eat(","));
            Need(")", "formula");
        }
        Need("=", "formula");
        var body = Formula();
        return new FormulaLine(From(start), EndLine(above), name, parameters, body);
    }

    /// <summary>claim = ( "law" | "outside" ) formula [ [ NL ] ( "when" | "exactly" "when" ) formula ] NL ;</summary>
    private ClaimLine Claim(int start, List<string> above, bool isOutside)
    {
        var formula = Formula();
        if (lost)
        {
            PassLine();
        }
        if (Now.Kind == TokenKind.LineEnd && (tokens[at + 1].Is("when") || tokens[at + 1].Is("exactly")))
        {
            at++;
        }
        var kind = ClaimCondition.Always;
        Expression? condition = null;
        if (Eat("exactly"))
        {
            Need("when", "claim");
            kind = ClaimCondition.ExactlyWhen;
        }
        else if (Eat("when"))
        {
            kind = ClaimCondition.When;
        }
        if (kind != ClaimCondition.Always)
        {
            condition = Formula();
        }
        return new ClaimLine(From(start), EndLine(above), isOutside, formula, kind, condition);
    }
}
