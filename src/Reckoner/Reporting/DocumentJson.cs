using Reckoner.Datapaths;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>A document of tables as JSON: the machines it is about, then each table with its columns and cells as texts.</summary>
public static class DocumentJson
{
    public static string Of(Document document, IEnumerable<Datapath> machines) =>
        Json.Document(json =>
        {
            json.WriteString("title", document.Title);
            json.Objects("machines", machines, machine => json.Subject(machine));
            json.Objects(
                "tables",
                document.Grids,
                grid =>
                {
                    json.WriteString("name", grid.Name);
                    json.WriteString("caption", grid.Caption);
                    json.List("columns", grid.Columns, column => json.WriteStringValue(column.Full ?? column.Name));
                    json.Objects(
                        "rows",
                        grid.Rows,
                        row =>
                        {
                            json.List("cells", row.Cells, cell => json.WriteStringValue(Plain(cell)));
                            json.List(
                                "differs",
                                grid.Columns.Zip(row.Cells).Where(c => c.Second.IsMarked),
                                c => json.WriteStringValue(c.First.Full ?? c.First.Name)
                            );
                        }
                    );
                }
            );
        });

    private static string Plain(Cell cell) =>
        string.Join("; ", cell.Lines.Select(l => string.Concat(l.Runs.Select(Plain))));

    private static string Plain(Run run) =>
        run.Kind == RunKind.Digits ? run.Text.Replace(" ", "", StringComparison.Ordinal) : run.Text;
}
