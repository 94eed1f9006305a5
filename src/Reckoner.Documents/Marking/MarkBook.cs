using System.Globalization;
using Reckoner.Words;

namespace Reckoner.Documents.Marking;

/// <summary>The marks of a class: what was counted, and over it what was set by hand.</summary>
/// <param name="ByHand">By student and column.</param>
internal sealed record MarkBook(MarkedClass Class, IReadOnlyDictionary<(string Student, string Column), decimal> ByHand)
{
    /// <summary>The column of the sum; others are named by the number of their question.</summary>
    public const string Total = "total";

    /// <summary>Columns that hold marks.</summary>
    public IEnumerable<string> Columns => Class.Counted.Select(q => Number(q.Number)).Prepend(Total);

    public static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);

    /// <summary>As it is written to files: "6.5".</summary>
    public static string Written(decimal? marks) => marks?.ToString("0.##", CultureInfo.InvariantCulture) ?? "";

    /// <summary>As it is read: "6,5" where that is usual.</summary>
    public static string Spoken(decimal? marks, Vocabulary words) => marks is null ? "" : words.Decimal(Written(marks));

    /// <summary>What was set by hand, or else what was counted; null where neither is there.</summary>
    public decimal? Final(MarkedSheet sheet, string column) =>
        ByHand.TryGetValue((sheet.Sheet.Identifier, column), out var set) ? set
        : column == Total ? Sum(sheet)
        : Counted(sheet, column);

    public bool IsByHand(MarkedSheet sheet, string column) => ByHand.ContainsKey((sheet.Sheet.Identifier, column));

    private static decimal? Counted(MarkedSheet sheet, string column) =>
        sheet.IsContradicted ? null : sheet.Questions.FirstOrDefault(q => Number(q.Form.Number) == column)?.Marks;

    /// <summary>Null while a question waits for a person, or nothing was handed in.</summary>
    private decimal? Sum(MarkedSheet sheet)
    {
        decimal? sum = 0;
        foreach (var column in Columns.Skip(1))
        {
            sum += Final(sheet, column);
        }
        return sum;
    }

    /// <summary>The most there is to get, where that is known.</summary>
    public decimal Most(MarkedSheet sheet) =>
        Class.Counted.Sum(q => q.Marks ?? sheet.Questions.FirstOrDefault(m => m.Form.Number == q.Number)?.Most ?? 0);
}
