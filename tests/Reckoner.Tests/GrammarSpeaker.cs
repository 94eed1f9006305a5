using System.Text;

namespace Reckoner.Tests;

/// <summary>Makes texts by a grammar alone, at random: the parser must take every one of them as sentences.</summary>
internal sealed class GrammarSpeaker(Grammar grammar, Random random)
{
    private readonly Dictionary<string, int> depths = Depths(grammar);
    private readonly StringBuilder text = new();
    private bool inFormula;

    /// <summary>Beyond this depth, or once the text is this long, the shortest way out is taken.</summary>
    private const int Deep = 30;
    private const int Long = 400;

    public string Description()
    {
        text.Clear();
        Say(new Reference("description"), 0);
        return text.ToString();
    }

    private void Say(Piece piece, int depth)
    {
        switch (piece)
        {
            case Literal literal:
                Word(literal.Text);
                break;
            case WordClass wordClass:
                Word(Example(wordClass.Name));
                break;
            case Reference reference:
                var before = inFormula;
                inFormula = reference.Name switch
                {
                    "value" => false,
                    "formula" or "number" => true,
                    _ => inFormula,
                };
                Say(grammar.Rules[reference.Name], depth + 1);
                inFormula = before;
                break;
            case Sequence sequence:
                foreach (var next in sequence.Pieces)
                {
                    Say(next, depth);
                }
                break;
            case Alternatives alternatives:
                var open = alternatives.Pieces.Where(IsOpen).ToList();
                Say(HasRoom(depth) ? open[random.Next(open.Count)] : open.MinBy(one => DepthOf(one, depths))!, depth);
                break;
            case Only only:
                Say(only.Inner, depth);
                break;
            case Optional optional:
                for (var i = 0; i < (optional.Again ? 3 : 1) && HasRoom(depth) && random.Next(2) == 0; i++)
                {
                    Say(optional.Inner, depth);
                }
                break;
        }
    }

    private bool HasRoom(int depth) => depth < Deep && text.Length < Long;

    private bool IsOpen(Piece alternative) => alternative is not Only only || only.InFormulas == inFormula;

    /// <summary>Words stand apart, except that a slice or a call's bracket stands close to what it belongs to.</summary>
    private void Word(string word)
    {
        var last = text.Length > 0 ? text[^1] : '\n';
        var isCall = word == "(" && (char.IsLetterOrDigit(last) || last == '_') && !EndsInKeyword();
        text.Append(word is "\n" or "[" || last == '\n' || isCall ? "" : " ").Append(word);
    }

    private bool EndsInKeyword()
    {
        var start = text.Length;
        while (start > 0 && char.IsLetter(text[start - 1]))
        {
            start--;
        }
        return text.ToString(start, text.Length - start) is not ("signed" or "unsigned")
            && grammar.Words.Contains(text.ToString(start, text.Length - start));
    }

    private string Example(string wordClass) =>
        wordClass switch
        {
            "NL" => "\n",
            "STRING" => "\"the word\"",
            "NUMBER" => random.Next(100).ToString(),
            "MULTIPLE" => $"{random.Next(2, 9)}n",
            "BITS" => random.Next(2) == 0 ? "0b01" : "0b1",
            "PATTERN" => random.Next(2) == 0 ? "0b0x" : "0b1",
            "NAME" => random.Next(3) switch
            {
                0 => "A",
                1 => "left_2",
                _ => "größe",
            },
            "MACHINE" => "some-machine-2",
            _ => throw new InvalidOperationException(wordClass),
        };

    /// <summary>How deep each rule must at least go, found by going round until nothing changes.</summary>
    private static Dictionary<string, int> Depths(Grammar grammar)
    {
        var depths = grammar.Rules.ToDictionary(r => r.Key, _ => 1000);
        for (var changed = true; changed; )
        {
            changed = false;
            foreach (var (name, body) in grammar.Rules)
            {
                var depth = 1 + DepthOf(body, depths);
                changed |= depth < depths[name];
                depths[name] = Math.Min(depth, depths[name]);
            }
        }
        return depths;
    }

    private static int DepthOf(Piece piece, Dictionary<string, int> depths) =>
        piece switch
        {
            Reference r => depths[r.Name],
            Sequence s => s.Pieces.Select(p => DepthOf(p, depths)).DefaultIfEmpty(0).Max(),
            Alternatives a => a.Pieces.Min(p => DepthOf(p, depths)),
            Only o => DepthOf(o.Inner, depths),
            _ => 0,
        };
}
