using System.Collections;
using System.Collections.Concurrent;
using System.Reflection;
using System.Text;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Tests;

/// <summary>
/// A description's tree as text, taken by reflection so that no kind of node can be forgotten. Places are left out; comments and
/// the brackets that were written are left out on request.
/// </summary>
internal static class TreeText
{
    public static string Of(object? node, bool comments = true, bool brackets = true)
    {
        var text = new StringBuilder();
        Append(text, node, comments, brackets);
        return text.ToString();
    }

    private static void Append(StringBuilder text, object? node, bool comments, bool brackets)
    {
        switch (node)
        {
            case null:
                text.Append('-');
                break;
            case Bracketed b when !brackets:
                Append(text, b.Inner, comments, brackets);
                break;
            case string or Enum or bool or int:
                text.Append('\'').Append(node).Append('\'');
                break;
            case Span or Source:
                break;
            case Comments c:
                Append(text, comments ? (c.Above, c.Beside) : null, comments, brackets);
                break;
            case IEnumerable list:
                text.Append('[');
                foreach (var item in list)
                {
                    Append(text, item, comments, brackets);
                }
                text.Append(']');
                break;
            default:
                text.Append('(').Append(node.GetType().Name);
                foreach (var (name, value) in Parts(node).Where(p => comments || p.Name != nameof(Description.Tail)))
                {
                    text.Append(' ').Append(name).Append('=');
                    Append(text, value, comments, brackets);
                }
                text.Append(')');
                break;
        }
    }

    private static IEnumerable<(string Name, object? Value)> Parts(object node)
    {
        var parts = Members.GetOrAdd(node.GetType(), MembersOf).Select(m => (m.Name, m.Of(node)));
        return node is Expression expression ? parts.Append(("Children", expression.Children)) : parts;
    }

    private sealed record Member(string Name, Func<object, object?> Of);

    private static readonly ConcurrentDictionary<Type, Member[]> Members = new();

    /// <summary>An expression is its words (and its children); everything else all it holds.</summary>
    private static Member[] MembersOf(Type type)
    {
        if (type.IsValueType)
        {
            return [.. type.GetFields().Select(f => new Member(f.Name, f.GetValue))];
        }
        var properties = type.GetProperties(BindingFlags.Public | BindingFlags.Instance)
            .Where(p => p.GetIndexParameters().Length == 0)
            .Where(p => !type.IsAssignableTo(typeof(Expression)) || IsWord(p.PropertyType));
        return [.. properties.Select(p => new Member(p.Name, p.GetValue))];
    }

    private static bool IsWord(Type type) =>
        type == typeof(string) || type.IsEnum || type == typeof(IReadOnlyList<Relation>);

    /// <summary>Everything in the tree, from the top down.</summary>
    public static IEnumerable<object> Nodes(object? node)
    {
        if (node is null or string or Enum or bool or int or Span or Source or Comments)
        {
            yield break;
        }
        if (node is not IEnumerable)
        {
            yield return node;
        }
        var inner = node is IEnumerable list ? list.Cast<object?>() : Parts(node).Select(p => p.Value);
        foreach (var one in inner.SelectMany(Nodes))
        {
            yield return one;
        }
    }
}
