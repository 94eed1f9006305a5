using System.Text;
using Reckoner.Tables;

namespace Reckoner.Reporting;

/// <summary>A document as text for a page of so many columns.</summary>
public static class DocumentText
{
    private const string Indent = "   ";

    public static string Of(Document document, int columns)
    {
        var text = new StringBuilder();
        Filled(text, document.Title, "", "", columns);
        if (document.Subtitle is { } subtitle)
        {
            Filled(text, subtitle, "", "", columns);
        }
        var several = document.Grids.Count() > 1;
        foreach (var block in document.Blocks)
        {
            text.Append('\n');
            switch (block)
            {
                case Paragraph b:
                    Filled(text, b.Text.ToString(), "", "", columns);
                    break;
                case SignNote b:
                    Filled(text, b.Text.ToString(), "", "", columns);
                    break;
                case Pairs b:
                    Rows(text, b, columns);
                    break;
                case Grid b:
                    if (several)
                    {
                        Filled(text, b.Caption, "", "", columns);
                    }
                    text.Append(GridText.Of(b, columns));
                    break;
                default:
                    throw new InvalidOperationException(block.GetType().Name);
            }
        }
        return text.ToString();
    }

    private static void Rows(StringBuilder text, Pairs pairs, int columns)
    {
        var width = pairs.Rows.Select(r => Wrapping.Columns(r.Name.ToString())).DefaultIfEmpty(0).Max();
        var rest = new string(' ', Indent.Length + width + 2);
        foreach (var (name, said) in pairs.Rows)
        {
            Filled(text, said.ToString(), Indent + Wrapping.Padded(name.ToString(), width + 2), rest, columns);
        }
    }

    /// <summary>Words in lines, the first behind a lead, the others behind as many blanks.</summary>
    private static void Filled(StringBuilder text, string words, string lead, string rest, int columns)
    {
        foreach (var line in Wrapping.Folded(words, columns - lead.Length).DefaultIfEmpty(""))
        {
            text.Append((lead + line).TrimEnd()).Append('\n');
            lead = rest;
        }
    }
}
