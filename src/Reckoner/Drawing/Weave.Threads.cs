using Reckoner.Datapaths;
using Reckoner.Running;

namespace Reckoner.Drawing;

internal sealed partial class Weave
{
    private const double StrandWidth = 3.4;

    private double Gap => grid.RowPitch - grid.CellHeight;

    /// <summary>What leads to a row from the one above: threads first, then the bars and dots where they begin.</summary>
    private IEnumerable<Shape> Threads(Row row)
    {
        var bars = Bars(row);
        foreach (var tried in Tried(row, bars))
        {
            yield return tried;
        }
        var marks = new List<Shape>();
        var strands = new SortedDictionary<int, List<Trace>>();
        foreach (var register in Registers)
        {
            foreach (var (high, low) in Together(row, register))
            {
                var hue = origins.Hue(provenance[row.Cycle].Origins[register.Index][low]);
                foreach (var trace in Leading(row, register, high, low, bars, marks, hue))
                {
                    if (!strands.TryGetValue(hue, out var list))
                    {
                        strands.Add(hue, list = []);
                    }
                    list.Add(trace);
                }
            }
        }
        foreach (var (hue, traces) in strands)
        {
            yield return grid.Folded
                ? new Area(Trace.Together(traces), Role.Tint(hue), Role.Edge(hue), 0.8)
                : new Strand(Trace.Together(traces), hue, hue == Role.Neutral ? 1.4 : StrandWidth);
        }
        foreach (var bar in bars)
        {
            yield return Drawn(bar, row);
        }
        foreach (var mark in marks)
        {
            yield return mark;
        }
    }

    /// <summary>Runs of bits that come out of neighbouring places of one thing; single bits where nothing is folded.</summary>
    private IEnumerable<(int High, int Low)> Together(Row row, Register register)
    {
        var sources = provenance[row.Cycle].Sources[register.Index];
        var found = provenance[row.Cycle].Origins[register.Index];
        var cuts = Reporting.Columns.Cuts(register);
        for (var low = 0; low < register.Width; )
        {
            var high = low;
            while (grid.Folded && high + 1 < register.Width && GoesOn(high))
            {
                high++;
            }
            yield return (high, low);
            low = high + 1;
        }

        bool GoesOn(int bit)
        {
            var (here, next) = (sources[bit], sources[bit + 1]);
            return here.IsOfSame(next)
                && (here.Kind == SourceKind.Constant || here.Bit + 1 == next.Bit)
                && origins.Hue(found[bit]) == origins.Hue(found[bit + 1])
                && !cuts.Contains(bit + 1)
                && !(next.Register is { } from && Reporting.Columns.Cuts(from).Contains(next.Bit));
        }
    }

    private IReadOnlyList<Trace> Leading(
        Row row,
        Register register,
        int high,
        int low,
        IReadOnlyList<Bar> bars,
        List<Shape> marks,
        int hue
    )
    {
        var source = provenance[row.Cycle].Sources[register.Index][low];
        var place = Place(row);
        var to = grid.RowTop(place);
        return source.Kind switch
        {
            SourceKind.Register =>
            [
                Between(
                    source.Register!,
                    source.Bit + high - low,
                    source.Bit,
                    grid.RowBottom(place - 1),
                    register,
                    high,
                    low,
                    to
                ),
            ],
            SourceKind.Unit or SourceKind.Table or SourceKind.Gates when Fed(bars, source) is { } bar => [From(bar)],
            SourceKind.Decision or SourceKind.Unit or SourceKind.Gates or SourceKind.Table => Dotted(),
            SourceKind.Operand or SourceKind.Constant => [],
        };

        Trace From(Bar bar)
        {
            var from = bar.Bit(source.Bit);
            return Between(bar.Register, from + high - low, from, bar.Bottom, register, high, low, to);
        }

        IReadOnlyList<Trace> Dotted()
        {
            var x = grid.X(register, low);
            var y = to - Gap * 0.34;
            marks.Add(Dot(new Point(x, y), hue));
            return grid.Folded ? [] : [Trace.Through(new Point(x, y), new Point(x, to))];
        }
    }

    private Area Dot(Point at, int hue) =>
        new(
            new Disc(at, grid.Folded ? Math.Min(3, Gap * 0.4) : Math.Min(5.2, Gap * 0.2)),
            Role.Full(hue),
            Role.Edge(hue),
            1.2
        );

