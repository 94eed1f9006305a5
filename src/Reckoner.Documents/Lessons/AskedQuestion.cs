using System.Globalization;
using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Documents.Lessons;

/// <summary>The kinds of things that a question consists of.</summary>
internal enum WorkKind
{
    Table,
    Fields,
    Figure,
    Text,
    Options,
    Lines,
}

/// <summary>A part of a question: something to look at, to fill in, or both.</summary>
internal abstract record Work
{
    public abstract WorkKind Kind { get; }

    /// <summary>What a paper, a page or a workbook makes of it. A new kind is asked for in each, by the compiler.</summary>
    public T Match<T>(
        Func<TableWork, T> table,
        Func<FieldsWork, T> fields,
        Func<FigureWork, T> figure,
        Func<TextWork, T> text,
        Func<OptionsWork, T> options,
        Func<LinesWork, T> lines
    ) =>
        Kind switch
        {
            WorkKind.Table => table((TableWork)this),
            WorkKind.Fields => fields((FieldsWork)this),
            WorkKind.Figure => figure((FigureWork)this),
            WorkKind.Text => text((TextWork)this),
            WorkKind.Options => options((OptionsWork)this),
            WorkKind.Lines => lines((LinesWork)this),
        };
}

/// <summary>A table with open cells, or one to be looked at.</summary>
/// <param name="Caption">What it is of; given with it.</param>
/// <param name="Open">For each row the columns that are to be filled in, sentences too: every paper and every file goes by it.</param>
internal sealed record TableWork(
    string? Caption,
    Tables.Grid Grid,
    IReadOnlyList<IReadOnlySet<int>> Open,
    IReadOnlyList<string> Signs
) : Work
{
    /// <summary>Whether its sentences are left out.</summary>
    public bool WithoutReasons { get; init; }

    /// <summary>Rows below the last that are there to be left empty.</summary>
    public int Spare { get; init; }

    /// <summary>Columns of what is decided on the way to a row, with the ways in which that may fall; none for digits.</summary>
    public IReadOnlyList<TableDecision> Decisions { get; init; } = [];

    public bool IsDecision(int column) => Decisions.Any(d => d.Column == column);

    /// <summary>The label of a row to spare, from 0: it counts on where those above it count.</summary>
    public string SpareLabel(int row) =>
        int.TryParse(Grid.Rows[^1].Cells[0].ToString(), NumberStyles.None, CultureInfo.InvariantCulture, out var last)
            ? (last + 1 + row).ToString(CultureInfo.InvariantCulture)
            : "";

    /// <summary>What a row to spare has in a column that is printed: what all rows have there, or nothing.</summary>
    public string SpareText(int column)
    {
        var texts = Grid.Rows.Select(r => $"{r.Cells[column]}").Where(t => t.Length > 0).Distinct().ToList();
        return texts is [var one] && !OpenSpare.Contains(column) ? one : "";
    }

    /// <summary>The columns that are shown.</summary>
    public IReadOnlyList<int> Shown =>
        [
            .. Enumerable
                .Range(0, Grid.Columns.Count)
                .Where(i => Grid.Columns[i].Role != Tables.ColumnRole.Sentences || !WithoutReasons),
        ];

    /// <summary>
    /// The name of a cell, which no other of the question has: those of its table, from 1, and its row, from 0, and the column's head.
    /// </summary>
    public string Place(int table, int row, int column)
    {
        var name = Grid.Columns[column].Name;
        var before = Grid.Columns.Take(column).Count(c => c.Name == name);
        return FormattableString.Invariant($"{table}.{row}.{name}{(before > 0 ? $".{before + 1}" : "")}");
    }

    /// <summary>The columns in which a row to spare has places: whatever is to be filled in in any row.</summary>
    public IReadOnlySet<int> OpenSpare => Open.SelectMany(o => o).ToHashSet();

    /// <summary>Whether anything is to be filled in.</summary>
    public bool IsToFill => Open.Any(o => o.Count > 0);

    public override WorkKind Kind => WorkKind.Table;
}

