using Reckoner.Notation;
using Reckoner.Verifier;

namespace Reckoner.Proving;

/// <summary>
/// A core as a part of the tree of the machine around it: its registers behind the machine's own, their loads over the machine's
/// operands, its constants under names of their own. Its widths are those of the machine that have the same name.
/// </summary>
internal static class CoreTree
{
    public static IEnumerable<Tree> Schedule(Description core) =>
        core
            .Declarations.Where(d => d is RepeatBlock or StepBlock)
            .Select(d => Renamed(CanonicalTree.Of(d)!, Constants(core)));

    public static IEnumerable<Tree> Hardware(CoreBlock block, Description core)
    {
        var names = Constants(core);
        foreach (var line in core.Declarations)
        {
            switch (line)
            {
                case ConstantLine or TableBlock or PartLine:
                    yield return Renamed(CanonicalTree.Of(line)!, names);
                    break;
                case RegisterLine:
                    yield return Renamed(CanonicalTree.Of(line)!, names.Concat(Operands(block, core)).ToDictionary());
                    break;
            }
        }
    }

    private static Dictionary<string, Tree> Constants(Description core) =>
        core
            .Declarations.OfType<ConstantLine>()
            .ToDictionary(c => c.Name.Text, c => new Tree("name", "core." + c.Name.Text));

    /// <summary>What stands for the operands of the core, each with the width that it has there.</summary>
    private static Dictionary<string, Tree> Operands(CoreBlock block, Description core) =>
        core
            .Declarations.OfType<OperandLine>()
            .ToDictionary(
                o => o.Name.Text,
                o => new Tree(
                    "sized",
                    "",
                    CanonicalTree.Of(block.Operands.First(given => given.Name.Text == o.Name.Text).Value),
                    Renamed(CanonicalTree.Of(o.Type.Width), Constants(core))
                )
            );

    private static Tree Renamed(Tree tree, IReadOnlyDictionary<string, Tree> names)
    {
        if (tree.Kind == "name" && names.TryGetValue(tree.Text, out var other))
        {
            return other;
        }
        var text = tree.Kind == "constant" && names.TryGetValue(tree.Text, out var renamed) ? renamed.Text : tree.Text;
        return new Tree(tree.Kind, text, [.. tree.Inside.Select(t => Renamed(t, names))]);
    }
}
