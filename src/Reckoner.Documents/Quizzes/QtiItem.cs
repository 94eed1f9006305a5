using System.Globalization;
using System.Text;
using System.Xml;
using Reckoner.Words;

namespace Reckoner.Documents.Quizzes;

/// <summary>
/// An item as XML (QTI 2.1 and 3). Answers are texts, never numbers, since 00101 is not 101; what a player has to do with them is all
/// written out: whichever text is right, whichever is known to be wrong, and what is said of each.
/// </summary>
internal sealed class QtiItem
{
    private const string Score = "SCORE";
    private const string Most = "MAXSCORE";
    private const string Said = "FEEDBACK";
    private const string Right = "right";
    private const string Wrong = "wrong";

    private readonly XmlWriter xml;
    private readonly QtiDialect dialect;
    private readonly QuizItem item;
    private readonly Vocabulary words;

    private QtiItem(XmlWriter xml, QtiDialect dialect, QuizItem item, Vocabulary words) =>
        (this.xml, this.dialect, this.item, this.words) = (xml, dialect, item, words);

    public static byte[] Of(QuizItem item, QtiDialect dialect, Vocabulary words)
    {
        using var stream = new MemoryStream();
        // Not indented: blanks between letters would be shown.
        var settings = new XmlWriterSettings { Encoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false) };
        using (var xml = XmlWriter.Create(stream, settings))
        {
            new QtiItem(xml, dialect, item, words).Write();
        }
        return stream.ToArray();
    }

    private void Write()
    {
        xml.WriteStartElement(dialect.Element("assessmentItem"), dialect.Item);
        xml.WriteAttributeString(
            "xsi",
            "schemaLocation",
            "http://www.w3.org/2001/XMLSchema-instance",
            $"{dialect.Item} {dialect.ItemSchema}"
        );
        Attributes(
            ("identifier", item.Identifier),
            ("title", item.Title),
            ("adaptive", "false"),
            ("timeDependent", "false")
        );
        xml.WriteAttributeString("xml", "lang", null, words.Language);
        foreach (var gap in item.Gaps)
        {
            Element(
                "responseDeclaration",
                () => Element("correctResponse", () => Value(gap.Right[0])),
                ("identifier", gap.Name),
                ("cardinality", "single"),
                ("baseType", TypeOf(gap))
            );
        }
        Outcome(Score, "float", "0");
        Outcome(Most, "float", Marks);
        Outcome(Said, "identifier", null);
        Element("itemBody", Body);
        Element("responseProcessing", () => Element("responseCondition", Processing));
        Feedback(Right, new QuizFeedback(words.Say("quiz.right"), []));
        for (var i = 0; i < item.Known.Count; i++)
        {
            Feedback(Name(i), item.Known[i].Feedback);
        }
        Feedback(Wrong, new QuizFeedback(words.Say(item.Known.Count > 0 ? "quiz.wrong" : "quiz.not-right"), []));
        xml.WriteEndElement();
    }

    private string Marks => item.Marks.ToString("0.####", CultureInfo.InvariantCulture);

    /// <summary>Of a wrong answer that is known.</summary>
    private static string Name(int known) => FormattableString.Invariant($"wrong{known + 1}");

    /// <summary>A letter that was chosen is a name; all else is a text, and nothing a number.</summary>
    private string TypeOf(QuizGap gap) => IsChoice(gap) ? "identifier" : "string";

    private bool IsChoice(QuizGap gap) => item.Body.OfType<QuizChoice>().Any(c => c.Gap == gap);

    // ---- what is shown

    private void Body()
    {
        foreach (var block in item.Body)
        {
            var write = block.Match<Action>(
                says: b => () => Html("p", () => xml.WriteString(b.Text)),
                lines: b => () => Html("pre", () => xml.WriteString(string.Join('\n', b.Lines))),
                table: b => () => Table(b),
                places: b => () => b.Gaps.ToList().ForEach(Place),
                choice: b => () => Choice(b)
            );
            write();
        }
    }

    private void Table(QuizTable table) =>
        Html(
            "table",
            () =>
            {
                Html(
                    "thead",
                    () => Html("tr", () => table.Heads.ToList().ForEach(h => Html("th", () => xml.WriteString(h))))
                );
                Html(
                    "tbody",
                    () =>
                    {
                        foreach (var row in table.Rows)
                        {
                            Html("tr", () => row.ToList().ForEach(Cell));
                        }
                    }
                );
            }
        );

    private void Cell(QuizCell cell) =>
        Html(
            "td",
            () =>
            {
                if (cell.Gap is { } gap)
                {
                    Entry(gap);
                }
                else if (cell.IsDigits)
                {
                    Html("code", () => xml.WriteString(cell.Text));
                }
                else
                {
                    xml.WriteString(cell.Text);
                }
            }
        );

    private void Place(QuizGap gap) =>
        Html(
            "p",
            () =>
            {
                xml.WriteString($"{gap.Label} = ");
                Entry(gap);
            }
        );

    private void Entry(QuizGap gap) =>
        Element(
            "textEntryInteraction",
            () => { },
            ("responseIdentifier", gap.Name),
            ("expectedLength", gap.Room.ToString(CultureInfo.InvariantCulture))
        );

    private void Choice(QuizChoice choice) =>
        Element(
            "choiceInteraction",
            () =>
            {
                foreach (var (letter, text) in choice.Options)
                {
                    Element("simpleChoice", () => xml.WriteString(text), ("identifier", letter));
                }
            },
            ("responseIdentifier", choice.Gap.Name),
            ("shuffle", "false"),
            ("maxChoices", "1")
        );

    // ---- what a player does with it

    private void Processing()
    {
        Element("responseIf", () => Graded([.. item.Gaps.Select(g => g.Right)], Marks, Right));
        for (var i = 0; i < item.Known.Count; i++)
        {
            var (written, name) = (item.Known[i].Written, Name(i));
            Element("responseElseIf", () => Graded(written, "0", name));
        }
        Element("responseElse", () => Set("0", Wrong));
    }

    /// <summary>Where each place holds one of these texts, so many marks and this feedback.</summary>
    private void Graded(IReadOnlyList<IReadOnlyList<string>> texts, string marks, string feedback)
    {
        All("and", [.. item.Gaps.Zip(texts).Select(g => (Action)(() => AnyOf(g.First, g.Second)))]);
        Set(marks, feedback);
    }

    private void AnyOf(QuizGap gap, IReadOnlyList<string> texts) =>
        All("or", [.. texts.SelectMany(t => Cases(gap, t)).Distinct().Select(t => (Action)(() => Is(gap, t)))]);

    /// <summary>
    /// Letters of a short answer count the same in either case. Each is written out: players differ in what they make of a comparison
    /// without case where nothing was written.
    /// </summary>
    private string[] Cases(QuizGap gap, string text) =>
        IsChoice(gap)
            ? [text]
            :
            [
                text,
                text.ToLowerInvariant(),
                text.ToUpperInvariant(),
                char.ToUpperInvariant(text[0]) + text[1..],
                .. text.StartsWith("0x", StringComparison.Ordinal)
                    ? (string[])[text[..2] + text[2..].ToUpperInvariant()]
                    : [],
            ];

    /// <summary>One needs no word around it.</summary>
    private void All(string name, IReadOnlyList<Action> parts)
    {
        if (parts is [var only])
        {
            only();
        }
        else
        {
            Element(name, () => parts.ToList().ForEach(p => p()));
        }
    }

    private void Is(QuizGap gap, string text) =>
        Element(
            "match",
            () =>
            {
                Element("variable", () => { }, ("identifier", gap.Name));
                Element("baseValue", () => xml.WriteString(text), ("baseType", TypeOf(gap)));
            }
        );

    private void Set(string marks, string feedback)
    {
        Element(
            "setOutcomeValue",
            () => Element("baseValue", () => xml.WriteString(marks), ("baseType", "float")),
            ("identifier", Score)
        );
        Element(
            "setOutcomeValue",
            () => Element("baseValue", () => xml.WriteString(feedback), ("baseType", "identifier")),
            ("identifier", Said)
        );
    }

    private void Outcome(string name, string type, string? value) =>
        Element(
            "outcomeDeclaration",
            () =>
            {
                if (value is not null)
                {
                    Element("defaultValue", () => Value(value));
                }
            },
            ("identifier", name),
            ("cardinality", "single"),
            ("baseType", type)
        );

    private void Value(string value) => Element("value", () => xml.WriteString(value));

    private void Feedback(string name, QuizFeedback feedback) =>
        Element(
            "modalFeedback",
            () =>
            {
                if (dialect.HasHyphens)
                {
                    Element("contentBody", () => Spoken(feedback));
                }
                else
                {
                    Spoken(feedback);
                }
            },
            ("outcomeIdentifier", Said),
            ("showHide", "show"),
            ("identifier", name)
        );

    private void Spoken(QuizFeedback feedback)
    {
        Html("p", () => xml.WriteString(feedback.Lead));
        if (feedback.Points.Count > 0)
        {
            Html("ul", () => feedback.Points.ToList().ForEach(p => Html("li", () => xml.WriteString(p))));
        }
    }

    // ---- XML

    private void Element(string name, Action content, params ReadOnlySpan<(string Name, string Value)> attributes)
    {
        xml.WriteStartElement(dialect.Element(name), dialect.Item);
        Attributes(attributes);
        content();
        xml.WriteEndElement();
    }

    private void Attributes(params ReadOnlySpan<(string Name, string Value)> attributes)
    {
        foreach (var (name, value) in attributes)
        {
            xml.WriteAttributeString(dialect.Attribute(name), value);
        }
    }

    private void Html(string name, Action content)
    {
        xml.WriteStartElement(name, dialect.Item);
        content();
        xml.WriteEndElement();
    }
}
