using System.IO.Compression;
using Reckoner.Documents.HandedIn;
using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>Sheets that were filled in and saved by a spreadsheet program, LibreOffice, with its default settings.</summary>
public sealed partial class MarkTests
{
    [Fact]
    [Trait("Length", "long")]
    public void A_workbook_that_a_spreadsheet_program_saved_has_every_cell_and_gets_every_mark()
    {
        foreach (var student in Students)
        {
            var path = HandIn(student, "xlsx", $"filled/{student}.xlsx");
            var saved = Saved(path, "xlsx:Calc MS Excel 2007 XML", At($"{student}_file"));
            Assert.Equal(Cells(path), Cells(saved));
            using var archive = ZipFile.OpenRead(saved);
            foreach (
                var sheet in archive.Entries.Where(e =>
                    e.FullName.StartsWith("xl/worksheets/sheet", StringComparison.Ordinal)
                )
            )
            {
                using var reader = new StreamReader(sheet.Open());
                // What is given stays protected.
                Assert.Contains("<sheetProtection", reader.ReadToEnd(), StringComparison.Ordinal);
            }
        }
        Directory.Delete(At("filled"), recursive: true);
        Assert.Equal(0, Mark().Status);
        Assert.All(Marks(), m => Assert.Equal(Full, m.Value));
    }

    [Fact]
    [Trait("Length", "long")]
    public void A_list_that_a_spreadsheet_program_saved_has_every_cell()
    {
        foreach (var student in Students)
        {
            var blank = made.At($"out/sheets/{Number(student)}.csv");
            var saved = Saved(blank, "csv", At("saved"));
            Assert.Equal(Listed(blank), Listed(saved));
        }

        static List<string> Listed(string file) =>
            Trimmed(CsvReader.Read(File.ReadAllText(file).ReplaceLineEndings("\r\n")).Select(l => l.ToList()));
    }

    private static string Saved(string file, string filter, string folder)
    {
        using var profile = new TemporaryProfile();
        var ended = Child.Run(
            "soffice",
            $"-env:UserInstallation={new Uri(profile.Path)}",
            "--headless",
            "--convert-to",
            filter,
            "--outdir",
            folder,
            file
        );
        Assert.Equal(0, ended.Status);
        return Path.Combine(folder, Path.GetFileNameWithoutExtension(file) + "." + filter.Split(':')[0]);
    }

    private static List<string> Cells(string workbook) =>
        [
            .. WorkbookReader
                .Of(File.ReadAllBytes(workbook))
                .Text!.Pages.SelectMany(p => Trimmed(p.Rows.Select(r => r.ToList())).Prepend(p.Name)),
        ];

    /// <summary>Without empty cells and rows at the ends, which no program keeps.</summary>
    private static List<string> Trimmed(IEnumerable<List<string>> rows)
    {
        var lines = rows.Select(r => string.Join('|', r).TrimEnd('|', ' ')).ToList();
        return lines[..(lines.FindLastIndex(l => l.Length > 0) + 1)];
    }

    private sealed class TemporaryProfile : IDisposable
    {
        public string Path { get; } = Directory.CreateTempSubdirectory("reckoner-office-").FullName;

        public void Dispose() => Directory.Delete(Path, recursive: true);
    }
}
