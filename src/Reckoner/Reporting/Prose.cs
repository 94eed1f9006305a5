using System.Text.RegularExpressions;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// A document to be read aloud: a line for each sentence, digits said one by one, signs as words, nothing that only eyes make
/// sense of.
/// </summary>
internal sealed partial class Prose
{
    private readonly Vocabulary words;
    private readonly TextWriter text;

    private Prose(TextWriter text, Vocabulary words)
    {
        this.text = text;
        this.words = words;
    }

    public static string Of(Document document, Vocabulary words) => Written.Text(text => Write(text, document, words));

    public static void Write(TextWriter text, Document document, Vocabulary words)
    {
        var prose = new Prose(text, words);
        prose.Sentence(Content.Phrase(document.Title));
        if (document.Subtitle is { } subtitle)
        {
            prose.Sentence(Content.Phrase(subtitle));
        }
        foreach (var lead in document.Leads)
        {
            prose.Sentence(lead);
        }
        foreach (var block in document.Blocks)
        {
            block.Match(prose.Write, prose.Write, prose.Write, prose.Write);
        }
    }

    /// <summary>Signs are of use only to those who see them.</summary>
    private Prose Write(Paragraph paragraph) => paragraph.Role == ParagraphRole.Signs ? this : Say(paragraph.Sentences);

    private Prose Write(Items items) => Say(items.Each);

    private Prose Say(IEnumerable<Content> sentences)
    {
        text.Write('\n');
        foreach (var sentence in sentences)
        {
            Sentence(sentence);
        }
        return this;
    }

    private Prose Write(Pairs pairs)
    {
        text.Write('\n');
        Sentence(pairs.Caption ?? Content.Empty);
        foreach (var row in pairs.Rows)
        {
            Sentence(words.Spell("aloud.said", ("name", row.Name), ("what", row.Said[0])));
            foreach (var more in row.Said.Skip(1))
            {
                Sentence(more);
            }
        }
        return this;
    }

    /// <summary>The label first, then what happened, then what the cells show.</summary>
    private Prose Write(Grid grid)
    {
        var label = grid.Columns.ToList().FindIndex(c => c.Role == ColumnRole.Label);
        foreach (var row in grid.Rows)
        {
            text.Write('\n');
            if (label >= 0)
            {
                var name = Joined(row.Cells[label]);
                if (char.IsAsciiDigit(name.ToString().FirstOrDefault()))
                {
                    name = Content.Phrase(grid.Columns[label].Name + " ") + name;
                }
                Sentence(row.Stored ? name : words.Spell("aloud.not-stored", ("what", name)));
            }
            foreach (var (cell, i) in row.Cells.Select((c, i) => (c, i)).OrderBy(c => Order(grid.Columns[c.i])))
            {
                if (i != label && !cell.IsEmpty)
                {
                    Say(grid.Columns[i], cell);
                }
            }
        }
        return this;
    }

    private static int Order(GridColumn column) => column.Role == ColumnRole.Sentences ? 0 : 1;

    private static Content Joined(Cell cell) => Content.Join("; ", cell.Lines);

    private void Say(GridColumn column, Cell cell)
    {
        if (column.Role == ColumnRole.Sentences && cell.Lines.Count > 0)
        {
            foreach (var line in cell.Lines)
            {
                Sentence(line);
            }
            return;
        }
        Content name = Content.Phrase(column.Name);
        if (column.OnWires)
        {
            name = words.Spell("aloud.not-stored", ("what", name));
        }
        var said = words.Spell("aloud.said", ("name", name), ("what", Joined(cell)));
        Sentence(cell.IsMarked ? words.Spell("aloud.differs", ("what", said)) : said);
    }

    /// <summary>A line that begins with a capital and ends with a full stop.</summary>
    private void Sentence(Content content)
    {
        var said = string.Concat(content.Runs.Select(Aloud)).Trim();
        if (said.Length > 0)
        {
            var end = ".!?:".Contains(said[^1], StringComparison.Ordinal) ? "" : ".";
            text.Write($"{said}{end}\n");
        }
    }

    private string Aloud(Run run) =>
        run.Kind switch
        {
            RunKind.Text => Signs(run.Text),
            RunKind.Phrase => run.Text.Replace('\u00A0', ' '),
            RunKind.Formula => Signs(Places(run.Text)),
            RunKind.Number => run.Text.StartsWith('-') ? $"{words.Say("aloud.minus")} {run.Text[1..]}" : run.Text,
            RunKind.Digits => Digits(run),
            RunKind.Marks => string.Join(' ', run.Text.ToCharArray()),
        };

    /// <summary>Each digit alone, a short pause between groups; the base where it is not 2.</summary>
    private string Digits(Run run)
    {
        var said = string.Join(", ", run.Text.Split(' ').Select(g => string.Join(' ', g.ToCharArray())));
        return run.Base switch
        {
            2 => said,
            8 => words.Say("aloud.octal", ("digits", said)),
            16 => words.Say("aloud.hexadecimal", ("digits", said)),
            _ => throw new InvalidOperationException($"digits of base {run.Base}"),
        };
    }

    /// <summary>A sign between two values, or a minus before one.</summary>
    private string Signs(string formula) =>
        Sign()
            .Replace(
                Negative().Replace(formula, words.Say("aloud.minus") + " "),
                m => m.Groups[1].Value + words.Say(Key(m.Groups[2].Value)) + (m.Groups[3].Length > 0 ? " " : "")
            );

    private static string Key(string sign) =>
        sign switch
        {
            "+" => "aloud.plus",
            "-" => "aloud.minus",
            "*" => "aloud.times",
            "=" => "aloud.equals",
            "<>" => "aloud.unequal",
            "<" => "aloud.less",
            "<=" => "aloud.less-or-equal",
            ">" => "aloud.greater",
            ">=" => "aloud.greater-or-equal",
            "<-" => "aloud.gets",
            "^" => "aloud.power",
            _ => throw new InvalidOperationException(sign),
        };

    /// <summary>A[3] as "A place 3", A[7..4] as "A places 7 to 4".</summary>
    private string Places(string formula) =>
        Place()
            .Replace(
                formula.Replace("^", " ^ ", StringComparison.Ordinal),
                m =>
                    m.Groups[2].Success
                        ? words.Say("aloud.places", ("high", m.Groups[1].Value), ("low", m.Groups[2].Value))
                        : words.Say("aloud.place", ("place", m.Groups[1].Value))
            );

    [GeneratedRegex(@"(^| )(<>|<=|>=|<-|[-+*=<>^])( |$)")]
    private static partial Regex Sign();

    [GeneratedRegex(@"(?<=^|[ (:,])-(?=[\p{L}\d(])")]
    private static partial Regex Negative();

    [GeneratedRegex(@"\[([^\]\[]+?)(?:\.\.([^\]\[]+))?\]")]
    private static partial Regex Place();
}
