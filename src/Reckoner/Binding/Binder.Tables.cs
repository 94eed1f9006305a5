using System.Numerics;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;
using Term = Reckoner.Claims.Term;

namespace Reckoner.Binding;

internal sealed partial class Binder
{
    /// <summary>The largest table, in cells.</summary>
    public const int LargestTable = 1 << 16;

    /// <summary>How often a row may be tried on a cell.</summary>
    public const int MostTrials = 1 << 22;

    private Table? BindTable(TableBlock line)
    {
        var table = machine.Tables.Of(line, numbers, () => Filled(line));
        if (table is not null)
        {
            build.Tables.Add(table);
        }
        return table;
    }

    private Table? Filled(TableBlock line)
    {
        var indices = new List<TableIndexAt>();
        foreach (var index in line.Indices)
        {
            if (Bits(index.Type.Width, index.Name.Text) is { } width)
            {
                indices.Add(new TableIndexAt(index.Name.Text, width, index.Type.IsSigned));
            }
        }
        if (Bits(line.Type.Width, line.Name.Text) is not { } size || indices.Count < line.Indices.Count)
        {
            return null;
        }
        var bits = indices.Sum(i => (long)i.Size.Count);
        if (bits > BitOperations.Log2(LargestTable) || (long)line.Rows.Count << (int)bits > MostTrials)
        {
            report.Add(
                Id.TableTooLarge,
                line.Name.Span,
                ("name", line.Name.Text),
                ("bits", bits),
                ("rows", line.Rows.Count),
                ("limit", LargestTable),
                ("trials", MostTrials)
            );
            return null;
        }
        var rows = RowsOf(line, indices);
        return rows is not null && IndicesDiffer(line) ? Fill(line, rows, indices, size, 1 << (int)bits) : null;
    }

    private bool IndicesDiffer(TableBlock line)
    {
        var again = line.Indices.Where((index, i) => line.Indices.Take(i).Any(e => e.Name.Text == index.Name.Text));
        var differ = true;
        foreach (var index in again)
        {
            differ = false;
            report.Add(Id.DeclaredTwice, index.Name.Span, ("name", index.Name.Text), ("line", LineOf(line.Name.Span)));
        }
        return differ;
    }

    /// <summary>A row of a table, bound. Without a condition it always applies.</summary>
    private sealed record Row(Truth? Condition, Term Value);

    /// <summary>Null when something is wrong with one of them.</summary>
    private List<Row>? RowsOf(TableBlock line, List<TableIndexAt> indices)
    {
        var binding = new FormulaBinding(
            report,
            KnownNumber,
            formulas,
            name =>
                indices.FindLastIndex(i => i.Name == name.Name) is >= 0 and var at
                    ? Term.Of(name.Span, indices[at].Variable(at))
                    : null
        )
        {
            Kinds = [VariableKind.Index],
        };
        var rows = new List<Row>();
        foreach (var row in line.Rows)
        {
            var condition = row.Condition is null ? null : binding.Truth(row.Condition);
            if (binding.Number(row.Value) is { } value && (condition is null) == (row.Condition is null))
            {
                rows.Add(new Row(condition, value));
            }
        }
        return rows.Count == line.Rows.Count ? rows : null;
    }

    /// <summary>Tries the rows from above for every combination of the indices; the first that applies gives the cell.</summary>
    private Table? Fill(TableBlock line, List<Row> bound, List<TableIndexAt> indices, Size size, int count)
    {
        var formulas = new IndexedExact(indices, report);
        var cells = new BigInteger[count];
        var rows = new int[count];
        var used = new bool[line.Rows.Count];
        for (var cell = 0; cell < count; cell++)
        {
            formulas.At(cell);
            if (RowFor(bound, formulas) is not { } row)
            {
                return null;
            }
            if (row == bound.Count && !IsWhole)
            {
                return null;
            }
            if (row == bound.Count)
            {
                report.Add(Id.TableHole, line.Name.Span, ("name", line.Name.Text), ("indices", formulas.Spoken));
                return null;
            }
            if (formulas.Number(bound[row].Value) is not { } value)
            {
                return null;
            }
            if (!value.IsWhole || !Numbers.Bits.Fits(value.Numerator, size.Count, line.Type.IsSigned))
            {
                report.Add(
                    value.IsWhole ? Id.TableValueTooWide : Id.NotWhole,
                    bound[row].Value.Place,
                    ("formula", bound[row].Value.ToString()),
                    ("value", value.ToString()),
                    ("size", size),
                    ("at", $" ({formulas.Spoken})")
                );
                return null;
            }
            used[row] = true;
            rows[cell] = row;
            cells[cell] = Numbers.Bits.Wrap(value.Numerator, size.Count);
        }
        return DeadRows(line, used)
            ? null
            : new Table(line.Name.Text, indices, size, ReadingOf(line.Type), cells, rows);
    }

    /// <summary>The first row that applies; their number when none does, null when a condition has no value.</summary>
    private static int? RowFor(List<Row> rows, Exact formulas)
    {
        for (var row = 0; row < rows.Count; row++)
        {
            var applies = rows[row].Condition is not { } condition ? true : formulas.Truth(condition);
            if (applies != false)
            {
                return applies is null ? null : row;
            }
        }
        return rows.Count;
    }

    private bool DeadRows(TableBlock line, bool[] used)
    {
        var dead = false;
        for (var row = 0; row < used.Length; row++)
        {
            if (!used[row])
            {
                dead = true;
                report.Add(Id.TableDeadRow, line.Rows[row].Span, ("name", line.Name.Text));
            }
        }
        return dead;
    }
}
