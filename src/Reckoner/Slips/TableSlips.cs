using System.Globalization;
using System.Numerics;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Slips;

/// <summary>The single slips of a table: a row left out, emptied or moved, and in a small table a single cell emptied.</summary>
internal static class TableSlips
{
    /// <summary>A table of more cells is too large to try each; its rows stand for them.</summary>
    private const int MostCells = 16;

    public static IEnumerable<Edit<Declaration>> Of(TableBlock d)
    {
        Edit<Declaration> Slip(IReadOnlyList<TableRow> rows, string kind, Line at, params Fact[] facts) =>
            new(d with { Rows = rows }, kind, d.Name.Text, at.Span, [("table", d.Name.Text), .. facts]);

        for (var i = 0; i < d.Rows.Count; i++)
        {
            var row = d.Rows[i];
            if (!IsZero(row.Value))
            {
                yield return Slip(Rewriting.With(d.Rows, i, row with { Value = Zero(row.Span) }), "row-emptied", row);
            }
            if (row.Condition is not { } condition)
            {
                continue;
            }
            yield return Slip(Rewriting.Without(d.Rows, i), "row-left-out", row);
            foreach (var index in d.Indices.Where(x => Mentioned.In(condition, x.Name.Text)))
            {
                foreach (
                    var (op, by) in new[]
                    {
                        (BinaryOperator.Subtract, ValueSlips.High),
                        (BinaryOperator.Add, ValueSlips.Low),
                    }
                )
                {
                    var moved = row with { Condition = Moved(condition, index.Name.Text, op) };
                    yield return Slip(
                        Rewriting.With(d.Rows, i, moved),
                        "row-shifted",
                        row,
                        ("index", index.Name.Text),
                        ("by", by)
                    );
                }
            }
        }
        foreach (var cell in Cells(d.Indices))
        {
            var emptied = new TableRow(d.Span, Comments.None, Is(d, cell), Zero(d.Span));
            var named = string.Join(", ", d.Indices.Zip(cell, (x, number) => $"{x.Name.Text} = {number}"));
            yield return Slip([emptied, .. d.Rows], "cell-emptied", d, ("cell", named));
        }
    }

    private static bool IsZero(Expression e) => e is NumberLiteral { Number.IsZero: true };

    private static NumberLiteral Zero(Span span) => new(span, "0");

    /// <summary>The row asks for its cells one place further on, so a cell at its border gets its neighbour's value.</summary>
    private static Expression Moved(Expression condition, string index, BinaryOperator op) =>
        EarlyResults.Replaced(
            condition,
            name =>
                name.Name == index
                    ? new Bracketed(name.Span, new Binary(name.Span, op, name, new NumberLiteral(name.Span, "1")))
                    : null
        );

    /// <summary>The indices of every cell, if all widths are plain numbers and there are few cells.</summary>
    private static IEnumerable<IReadOnlyList<BigInteger>> Cells(IReadOnlyList<TableIndex> indices)
    {
        var widths = indices.Select(x => (x.Type.Width as NumberLiteral)?.Number ?? MostCells).ToList();
        if (widths.Aggregate(BigInteger.Zero, (sum, w) => sum + w) > BigInteger.Log2(MostCells))
        {
            return [];
        }
        return indices.Aggregate(
            (IEnumerable<IReadOnlyList<BigInteger>>)
                [
                    [],
                ],
            (cells, x) => cells.SelectMany(c => Numbers(x).Select(n => (IReadOnlyList<BigInteger>)[.. c, n]))
        );
    }

    private static IEnumerable<BigInteger> Numbers(TableIndex index)
    {
        var count = 1 << (int)((NumberLiteral)index.Type.Width).Number;
        var least = index.Type.IsSigned ? -count / 2 : 0;
        return Enumerable.Range(least, count).Select(n => new BigInteger(n));
    }

    private static Expression Is(TableBlock d, IReadOnlyList<BigInteger> cell) =>
        d
            .Indices.Zip(cell, (x, number) => Equal(d.Span, x.Name.Text, number))
            .Aggregate((a, b) => new Binary(d.Span, BinaryOperator.And, a, b));

    private static Expression Equal(Span span, string index, BigInteger number)
    {
        Expression written = new NumberLiteral(span, BigInteger.Abs(number).ToString(CultureInfo.InvariantCulture));
        written = number.Sign < 0 ? new Unary(span, UnaryOperator.Negate, written) : written;
        return new Comparison(span, [new NameReference(span, index), written], [Relation.Equal]);
    }
}
