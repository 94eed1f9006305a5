using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using Reckoner.Numbers;

namespace Reckoner.Classroom;

/// <summary>How one sum of a task went; a code holds 63 at most (of hints 31), which stands for more too.</summary>
/// <param name="Wrong">Rows that were not right at once, or shown.</param>
/// <param name="Missed">Decisions that were taken wrongly.</param>
/// <param name="Most">What was missed most often; null where nothing was.</param>
internal sealed record SumDone(int Wrong, int Missed, int Hints, CauseKind? Most)
{
    /// <param name="cycles">Of the walk; whoever ends it early or late on a path of their own was not right at once in what is left of it.</param>
    public static SumDone Of(SittingReport report, int cycles) =>
        new(
            Math.Max(0, cycles - report.AtOnce),
            report.DecisionsMissed,
            report.Hints,
            report.Causes.Count > 0 ? report.Causes[0].Kind : null
        );
}

/// <summary>What a code says: whose it is and how each sum went; <see cref="Sums"/> is null for one that does not fit.</summary>
internal sealed record ReadCode(string Number, IReadOnlyList<SumDone>? Sums);

/// <summary>
/// The short code that a task ends in: the number, then groups of four letters, one for each sum and one to check by. The check is
/// against errors of typing and codes of other tasks or numbers. It proves nothing: whoever has the program can make any code.
/// </summary>
internal static class TaskCode
{
    private const int GroupBits = 20;

    public static string Of(AssignedSums task, string number, IReadOnlyList<SumDone> sums)
    {
        var groups = sums.Select(Packed).ToList();
        return string.Join('-', [number, .. groups.Append(Check(task, number, groups)).Select(Spelled)]);
    }

    public static ReadCode Read(AssignedSums task, string code)
    {
        var parts = code.Trim().ToUpperInvariant().Split('-', StringSplitOptions.TrimEntries);
        var count = task.Assignment.Sums + 1;
        var number = AssignedSums.Plain(string.Concat(parts.SkipLast(count)));
        var groups = parts.TakeLast(count).Select(Value).ToList();
        var fits =
            parts.Length > count
            && number.Length > 0
            && groups.TrueForAll(g => g is not null)
            && Check(task, number, [.. groups.SkipLast(1).Select(g => g!.Value)]) == groups[^1];
        return new ReadCode(number, fits ? [.. groups.SkipLast(1).Select(g => Unpacked(g!.Value))] : null);
    }

    /// <summary>6 bits of rows, 6 of decisions, 5 of hints, 3 of the cause (0 for none).</summary>
    private static int Packed(SumDone sum) =>
        (Math.Min(sum.Wrong, 63) << 14)
        | (Math.Min(sum.Missed, 63) << 8)
        | (Math.Min(sum.Hints, 31) << 3)
        | (sum.Most is { } most ? (int)most + 1 : 0);

    private static SumDone Unpacked(int group) =>
        new(
            group >> 14,
            (group >> 8) & 63,
            (group >> 3) & 31,
            (group & 7) is > 0 and var most && Enum.IsDefined((CauseKind)(most - 1)) ? (CauseKind)(most - 1) : null
        );

    private static int Check(AssignedSums task, string number, IReadOnlyList<int> groups)
    {
        var hash = SHA256.HashData(Encoding.UTF8.GetBytes($"{task.Mark}\n{number}\n{string.Join(' ', groups)}"));
        return (int)(BinaryPrimitives.ReadUInt32BigEndian(hash) >> (32 - GroupBits));
    }

    private static string Spelled(int group) =>
        string.Concat(Enumerable.Range(0, 4).Select(i => TypedLetters.Of((group >> (15 - 5 * i)) & 31)));

    /// <summary>Null for what is no group; a letter that is taken for another counts as that.</summary>
    private static int? Value(string group)
    {
        var places = group.Select(TypedLetters.Value).ToList();
        return places.Count != 4 || places.Contains(-1)
            ? null
            : places.Aggregate(0, (value, place) => 32 * value + place);
    }
}
