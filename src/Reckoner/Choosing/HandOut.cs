using System.Numerics;
using System.Security.Cryptography;
using System.Text;
using Reckoner.Numbers;

namespace Reckoner.Choosing;

/// <summary>Operands that were handed to one student.</summary>
/// <param name="Student">The identifier, as it was given.</param>
/// <param name="Class">The class they are of: that of most students, or a neighbouring one where that was allowed.</param>
/// <param name="Times">How many students before had the same.</param>
public sealed record HandedOperands(string Student, ChosenOperands Chosen, EqualClass Class, int Times);

/// <summary>
/// Operands of equal difficulty for each student, so that nobody can tell another's without the secret: all that is random here
/// comes from HMAC-SHA-256 (FIPS 198-1) under it, of the student's identifier and of the operands. Students are served in the order
/// of the list, so that one who is added behind the others changes nobody else's; for one who is added between them, what the
/// others have is given.
/// </summary>
/// <param name="purpose">Told apart from what else the secret is used for: each question of a sheet has its own.</param>
internal sealed class HandOut(EqualDifficulty classes, EqualAllowed allowed, byte[] secret, string purpose)
{
    private readonly Dictionary<string, int> uses = [];
    private readonly List<Pool> pools = [];
    private HashSet<string> avoided = [];

    /// <summary>What those have who are not served: it may be given to nobody else.</summary>
    private HashSet<string> absent = [];

    /// <summary>Every operands of every class, by their key.</summary>
    private readonly Lazy<Dictionary<string, (EqualClass Class, int Index)>> known = new(() =>
        classes
            .All.SelectMany(c => c.Members.Select(m => (Class: c, Index: m)))
            .ToDictionary(m => Key(classes.Operands(m.Index)))
    );

    /// <summary>The operands of a class in an order that only the secret tells.</summary>
    private sealed record Pool(EqualClass Class, IReadOnlyList<(int Index, string Key)> Order);

    /// <summary>Null where there are too few.</summary>
    /// <param name="earlier">What students have already, as operands' bits.</param>
    /// <param name="avoid">Operands that nobody is to get.</param>
    /// <param name="own">Operands that a student has elsewhere and gets again only where nothing else is left.</param>
    public IReadOnlyList<HandedOperands>? Of(
        IReadOnlyList<string> students,
        IReadOnlyDictionary<string, IReadOnlyList<BigInteger>> earlier,
        IEnumerable<IReadOnlyList<BigInteger>> avoid,
        ILookup<string, IReadOnlyList<BigInteger>> own
    )
    {
        avoided = [.. avoid.Select(Key)];
        absent = [.. earlier.ExceptBy(students, e => e.Key).Select(e => Key(e.Value))];
        // Also those of students who are on no list now: they may come back.
        foreach (var key in earlier.Values.Select(Key))
        {
            uses[key] = uses.GetValueOrDefault(key) + 1;
        }
        var handed = new List<HandedOperands>();
        var met = new Dictionary<string, int>();
        for (var i = 0; i < students.Count; i++)
        {
            var before = i > 0 ? Key(handed[i - 1].Chosen.Operands) : null;
            var behind =
                i + 1 < students.Count && earlier.TryGetValue(students[i + 1], out var next) ? Key(next) : null;
            // What the question does not have any more is handed out anew.
            var chosen =
                (earlier.TryGetValue(students[i], out var had) ? Known(Key(had)) : null)
                ?? New(students[i], before, behind, [.. own[students[i]].Select(Key)]);
            if (chosen is not var (one, index))
            {
                return null;
            }
            var operands = classes.At(index);
            var key = Key(operands.Operands);
            handed.Add(new HandedOperands(students[i], operands, one, met.GetValueOrDefault(key)));
            met[key] = met.GetValueOrDefault(key) + 1;
        }
        return handed;
    }

    /// <summary>How many different operands of the first class those have or could get who were served.</summary>
    public int Left => Pools().FirstOrDefault()?.Order.Count(m => !absent.Contains(m.Key)) ?? 0;

    private (EqualClass, int)? Known(string key) => known.Value.TryGetValue(key, out var found) ? found : null;

    /// <summary>
    /// The first that was given least often, from a place on that the secret and the identifier tell; those of the students beside
    /// are passed over.
    /// </summary>
    private (EqualClass, int)? New(string student, string? before, string? behind, HashSet<string> own)
    {
        for (var least = 0; ; least++)
        {
            if ((At(least, own) ?? (own.Count > 0 ? At(least, []) : null)) is { } found)
            {
                return found;
            }
            // One operand more than those beside is enough for everybody, sooner or later.
            if (!allowed.Repeats || least > uses.Values.DefaultIfEmpty().Max())
            {
                return null;
            }
        }

        (EqualClass, int)? At(int least, HashSet<string> without)
        {
            foreach (var pool in Pools().Where(p => p.Order.Count > 0))
            {
                var from = (int)(Number($"student|{student}") % (ulong)pool.Order.Count);
                for (var step = 0; step < pool.Order.Count; step++)
                {
                    var (index, key) = pool.Order[(from + step) % pool.Order.Count];
                    if (
                        uses.GetValueOrDefault(key) == least
                        && key != before
                        && key != behind
                        && !without.Contains(key)
                    )
                    {
                        uses[key] = least + 1;
                        return (pool.Class, index);
                    }
                }
            }
            return null;
        }
    }

    /// <summary>The largest class, then its neighbours where they are allowed; each is put in order when it is needed.</summary>
    private IEnumerable<Pool> Pools()
    {
        if (classes.Largest is not { } largest)
        {
            yield break;
        }
        IEnumerable<EqualClass> used = allowed.Neighbours ? [largest, .. classes.Nearest(largest)] : [largest];
        foreach (var (at, one) in used.Index())
        {
            if (at == pools.Count)
            {
                pools.Add(Ordered(one));
            }
            yield return pools[at];
        }
    }

    private Pool Ordered(EqualClass one) =>
        new(
            one,
            [
                .. one
                    .Members.Select(m => (Index: m, Key: Key(classes.Operands(m))))
                    .Where(m => !avoided.Contains(m.Key))
                    .OrderBy(m => Number($"operands|{m.Key}"))
                    .ThenBy(m => m.Index),
            ]
        );

    private static string Key(IReadOnlyList<BigInteger> operands) =>
        string.Join(' ', operands.Select(o => Bits.Text(o)));

    private ulong Number(string text) =>
        BitConverter.ToUInt64(
            HMACSHA256.HashData(secret, Encoding.UTF8.GetBytes($"{purpose.Length}|{purpose}|{text}"))
        );
}
