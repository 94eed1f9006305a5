using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Reckoner.Catalogue;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>Where an editor puts the next line, by the rules that the extension gives it.</summary>
public partial class ExtensionIndentTests
{
    private static readonly JsonNode Rules = JsonNode.Parse(
        File.ReadAllText(Path.Combine(WorkFolder.Repository, "editors/extension/language.json"))
    )!["indentationRules"]!;

    private static Regex Rule(string name) => new(Rules[name]!.GetValue<string>());

    /// <summary>
    /// Each line stands where the rules put it behind the one before it. A step has no word for its end: nobody is helped with what
    /// stands at the margin, with the next step, or with a law that goes on in a second line.
    /// </summary>
    [Fact]
    public void Every_machine_of_the_catalogue_is_indented_as_it_is_laid_out()
    {
        var (more, less) = (Rule("increaseIndentPattern"), Rule("decreaseIndentPattern"));
        var wrong = new List<string>();
        var judged = 0;
        foreach (var entry in MachineCatalogue.Entries)
        {
            var before = "";
            foreach (var line in entry.Source.Text.Split('\n'))
            {
                var depth = Depth(line);
                if (depth > 0 && !IsByHand(line))
                {
                    var put = Depth(before) + (more.IsMatch(before) ? 2 : 0) - (less.IsMatch(line) ? 2 : 0);
                    judged++;
                    if (depth != put)
                    {
                        wrong.Add($"{entry.Name}: {line}");
                    }
                }
                before = line;
            }
        }
        Assert.Equal("", string.Join('\n', wrong));
        Assert.True(judged > 1000);
    }

    private static bool IsByHand(string line) => ByHand().IsMatch(line);

    [GeneratedRegex("^ *(step|when|exactly when) ")]
    private static partial Regex ByHand();

    private static int Depth(string line) => line.Length - line.TrimStart().Length;
}
