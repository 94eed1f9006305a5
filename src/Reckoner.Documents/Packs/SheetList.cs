using System.Text;
using Reckoner.Documents.Lessons;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Documents.Packs;

/// <summary>A sheet as values between commas (RFC 4180), to be filled in: question by question, the rows of its tables and fields.</summary>
internal static class SheetList
{
    public static string Of(SheetOf sheet, IReadOnlyList<AskedQuestion> questions, Vocabulary words)
    {
        var text = new StringBuilder();
        Row([$"{sheet.Number}"]);
        foreach (var question in questions)
        {
            Row([""]);
            foreach (var row in SheetCells.Of(question, words))
            {
                Row(row.Select(c => c.Listed));
            }
        }
        return text.ToString();

        void Row(IEnumerable<string> cells) => text.AppendJoin(',', cells.Select(Csv.Quoted)).Append("\r\n");
    }
}
