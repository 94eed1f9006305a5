using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Binding;

internal sealed partial class Binder
{
    /// <summary>The function that only a meaning has: places worth +1, places worth -1.</summary>
    private const string SignedDigits = "digits";

    /// <summary>
    /// What registers stand for. No unit serves it, and reading a register here does not make the register useful: what nothing else
    /// reads is still never read.
    /// </summary>
    private void Meanings()
    {
        var uses = build.Uses.Count;
        var read = symbols.Values.Where(s => s is RegisterSymbol or PartSymbol && !s.IsUsed).ToList();
        foreach (var line in Lines.OfType<MeaningLine>())
        {
            if (Bind(line) is { } meaning)
            {
                build.Meanings.Add(meaning);
            }
        }
        build.Uses.RemoveRange(uses, build.Uses.Count - uses);
        read.ForEach(symbol => symbol.IsUsed = false);
    }

    private Meaning? Bind(MeaningLine line)
    {
        var words = line.Value is Call { Function: SignedDigits } call
            ? SignedWords(call)
            : [Evaluate(line.Value, null, Reading.Bare)];
        if (words is not [{ IsUnknown: false } value, ..])
        {
            return null;
        }
        var point = line.Point is null ? null : Whole(line.Point);
        if (line.Point is not null && (point is null || point < 0 || point > value.Width))
        {
            if (point is { } outside)
            {
                report.Add(
                    Id.PointOutside,
                    line.Point.Span,
                    ("point", Spoken(line.Point, outside)),
                    ("value", Printer.Text(line.Value)),
                    ("size", value.Size)
                );
            }
            return null;
        }
        int? until = null;
        if (line.Until is { } last)
        {
            var steps = build.Schedule.SelectMany(s => s.Steps).Where(s => s.Name is not null).ToList();
            until = steps.Find(s => s.Name == last.Text)?.Number;
            if (until is null)
            {
                ReportUnknown(new NameReference(last.Span, last.Text), steps.Select(s => s.Name!));
                return null;
            }
        }
        if (results.Exists(r => r.Name == line.Name.Text))
        {
            var result = Lines.OfType<ResultLine>().First(r => r.Name.Text == line.Name.Text);
            report.Add(Id.DeclaredTwice, line.Name.Span, ("name", line.Name.Text), ("line", LineOf(result.Span)));
        }
        return new Meaning(
            line.Name.Text,
            line.Phrase,
            Printer.Text(line.Value),
            value,
            words.Count > 1 ? words[1] : null,
            (int?)point,
            until
        );
    }

    /// <summary>Two words of one width, read without sign.</summary>
    private IReadOnlyList<Value> SignedWords(Call call)
    {
        if (!Has(call, SignedDigits, 2) || Alike(call.Arguments, null, call) is not { } sides)
        {
            return [];
        }
        return [.. sides.Select(s => Make(Operation.Reread, call, s.Size, Reading.Unsigned, s))];
    }
}
