using System.Globalization;
using Reckoner.Diagnostics;
using Reckoner.Styles;

namespace Reckoner.Costing;

/// <summary>Reads a model of costs: lines like those of a house style, each saying what one kind of piece takes. Never throws.</summary>
internal sealed class ModelReader : LineReader
{
    /// <summary>Paths of many thousand pieces must still add up.</summary>
    private const int Most = 100_000;

    private const string Gates = "gates";

    private readonly Dictionary<string, (string Unit, int Line)> units = [];
    private readonly HashSet<(string Row, string What)> given = [];
    private CostModel model = CostModel.UnitGates;

    private ModelReader(Source source)
        : base(source, Id.ModelWord, Id.ModelForm, Id.ModelForm) => model = model with { Title = source.Name };

    /// <summary>What a piece takes in the model so far, and the model in which it takes something else.</summary>
    /// <param name="IsWhole">Whether area and delay are both asked for, since there is nothing that either would stay as.</param>
    private sealed record Row(
        string Word,
        Func<CostModel, Price> Of,
        Func<CostModel, Price, CostModel> With,
        bool HasDelay = true,
        bool IsWhole = false
    );

    private const string FullAdder = "full-adder";

    private static readonly IReadOnlyList<Row> Rows =
    [
        new("and", m => m.And, (m, p) => m with { And = p }),
        new("or", m => m.Or, (m, p) => m with { Or = p }),
        new("xor", m => m.Xor, (m, p) => m with { Xor = p }),
        new("not", m => m.Not, (m, p) => m with { Not = p }),
        new("choice", m => m.Choice, (m, p) => m with { Choice = p }),
        new("register", m => m.Register, (m, p) => m with { Register = p }),
        new(FullAdder, m => m.FullAdder ?? default, (m, p) => m with { FullAdder = p }, IsWhole: true),
        new("table-bit", m => m.TableBit ?? default, (m, p) => m with { TableBit = p }, IsWhole: true),
        new(
            "counter-bit",
            m => new Price(m.CounterBit ?? 0, 0),
            (m, p) => m with { CounterBit = p.Area },
            HasDelay: false
        ),
    ];

    /// <summary>The first words of lines that say what a piece takes.</summary>
    public static IReadOnlyList<string> RowWords { get; } = [.. Rows.Select(r => r.Word)];

    protected override IReadOnlyList<LineForm> Lines =>
        field ??= [
            new("model", "model \"TITLE\"", () => model = model with { Title = Text() }),
            .. Rows.Select(r => new LineForm(r.Word, Form(r), () => Read(r))),
        ];

    private static string Form(Row row) =>
        row.Word == FullAdder ? $"{row.Word} area NUMBER UNIT delay NUMBER UNIT carry NUMBER UNIT"
        : row.IsWhole ? $"{row.Word} area NUMBER UNIT delay NUMBER UNIT"
        : row.HasDelay ? $"{row.Word} [area NUMBER UNIT] [delay NUMBER UNIT]"
        : $"{row.Word} area NUMBER UNIT";

    /// <summary>The model, or null with what is wrong with the text.</summary>
    public static (CostModel? Model, IReadOnlyList<Diagnostic> Found) Read(Source source)
    {
        var reader = new ModelReader(source);
        reader.Read();
        if (!reader.Report.HasErrors)
        {
            reader.AskForRest();
        }
        return (reader.Report.HasErrors ? null : reader.Named(), reader.Report.InOrder());
    }

    private CostModel Named() => model with { AreaUnit = Unit("area"), DelayUnit = Unit("delay") };

    private string? Unit(string what) => units.TryGetValue(what, out var unit) && unit.Unit != Gates ? unit.Unit : null;

    private void Read(Row row)
    {
        var price = row.Of(model);
        var whole = row.IsWhole;
        if (whole)
        {
            Word("area");
        }
        if (whole || Takes("area"))
        {
            price = price with { Area = Number(row.Word, "area") };
        }
        if (whole)
        {
            Word("delay");
        }
        if (whole || (row.HasDelay && Takes("delay")))
        {
            price = price with { Delay = Number(row.Word, "delay") };
        }
        if (!given.Contains((row.Word, "area")) && !given.Contains((row.Word, "delay")))
        {
            throw Form(Ahead);
        }
        model = row.With(model, price);
        if (row.Word == FullAdder)
        {
            Word("carry");
            model = model with { CarryDelay = Number(row.Word, "delay") };
        }
    }

    private int Number(string row, string what)
    {
        var token = Next();
        if (
            token.IsText
            || !int.TryParse(token.Text, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            || number > Most
        )
        {
            throw Wrong(Id.ModelNumber, token.Span, ("found", token.Text), ("most", Most));
        }
        var unit = Next();
        given.Add((row, what));
        if (units.TryAdd(what, (unit.Text, LineNumber)) || units[what].Unit == unit.Text)
        {
            return number;
        }
        throw Wrong(
            Id.ModelUnit,
            unit.Span,
            ("found", unit.Text),
            ("unit", units[what].Unit),
            ("line", units[what].Line)
        );
    }

    /// <summary>What is left as it is in the unit-gate model is counted in gates, which add up with nothing else.</summary>
    private void AskForRest()
    {
        foreach (var what in units.Where(u => u.Value.Unit != Gates).Select(u => u.Key))
        {
            var rest = Rows.Where(r => !given.Contains((r.Word, what)) && Takes(r, what) > 0)
                .Select(r => r.Word)
                .ToList();
            if (rest.Count > 0)
            {
                Report.Add(
                    Id.ModelRest,
                    LineSpan(units[what].Line),
                    ("unit", units[what].Unit),
                    ("rest", (IReadOnlyList<string>)rest)
                );
                return;
            }
        }
    }

    private int Takes(Row row, string what) => what == "area" ? row.Of(model).Area : row.Of(model).Delay;
}
