using Xunit;

namespace Reckoner.Tests.Layers;

/// <summary>Each stage depends on those before it: the references between namespaces of the core form no circle.</summary>
public class LayerTests
{
    [Fact]
    public void No_namespace_of_the_core_leads_back_to_itself()
    {
        var references = NamespaceReferences.Of(typeof(Diagnostics.Diagnostic).Assembly.Location);
        Assert.True(references.Count > 10, "the compiled core has fewer namespaces than it is known to have");
        Assert.Equal("", string.Join(Environment.NewLine, Circles(references)));
    }

    [Fact]
    public void A_circle_would_be_found()
    {
        var references = new SortedDictionary<string, SortedDictionary<string, string>>(StringComparer.Ordinal)
        {
            ["A"] = new(StringComparer.Ordinal) { ["B"] = "A.x uses B.y" },
            ["B"] = new(StringComparer.Ordinal) { ["C"] = "B.y uses C.z" },
            ["C"] = new(StringComparer.Ordinal) { ["B"] = "C.z uses B.w" },
        };
        Assert.Equal(["B > C (B.y uses C.z)", "C > B (C.z uses B.w)"], Circles(references));
    }

    /// <summary>The references both of whose ends can be reached from each other, each with a place.</summary>
    private static IEnumerable<string> Circles(SortedDictionary<string, SortedDictionary<string, string>> references)
    {
        var reached = references.Keys.ToDictionary(name => name, name => Reached(name, references));
        return from user in references
            from used in user.Value
            where reached.TryGetValue(used.Key, out var back) && back.Contains(user.Key)
            select $"{user.Key} > {used.Key} ({used.Value})";
    }

    private static HashSet<string> Reached(
        string from,
        SortedDictionary<string, SortedDictionary<string, string>> references
    )
    {
        var reached = new HashSet<string>();
        var open = new Stack<string>([from]);
        while (open.TryPop(out var name))
        {
            foreach (var next in references.TryGetValue(name, out var uses) ? uses.Keys : Enumerable.Empty<string>())
            {
                if (reached.Add(next))
                {
                    open.Push(next);
                }
            }
        }
        return reached;
    }
}
