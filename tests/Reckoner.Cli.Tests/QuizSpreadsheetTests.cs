using System.Diagnostics;
using System.IO.Compression;
using System.Xml.Linq;
using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>A bank as a list, opened and saved by a spreadsheet program: every answer is still the text that it was.</summary>
[Trait("Length", "long")]
public sealed class QuizSpreadsheetTests
{
    [Fact]
    public void A_spreadsheet_program_leaves_answers_as_they_are()
    {
        WorkFolder.Enter();
        var folder = WorkFolder.At("quiz-spreadsheet");
        Directory.CreateDirectory(folder);
        File.Copy(QuizLesson.Banks["csv"], Path.Combine(folder, "bank.csv"), overwrite: true);
        var records = CsvReader.Read(File.ReadAllText(Path.Combine(folder, "bank.csv")));
        try
        {
            // 44, 34, 76: commas, double quotes, UTF-8.
            var ended = Child.Run(
                new ProcessStartInfo(
                    "soffice",
                    [
                        $"-env:UserInstallation={new Uri(Path.Combine(folder, "profile"))}",
                        "--headless",
                        "--infilter=CSV:44,34,76,1",
                        "--convert-to",
                        "xlsx:Calc MS Excel 2007 XML",
                        "bank.csv",
                    ]
                )
                {
                    WorkingDirectory = folder,
                }
            );
            Assert.True(ended.Status == 0, ended.Errors);
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Assert.Skip("soffice is missing");
        }
        using var workbook = ZipFile.OpenRead(Path.Combine(folder, "bank.xlsx"));
        var texts = Load(workbook, "xl/sharedStrings.xml").Elements().Select(s => s.Value).ToList();
        var rows = Load(workbook, "xl/worksheets/sheet1.xml")
            .Descendants()
            .Where(e => e.Name.LocalName == "row")
            .ToList();
        Assert.Equal(records.Count, rows.Count);
        var looked = 0;
        for (var r = 1; r < rows.Count; r++)
        {
            var cells = rows[r].Elements().ToDictionary(c => Column(c.Attribute("r")!.Value));
            for (var c = 6; c < records[r].Count; c++)
            {
                if (records[r][c].Length > 0)
                {
                    Assert.Equal(records[r][c], Shown(cells[c]));
                    looked++;
                }
            }
        }
        Assert.True(looked > 200, $"{looked}");

        string Shown(XElement cell) =>
            cell.Attribute("t")?.Value == "s"
                ? texts[int.Parse(cell.Value, System.Globalization.CultureInfo.InvariantCulture)]
                : cell.Elements().First(e => e.Name.LocalName == "v").Value;
    }

    /// <summary>From 0, of "AB12".</summary>
    private static int Column(string place) =>
        place.TakeWhile(char.IsAsciiLetter).Aggregate(0, (n, c) => n * 26 + (c - 'A') + 1) - 1;

    private static XElement Load(ZipArchive workbook, string path)
    {
        using var stream = workbook.GetEntry(path)!.Open();
        return XDocument.Load(stream).Root!;
    }
}