/// <summary>What is decided on the way to a row.</summary>
/// <param name="Ways">What is to be said where it falls so; none where the digit is written that was looked at.</param>
/// <param name="Rows">Those on whose way it stands; where nobody came by it, nothing belongs there.</param>
internal sealed record TableDecision(int Column, IReadOnlyList<string> Ways, IReadOnlySet<int> Rows);

/// <summary>A place to write something short into.</summary>
/// <param name="Name">What a file calls it.</param>
/// <param name="Label">What stands before it.</param>
/// <param name="Expected">What belongs there; an example where more would do.</param>
internal sealed record Field(string Name, string Label, string Expected)
{
    /// <summary>For how many signs there is room, whatever belongs there: the length of the answer tells nothing.</summary>
    public int Room { get; init; } = Least;

    /// <summary>Less room has none.</summary>
    public const int Least = 8;

    /// <param name="width">Of its bits; 0 for a number that is no hardware.</param>
    public static Field OfNumber(string name, string label, BigInteger number, int width) =>
        OfNumber(name, label, Bits.Text(number), width);

    /// <summary>As much room as any number of so many bits takes, with its sign, or all its digits.</summary>
    public static Field OfNumber(string name, string label, string expected, int width)
    {
        // Digits of a register are as many whatever it holds, and no number is longer than the longest of its bits.
        var longest = Bits.Text(-(BigInteger.One << width)).Length;
        return new Field(name, label, expected) { Room = Math.Max(Least, Math.Max(longest, expected.Length)) };
    }
}

internal sealed record FieldsWork(string Lead, IReadOnlyList<Field> Fields) : Work
{
    public override WorkKind Kind => WorkKind.Fields;
}

/// <summary>A figure to be filled in.</summary>
internal sealed record FigureWork(FigureAnswer Figure) : Work
{
    public override WorkKind Kind => WorkKind.Figure;
}

/// <summary>Lines that stand as they are, such as a description.</summary>
internal sealed record TextWork(IReadOnlyList<string> Lines) : Work
{
    /// <summary>Whether what stands below is filled in by it.</summary>
    public bool IsRule { get; init; }

    public override WorkKind Kind => WorkKind.Text;
}

/// <summary>Sentences to choose from, each with a letter.</summary>
internal sealed record OptionsWork(IReadOnlyList<string> Options) : Work
{
    /// <summary>For each what the results would be with it; for whoever has chosen, and on no sheet.</summary>
    public IReadOnlyList<string> Results { get; init; } = [];

    public override WorkKind Kind => WorkKind.Options;

    /// <summary>a, b, c and so on.</summary>
    public static string Letter(int index) => ((char)('a' + index)).ToString();
}

/// <summary>Empty lines to write on.</summary>
internal sealed record LinesWork(int Lines) : Work
{
    public override WorkKind Kind => WorkKind.Lines;
}

/// <summary>A question with all that is asked and what belongs there, for one sheet.</summary>
/// <param name="Prompt">What is to be done, in a sentence.</param>
internal sealed record AskedQuestion(LessonQuestion Question, string Prompt, IReadOnlyList<Work> Works)
{
    /// <summary>What it is about where that is one walk: the machine as it is, and the operands.</summary>
    public Walk? Walk { get; init; }

    /// <summary>The class of difficulty that its operands were drawn from, in words, where most have another; null where it is theirs.</summary>
    public string? OtherClass { get; init; }

    /// <summary>The slip that was planted; null for none.</summary>
    public string? Slip { get; init; }

    /// <summary>What chosen operands have to show; null for nothing.</summary>
    public string? Condition { get; init; }

    /// <summary>The slip that chosen operands have to expose; null for none.</summary>
    public string? Exposing { get; init; }

    /// <summary>The hardware that it is about, without the slip that was planted; null where it is about none or several.</summary>
    public Datapath? Datapath
    {
        get => field ?? Walk?.Datapath;
        init;
    }
}
