using System.Numerics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Reads and binds descriptions the way every test needs it.</summary>
internal static class Machines
{
    public static IReadOnlyList<string> Catalogue { get; } = [.. MachineCatalogue.Entries.Select(e => e.Name)];

    public static Machine Named(string name) => Machine.Read(MachineCatalogue.Find(name)!, MachineCatalogue.Find);

    /// <summary>A text, with the machines it may name beside it (name, text); the catalogue is behind them.</summary>
    public static Machine Of(string text, params (string Name, string Text)[] beside) =>
        Machine.Read(
            new Source("test.machine", text),
            name =>
                Array.Find(beside, b => b.Name == name) is { Text: not null } found
                    ? new Source(name + ".machine", found.Text)
                    : MachineCatalogue.Find(name)
        );

    /// <summary>The hardware of a machine that must have no errors at these widths.</summary>
    public static Datapath Bound(IMachine machine, params (string Name, BigInteger Value)[] widths)
    {
        var (datapath, found) = machine.At(widths.ToDictionary(w => w.Name, w => w.Value));
        var errors = found.Where(d => d.Severity == Severity.Error).Select(d => $"{d.Id} on line {d.Line}");
        Assert.True(
            datapath is not null,
            $"{machine.Name} at {string.Join(", ", widths)}: {string.Join("; ", errors)}"
        );
        return datapath;
    }

    public static Datapath Bound(IMachine machine, int width) => Bound(machine, (MainWidth(machine), width));

    public static Datapath Bound(string text) => Bound(Of(text));

    public static string MainWidth(IMachine machine) => machine.Widths.First().Name.Text;

    /// <summary>The range of the main width, both ends included.</summary>
    public static (int Low, int High) Range(IMachine machine)
    {
        var none = new Dictionary<string, Rational>();
        var main = machine.Widths.First();
        return (Whole(main.Low), Whole(main.High));

        int Whole(Expression formula) => (int)FormulaBinding.Number(formula, none)!.Value.Numerator;
    }

    /// <summary>Every width of the range up to a bound, then those others that lie in it.</summary>
    public static IEnumerable<int> Widths(IMachine machine, int upTo, params int[] others)
    {
        var (low, high) = Range(machine);
        return Enumerable
            .Range(low, Math.Max(0, Math.Min(high, upTo) - low + 1))
            .Concat(others.Where(w => w > upTo && w >= low && w <= high));
    }
}
