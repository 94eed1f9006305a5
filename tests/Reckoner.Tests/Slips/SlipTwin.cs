using System.Numerics;
using Reckoner.Binding;
using Reckoner.Claims;
using Reckoner.Conditions;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests.Slips;

/// <summary>The slow, obvious twin: every operand inside "given" walked, statement by statement, right and with the slip.</summary>
internal sealed class SlipTwin
{
    public SlipTwin(Datapath right)
    {
        Right = right;
        Given = [.. OperandCorners.Of(right).Where(right.IsGiven)];
        Walks = [.. Given.Select(o => Walk.Of(right, o))];
        Assert.Equal(1 << right.Operands.Sum(o => o.Width), OperandCorners.Of(right).Count);
    }

    public Datapath Right { get; }
    public IReadOnlyList<BigInteger[]> Given { get; }
    public IReadOnlyList<Walk> Walks { get; }

    /// <summary>The places of the operands that expose a slip.</summary>
    public IReadOnlyList<int> Exposing(Slip slip)
    {
        var slipped = slip.Machine.Built(Right.Widths.ToDictionary(w => w.Name, w => w.Value))!;
        return Where(i => !Walk.Of(slipped, Given[i]).Results.SequenceEqual(Walks[i].Results));
    }

    /// <summary>The places of the operands for which a condition is so.</summary>
    public IReadOnlyList<int> Showing(Condition condition) => Where(i => IsSo(condition, Walks[i]));

    private List<int> Where(Func<int, bool> isSo) => [.. Enumerable.Range(0, Given.Count).Where(isSo)];

    private static bool IsSo(Condition condition, Walk walk) =>
        condition switch
        {
            Always => true,
            Combined { Joint: Joint.And } c => c.Parts.All(p => IsSo(p, walk)),
            Combined c => c.Parts.Any(p => IsSo(p, walk)),
            IsTrue c => Law($"{c.Formula}", Numbers(walk)),
            HasParity c => Numbers(walk)[$"{c.Number}"].Numerator.IsEven == (c.Parity == Parity.Even),
            Happens c => Times($"{c.What}", walk).Contains(true),
            HappensTimes c => Times($"{c.What}", walk).Count(t => t) is var count
                && (c.Times.Bound, c.Times.Count.Number) switch
                {
                    (Bound.AtLeast, 1) => count > 0,
                    (Bound.Exactly, 1) => count == 1,
                    (Bound.AtMost, 0) => count == 0,
                    _ => throw new InvalidOperationException($"{c}"),
                },
            HappensAtEnd { End: End.First } c => Times($"{c.What}", walk) is [true, ..],
            HappensAtEnd c => Times($"{c.What}", walk) is [.., true],
            HappensAlways c => Times($"{c.What}", walk) is { Count: > 0 } times && times.TrueForAll(t => t),
            HappensAfter c when c.What == c.Before => Times($"{c.What}", walk) is var times
                && times.Zip(times.Skip(1)).Any(t => t.First && t.Second),
            _ => throw new InvalidOperationException($"{condition}"),
        };

    /// <summary>
    /// For every cycle of a walk in which something is decided, whether it came out as named. A named value is read off the
    /// row; what was looked at without a name is told in it.
    /// </summary>
    private static List<bool> Times(string name, Walk walk)
    {
        var times = new List<bool>();
        foreach (var row in walk.Rows)
        {
            var named = row
                .Moments.SelectMany(m => m.Values)
                .Select(v => Told(v.Wire.Name, v.Wire.Value, v.Bits, name));
            var tested = row
                .Moments.SelectMany(m => m.Happenings.OfType<Tested>())
                .Select(t => Told(Printer.Text(t.Value.Written!), t.Value, t.Bits, name));
            var told = named.Concat(tested).OfType<bool>().ToList();
            if (told.Count > 0)
            {
                times.Add(told.Contains(true));
            }
        }
        return times;
    }

    private static bool? Told(string text, Value value, BigInteger bits, string name)
    {
        if (text == name || IsOpposite(text, name) || IsOpposite(name, text))
        {
            return bits.IsOne == (text == name);
        }
        var (isTurned, arm) = name.StartsWith("not (", StringComparison.Ordinal) ? (true, name[5..^1]) : (false, name);
        var parts = arm.Split(" = ");
        return parts.Length == 2 && parts[0] == text
            ? parts[1].Split(", ").Any(label => IsLabel(value, bits, label)) != isTurned
            : null;
    }

    private static bool IsOpposite(string longer, string shorter) =>
        longer == $"not {shorter}" || longer == $"not ({shorter})";

    private static bool IsLabel(Value value, BigInteger bits, string label) =>
        label.StartsWith("0b", StringComparison.Ordinal)
            ? Bits.Text(bits, value.Width) == label[2..]
            : value.Number(bits) == BigInteger.Parse(label);

    private static Dictionary<string, Rational> Numbers(Walk walk)
    {
        var names = new Dictionary<string, Rational>(walk.Datapath.Numbers, StringComparer.Ordinal);
        foreach (var operand in walk.Datapath.Operands)
        {
            names[operand.Name] = operand.Number(walk.Operands[operand.Index]);
        }
        foreach (var (result, bits) in walk.Datapath.Results.Zip(walk.Results))
        {
            names[result.Name] = result.Number(bits);
        }
        return names;
    }

    private static bool Law(string text, Dictionary<string, Rational> names)
    {
        var (description, found) = Parser.Read(new Source("", $"machine m\nlaw {text}\n"));
        Assert.Empty(found);
        var binding = new FormulaBinding(
            new Report(description.Source),
            name => Claims.Term.Named(name.Span, name.Name, names[name.Name])
        );
        var law = binding.Truth(description.Declarations.OfType<ClaimLine>().Single().Formula)!;
        return Exact.OfNumbers.Truth(law)!.Value;
    }
}
