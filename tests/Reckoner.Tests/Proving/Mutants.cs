using System.Text.RegularExpressions;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Diagnostics;

namespace Reckoner.Tests.Proving;

/// <summary>Machines with one or two words or lines changed so that most of them can still be built.</summary>
internal static partial class Mutants
{
    private static readonly string[] Names =
    [
        .. Proofs.Base,
        "divide-adding-back",
        "divide-half-shift-back",
        "divide-long-dividend",
        "divide-non-restoring",
        "divide-shift-first",
        "divide-shift-subtract-restore",
        "divide-signed-truncating",
        "multiply-booth",
        "multiply-carry-save",
        "multiply-high-signed",
        "multiply-in-steps",
        "multiply-signed-shift-add",
        "root-restoring",
        "root-rounded",
    ];

    private static readonly string[][] Alike =
    [
        ["+", "-"],
        ["<", "<=", ">", ">=", "=", "<>"],
        ["and", "or", "xor"],
        ["shl", "shr"],
        ["n", "8", "3", "2n"],
        ["last", "not last"],
        ["signed", "unsigned"],
        ["extend", "signed"],
        ["floor", "trunc"],
    ];

    /// <summary>The first of the changed texts of a seed that is a machine.</summary>
    public static (Machine Machine, string Text) Of(int seed)
    {
        var random = new Random(seed);
        while (true)
        {
            if (Changed(random) is { } machine)
            {
                return machine;
            }
        }
    }

    private static (Machine Machine, string Text)? Changed(Random random)
    {
        var text = MachineCatalogue.Find(Names[random.Next(Names.Length)])!.Text;
        for (var changes = 1 + random.Next(2); changes > 0; changes--)
        {
            text = random.Next(6) == 0 ? Lines(random, text) : Words(random, text);
        }
        var machine = Machine.Read(new Source("mutant.machine", text), MachineCatalogue.Find);
        var isRead = machine.Found.All(d => d.Severity != Severity.Error);
        return isRead && machine.Widths.Count() == 1 && machine.At().Datapath is not null ? (machine, text) : null;
    }

    private static bool IsChanged(string line) =>
        line.Length > 0
        && !line.StartsWith("machine", StringComparison.Ordinal)
        && !line.StartsWith("title", StringComparison.Ordinal)
        && !line.StartsWith("note", StringComparison.Ordinal)
        && !line.StartsWith("--", StringComparison.Ordinal)
        && !line.StartsWith("follows", StringComparison.Ordinal);

    private static string Lines(Random random, string text)
    {
        var lines = text.Split('\n').ToList();
        var body = Enumerable.Range(1, lines.Count - 2).Where(l => lines[l].StartsWith("  ", StringComparison.Ordinal));
        var at = Picked(random, [.. body]);
        switch (random.Next(3))
        {
            case 0:
                lines.RemoveAt(at);
                break;
            case 1:
                lines.Insert(at, lines[at]);
                break;
            default:
                (lines[at], lines[at - 1]) = (lines[at - 1], lines[at]);
                break;
        }
        return string.Join('\n', lines);
    }

    private static string Words(Random random, string text)
    {
        var lines = text.Split('\n').ToList();
        var all = lines
            .Select((line, l) => (line, l))
            .Where(x => IsChanged(x.line))
            .SelectMany(
                x => Word().Matches(Quoted().Replace(x.line, q => new string('"', q.Length))),
                (x, m) => (x.l, m)
            )
            .ToList();
        var (at, word) = Picked(random, all);
        var names = all.Select(w => w.m.Value).Where(w => char.IsLetter(w[0])).ToList();
        var changed =
            int.TryParse(word.Value, out var number) && random.Next(2) == 0 ? $"{number + 1 - 2 * random.Next(2)}"
            : Array.FindAll(Alike, a => a.Contains(word.Value)) is { Length: > 0 } alike
                ? Picked(random, Picked(random, alike))
            : char.IsLetter(word.Value[0]) ? Picked(random, names)
            : Picked(random, all).m.Value;
        lines[at] = lines[at][..word.Index] + changed + lines[at][(word.Index + word.Length)..];
        return string.Join('\n', lines);
    }

    private static T Picked<T>(Random random, IReadOnlyList<T> from) => from[random.Next(from.Count)];

    [GeneratedRegex("[A-Za-z][A-Za-z0-9]*|[0-9]+|<-|<=|>=|<>|[-+<>=*]")]
    private static partial Regex Word();

    [GeneratedRegex("\"[^\"]*\"")]
    private static partial Regex Quoted();
}
