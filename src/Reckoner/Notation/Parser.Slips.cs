using Reckoner.Diagnostics;

namespace Reckoner.Notation;

/// <summary>What is said about a slip, and how reading goes on after it, so that one slip gets one message.</summary>
internal sealed partial class Parser
{
    /// <summary>Something here may have missed its opening line, which has been spoken of.</summary>
    private bool strayStatementsReported;

    /// <summary>Says what is wrong and gives the line up: names on it are torn, and nobody is told that they are unknown.</summary>
    private void Fail(Id id, Span span, params ReadOnlySpan<Fact> facts)
    {
        if (lost)
        {
            return;
        }
        Say(id, span, facts);
        Tear();
        lost = true;
    }

    /// <summary>One line, one word about it: where its characters or its beginning were wrong already, that is enough.</summary>
    private void Say(Id id, Span span, params ReadOnlySpan<Fact> facts)
    {
        var line = source.LineOf(span.Start);
        var first = Math.Min(line, source.LineOf(tokens[SentenceStart()].Span.Start));
        if (!Enumerable.Range(first, line - first + 1).Any(spoiltLines.Contains))
        {
            report.Add(id, span, facts);
            spoiltLines.Add(line);
        }
    }

    private int SentenceStart()
    {
        var i = at;
        while (i > 0 && tokens[i - 1].Kind != TokenKind.LineEnd)
        {
            i--;
        }
        return i;
    }

    private void Tear()
    {
        for (var i = SentenceStart(); tokens[i].Kind is not (TokenKind.LineEnd or TokenKind.End); i++)
        {
            if (tokens[i].Kind == TokenKind.Name)
            {
                torn.Add(tokens[i].Text);
            }
        }
    }

    private void FailToEnd()
    {
        if (Now is { Kind: TokenKind.Name, Text: "mod" or "rem" })
        {
            Fail(Id.NoRemainder, Now.Span, ("word", Now.Text));
        }
        if (NameOfWords() is var (name, words))
        {
            var joint = tokens[SentenceStart()].Text is "machine" or "follows" or "core" ? '-' : '_';
            Fail(
                Id.NameOfWords,
                name,
                ("words", Excerpt.Of(string.Join(' ', words))),
                ("name", Excerpt.Of(string.Join(joint, words)))
            );
        }
        Fail(Id.LineGoesOn, Now.Span, ("before", Excerpt.Of(source[tokens[at - 1].Span])), ("found", Found()));
    }

    /// <summary>
    /// Where a word that a name follows has one behind it and at once further words: all of these. Behind "let" a comma may be what
    /// is missing.
    /// </summary>
    private (Span Place, List<string> Words)? NameOfWords()
    {
        var first = SentenceStart() + 1;
        if (
            at - 1 != first
            || tokens[first].Kind != TokenKind.Name
            || !Keywords.Naming.Contains(tokens[first - 1].Text)
        )
        {
            return null;
        }
        var last = first;
        while (tokens[last + 1].Kind is TokenKind.Name or TokenKind.Number)
        {
            last++;
        }
        return last == first
            ? null
            : (
                new Span(tokens[first].Span.Start, tokens[last].Span.End),
                [.. tokens.GetRange(first, last - first + 1).Select(t => t.Text)]
            );
    }

    private object Found() =>
        Now.Kind switch
        {
            TokenKind.LineEnd => new Term("line-end"),
            TokenKind.End => new Term("text-end"),
            _ => Excerpt.Of(source[Now.Span]),
        };

    /// <summary>A type with the word behind it; where that is missing, nobody knows where the type was to end.</summary>
    private TypeSyntax? UnlessLost(TypeSyntax? type) =>
        lost && type is not null ? type with { Width = new Unreadable(type.Span) } : type;

    /// <summary>A misspelt first word is reported and read as the word it is nearest to, so that what it declares is known below.</summary>
    private void MendFirstWord()
    {
        var word = tokens[at];
        if (word.Kind != TokenKind.Name || LineHas("<-"))
        {
            return;
        }
        var near = Meant(word, Keywords.Declarations);
        if (near.Count > 0)
        {
            Say(Id.UnknownDeclaration, word.Span, ("word", word.Text), ("near", near));
            tokens[at] = word with { Kind = TokenKind.Keyword, Text = near[0] };
        }
        else
        {
            FailDeclaration(word);
        }
    }

