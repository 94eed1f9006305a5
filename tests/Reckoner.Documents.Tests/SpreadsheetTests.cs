using System.Text;
using Reckoner.Reporting;
using Reckoner.Tables;
using Xunit;

namespace Reckoner.Documents.Tests;

/// <summary>Our files opened by a spreadsheet program, LibreOffice, without a screen and with its default settings.</summary>
[Trait("Length", "long")]
public class SpreadsheetTests
{
    private static readonly Document Sample = new(
        "d",
        "en",
        "title",
        null,
        [
            new Tables.Grid(
                "first",
                "caption",
                [new GridColumn("=head", ColumnRole.Label), new GridColumn("Q", ColumnRole.Digits)],
                [
                    new GridRow([Cell.Of("=1+1"), Cell.Of(new Words.Run(Words.RunKind.Digits, "0011", 2))]),
                    new GridRow([Cell.Of("+1"), Cell.Of(new Words.Run(Words.RunKind.Digits, "0000", 2))]),
                    new GridRow([Cell.Of("-A1"), Cell.Of(new Words.Run(Words.RunKind.Digits, "0F", 16))]),
                    new GridRow([Cell.Of("@SUM(1)"), Cell.Of(new Words.Run(Words.RunKind.Digits, "017", 8))]),
                ]
            ),
        ]
    );

    /// <summary>What the program shows in each cell, written out by it as plain text.</summary>
    private static string[] Shown(string file, byte[] bytes)
    {
        using var folder = new Folder();
        folder.Write(file, bytes);
        var profile = $"-env:UserInstallation={new Uri(Path.Combine(folder.Path, "profile"))}";
        Program.Run(
            folder.Path,
            "soffice",
            profile,
            "--headless",
            "--convert-to",
            "xlsx:Calc MS Excel 2007 XML",
            "--outdir",
            "again",
            file
        );
        Program.Run(
            folder.Path,
            "soffice",
            profile,
            "--headless",
            "--convert-to",
            "csv",
            "--outdir",
            "shown",
            Path.Combine("again", Path.ChangeExtension(file, ".xlsx"))
        );
        return File.ReadAllLines(Path.Combine(folder.Path, "shown", Path.ChangeExtension(file, ".csv")));
    }

    [Fact]
    public void A_workbook_keeps_its_zeros_and_has_no_formula() =>
        Assert.Equal(
            ["=head,Q", "=1+1,0011", "+1,0000", "-A1,0F", "@SUM(1),017"],
            Shown("table.xlsx", XlsxWriter.Write(Sample))
        );

    [Fact]
    public void Comma_separated_values_keep_their_zeros_and_become_no_formula() =>
        Assert.Equal(
            ["'=head,Q", "'=1+1,0b0011", "'+1,0b0000", "'-A1,0x0F", "'@SUM(1),0o017"],
            Shown("table.csv", Encoding.UTF8.GetBytes(Csv.Of(Sample)))
        );
}