    /// <summary>A thread, or where bits are folded the ribbon that they make together.</summary>
    private Trace Between(
        Register from,
        int fromHigh,
        int fromLow,
        double top,
        Register to,
        int high,
        int low,
        double bottom
    )
    {
        if (!grid.Folded)
        {
            return Trace.Down(new Point(grid.X(from, fromLow), top), new Point(grid.X(to, low), bottom));
        }
        var half = grid.CellWidth / 2;
        // A carry stands one place above the sum; where that is beyond the register, it comes out of the end of the bar.
        fromHigh = Math.Min(fromHigh, from.Width - 1);
        return Trace.Around(
            new Point(grid.X(from, fromHigh) - half, top),
            new Point(grid.X(from, fromLow) + half, top),
            new Point(grid.X(to, low) + half, bottom),
            new Point(grid.X(to, high) - half, bottom)
        );
    }

    // ---- bars

    /// <summary>The mark of a unit's kept output: over the columns into which it was first written.</summary>
    private sealed record Bar(Landing Landing, double Top, double Bottom)
    {
        public Register Register => Landing.Register;

        /// <summary>The column in which a bit of the output stands.</summary>
        public int Bit(int outputBit) => Landing.Low + outputBit - Landing.LowestBit;

        public bool Holds(int outputBit) => Bit(outputBit) >= Landing.Low && Bit(outputBit) <= Landing.High;
    }

    private static Bar? Fed(IReadOnlyList<Bar> bars, BitSource source) =>
        bars.FirstOrDefault(b => ReferenceEquals(b.Landing.Value, source.Value) && b.Holds(source.Bit));

    private List<Bar> Bars(Row row)
    {
        var bars = new List<Bar>();
        foreach (var landing in provenance[row.Cycle].Landings)
        {
            if (
                !bars.Exists(b =>
                    ReferenceEquals(b.Landing.Value, landing.Value)
                    && b.Register == landing.Register
                    && b.Landing.Low <= landing.High
                    && landing.Low <= b.Landing.High
                )
            )
            {
                bars.Add(At(landing, row));
            }
        }
        return bars;
    }

    private Area Drawn(Bar bar, Row row)
    {
        var hue = Hue(bar.Landing);
        return new Area(Form(bar), Role.Full(hue), Role.Edge(hue), 1.2)
        {
            Link = new Link(row.Cycle, Line: bar.Landing.Line),
        };
    }

    private int Hue(Landing landing) => origins.Hue(new BitSource(KindOf(landing.Value), 0, Value: landing.Value));

    private Rectangle Form(Bar bar)
    {
        var left = grid.X(bar.Register, bar.Landing.High) - grid.CellWidth / 2;
        var end = grid.X(bar.Register, bar.Landing.Low) + grid.CellWidth / 2;
        var height = bar.Bottom - bar.Top;
        return new(new Box(left - 1, bar.Top, end - left + 2, height), height / 2);
    }

    /// <summary>The hue of outputs that were tried and not kept; null where none is shown.</summary>
    private int? dropped;

    /// <summary>A hollow bar where an output would have come down that was tried and not kept, below whatever runs there.</summary>
    private IEnumerable<Shape> Tried(Row row, IReadOnlyList<Bar> bars)
    {
        foreach (var landing in provenance[row.Cycle].Dropped)
        {
            var bar = At(landing, row);
            if (
                bars.Any(b =>
                    b.Register == bar.Register && b.Landing.Low <= landing.High && landing.Low <= b.Landing.High
                )
            )
            {
                continue;
            }
            var hue = Hue(landing);
            dropped ??= hue;
            yield return new Area(Form(bar), null, Role.Edge(hue), 1.2)
            {
                Link = new Link(row.Cycle, Line: landing.Line),
            };
        }
    }

    private Bar At(Landing landing, Row row)
    {
        var top = grid.RowBottom(Place(row) - 1) + Gap * (grid.Folded ? 0.05 : 0.24);
        return new Bar(landing, top, top + (grid.Folded ? Gap * 0.4 : Math.Min(9, Gap * 0.32)));
    }

    private static SourceKind KindOf(Value value) =>
        Operations.Row(value.Operation).Cost switch
        {
            Cost.Table => SourceKind.Table,
            Cost.Gates => SourceKind.Gates,
            Cost.Unit or Cost.SecondOutput => SourceKind.Unit,
            Cost.Source or Cost.Wiring or Cost.Choice => throw new InvalidOperationException(
                $"bits come through {value.Operation}, not out of it"
            ),
        };
}