    /// <summary>
    /// The words that a misspelt first word was probably meant to be. What stands before an equals sign, a colon or a slice is a
    /// name, and words that stand alone have nothing behind them.
    /// </summary>
    private IReadOnlyList<string> Meant(Token word, IEnumerable<string> known)
    {
        var next = tokens[at + 1];
        var isName = next.Kind == TokenKind.Symbol && next.Text is not ("(" or "-");
        return NearNames.Of(
            word.Text,
            known.Where(k =>
                k is "else" ? next.Is(":") || next.Is("if") || next.Kind == TokenKind.LineEnd
                : k is "then" or "end" or "hold" ? next.Kind == TokenKind.LineEnd
                : !isName
            )
        );
    }

    /// <summary>A line that is no sentence may have opened a block or declared anything, so what follows from it is not blamed.</summary>
    private void FailDeclaration(Token word)
    {
        if (!strayStatementsReported)
        {
            Fail(Id.UnknownDeclaration, word.Span, ("word", Excerpt.Of(word.Text)), ("near", Array.Empty<string>()));
        }
        strayStatementsReported = true;
        torn.Add("");
        lost = true;
    }

    /// <summary>A line of one word that is nearly "end", where only an end or another row of a block may stand.</summary>
    private void MendEnd()
    {
        var word = tokens[at];
        var isAlone = word.Kind == TokenKind.Name && tokens[at + 1].Kind is TokenKind.LineEnd or TokenKind.End;
        if (isAlone && NearNames.Of(word.Text, ["end"]) is { Count: > 0 } near)
        {
            Say(Id.NoStatement, word.Span, ("word", word.Text), ("near", near));
            tokens[at] = word with { Kind = TokenKind.Keyword, Text = "end" };
        }
    }

    private bool LineHas(string symbol)
    {
        for (var i = at; tokens[i].Kind is not (TokenKind.LineEnd or TokenKind.End); i++)
        {
            if (tokens[i].Is(symbol))
            {
                return true;
            }
        }
        return false;
    }

    /// <summary>What is no declaration: an end too many, or statements outside a step, said once for a run of them.</summary>
    private Declaration? Stray(List<string> above)
    {
        var word = Now;
        if (word.Is("end"))
        {
            if (extraEndsForgiven > 0)
            {
                extraEndsForgiven--;
            }
            else if (!strayStatementsReported)
            {
                Say(Id.EndExtra, word.Span);
            }
            at++;
            EndLine(above);
            return null;
        }
        var isStatement = Keywords.Statements.Contains(word.Text) || LineHas("<-");
        if (isStatement && !lost)
        {
            if (!strayStatementsReported)
            {
                Say(Id.StatementOutside, word.Span);
                strayStatementsReported = true;
            }
            Tear();
            lost = true;
        }
        else if (!lost)
        {
            FailDeclaration(word);
        }
        EndLine(above);
        return null;
    }

    private void MendStatementWord()
    {
        var word = tokens[at];
        if (word.Kind != TokenKind.Name || LineHas("<-"))
        {
            return;
        }
        var near = Meant(word, Keywords.Statements.Union(Keywords.Declarations).Except(["core", "table"]));
        if (near.Count > 0)
        {
            Say(Id.NoStatement, word.Span, ("word", word.Text), ("near", near));
            tokens[at] = word with { Kind = TokenKind.Keyword, Text = near[0] };
        }
    }

    /// <summary>A label outside a case, or a word that stands inside sentences: it may go on with the line above, or miss its opening.</summary>
    private static bool IsStray(Token token) =>
        IsLabelStart(token) || (token.Kind == TokenKind.Keyword && Keywords.Between.Contains(token.Text));

    private void PassStray()
    {
        var above = Above();
        if (!strayStatementsReported && !spoiltLines.Contains(source.LineOf(Now.Span.Start) - 1))
        {
            Say(Id.NoStatement, Now.Span, ("word", Now.Text), ("near", Array.Empty<string>()));
        }
        strayStatementsReported = true;
        Tear();
        lost = true;
        EndLine(above);
    }
}
