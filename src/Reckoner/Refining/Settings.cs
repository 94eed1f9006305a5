using System.Numerics;
using Reckoner.Binding;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Proving;

namespace Reckoner.Refining;

/// <summary>
/// Choices of all widths and parameters at which a machine is run, so that whoever runs it runs the same: the main width smaller than
/// the others and greater, every one within its range, and parameters at their defaults and at both ends.
/// </summary>
internal static class Settings
{
    /// <summary>A walk of more rounds is not unrolled for the sake of a comparison.</summary>
    private const int MostRounds = 2000;

    /// <summary>So far from a width that cannot be built another is looked for: some machines have even widths only.</summary>
    private const int Near = 2;

    /// <summary>Below its range a machine is run at so many of its least widths instead.</summary>
    private const int LeastOfRange = 4;

    /// <summary>The machine at these widths, each choice once, in this order.</summary>
    /// <param name="wanted">The main width and the others; where there are others, the two are exchanged too.</param>
    /// <param name="withParameters">Whether parameters also take the ends of their ranges.</param>
    public static IEnumerable<Datapath> Of(
        IMachine machine,
        IEnumerable<(int Main, int Other)> wanted,
        bool withParameters = false
    )
    {
        var lines = machine.Widths.ToList();
        var several = lines.Count(w => !w.IsParameter) > 1;
        IReadOnlyList<End> ends =
            withParameters && lines.Exists(w => w.IsParameter) ? [End.Default, End.Low, End.High] : [End.Default];
        var known = new Dictionary<string, bool>();
        foreach (var (main, other) in wanted.SelectMany(w => Both(w, several)).Select(InRange(lines)))
        {
            foreach (var end in ends)
            {
                for (var more = 0; more <= Near; more++)
                {
                    if (Chosen(machine, main + more, other, end, known.Count % 2 == 0 ? 1 : -1) is not { } chosen)
                    {
                        break;
                    }
                    var key = string.Join(',', chosen.Values);
                    if (known.TryGetValue(key, out var isBuilt))
                    {
                        if (isBuilt)
                        {
                            break;
                        }
                        continue;
                    }
                    var datapath = At(machine, chosen);
                    known[key] = datapath is not null;
                    if (datapath is not null)
                    {
                        yield return datapath;
                        break;
                    }
                }
            }
        }
    }

    private static (int, int)[] Both((int Main, int Other) wanted, bool several) =>
        several && wanted.Main != wanted.Other ? [wanted, (wanted.Other, wanted.Main)] : [wanted];

    /// <summary>What lies below the range becomes one of its least, each another; what lies above it becomes the greatest.</summary>
    private static Func<(int Main, int Other), (int Main, int Other)> InRange(List<WidthLine> lines)
    {
        if (lines.Find(w => !w.IsParameter) is not { } main || WidthBound.Of(main) is not var (low, high))
        {
            return w => w;
        }
        var below = 0;
        return w => (Math.Min(w.Main < low ? low + Math.Min(below++, LeastOfRange - 1) : w.Main, high), w.Other);
    }

    /// <summary>Another machine where one is; null where it cannot be.</summary>
    public static Datapath? Same(IMachine other, Datapath there)
    {
        var values = there.Widths.ToDictionary(w => w.Name, w => w.Value);
        var places = there.Machine.Widths.Where(w => !w.IsParameter).Select(w => values[w.Name.Text]).ToList();
        var chosen = new Dictionary<string, BigInteger>();
        foreach (var line in other.Widths)
        {
            var place = chosen.Count;
            if (values.TryGetValue(line.Name.Text, out var value))
            {
                chosen[line.Name.Text] = value;
            }
            else if (!line.IsParameter && place < places.Count)
            {
                chosen[line.Name.Text] = places[place];
            }
        }
        return At(other, chosen);
    }

    /// <summary>Null where it cannot be built, or a walk would be too long.</summary>
    private static Datapath? At(IMachine machine, IReadOnlyDictionary<string, BigInteger> chosen)
    {
        var numbers = new Dictionary<string, Rational>();
        foreach (var declaration in machine.Description.Declarations)
        {
            var (name, formula) = declaration switch
            {
                WidthLine line => (line.Name.Text, line.Default),
                ConstantLine line => (line.Name.Text, line.Formula),
                _ => ("", null),
            };
            if (chosen.TryGetValue(name, out var value))
            {
                numbers[name] = value;
            }
            else if (formula is not null && FormulaBinding.Number(formula, numbers) is { } number)
            {
                numbers[name] = number;
            }
        }
        var isShort = machine
            .Description.Declarations.OfType<RepeatBlock>()
            .All(r => FormulaBinding.Number(r.Count, numbers) is not { } rounds || rounds <= MostRounds);
        return isShort ? machine.Built(chosen) : null;
    }

    private enum End
    {
        Default,
        Low,
        High,
    }

    /// <summary>Null where a range has no end that can be counted with.</summary>
    /// <param name="way">Whether a third width, and what comes after it, is greater than the second, or -1 for smaller.</param>
    private static Dictionary<string, BigInteger>? Chosen(IMachine machine, int main, int other, End end, int way)
    {
        var chosen = new Dictionary<string, BigInteger>();
        var numbers = new Dictionary<string, Rational>();
        var place = 0;
        foreach (var line in machine.Widths)
        {
            if (
                WidthBound.Of(line.Low, numbers) is not { } low
                || WidthBound.Of(line.High, numbers) is not { } high
                || low > high
            )
            {
                return null;
            }
            int? value = !line.IsParameter
                ? place++ switch
                {
                    0 => main,
                    var at => Math.Clamp(other + (way * (at - 1)), low, high),
                }
                : end switch
                {
                    End.Default => WidthBound.Of(line.Default, numbers),
                    End.Low => low,
                    End.High => high,
                };
            if (value is not { } number || number < low || number > high)
            {
                return null;
            }
            chosen[line.Name.Text] = number;
            numbers[line.Name.Text] = number;
        }
        return chosen;
    }
}
