using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Binding;

internal sealed partial class Binder
{
    private void Schedule(Binder? core)
    {
        var steps = new Dictionary<string, int>();
        foreach (var line in Lines)
        {
            switch (line)
            {
                case CoreBlock:
                    core?.Schedule(null);
                    break;
                case RepeatBlock repeat:
                    build.Schedule.Add(Loop(repeat, steps));
                    break;
                case StepBlock block:
                    build.Schedule.Add(new Segment(0, 1, null, [BindStep(block, steps)], LineOf(block.Span)));
                    break;
            }
        }
    }

    private Segment Loop(RepeatBlock repeat, Dictionary<string, int> steps)
    {
        var count = Whole(repeat.Count);
        if (count < 0)
        {
            report.Add(Id.CountNegative, repeat.Count.Span, ("count", Spoken(repeat.Count, count.Value)));
        }
        loop = repeat;
        step = build.Steps + 1;
        inLoopCondition = true;
        var condition = repeat.While is null ? null : Condition(repeat.While);
        inLoopCondition = false;
        var bound = repeat.Steps.Select(s => BindStep(s, steps)).ToList();
        loop = null;
        // A round costs something even where nothing in it could be bound, so that a huge count is always refused.
        var each = Math.Max(
            1,
            bound.Sum(s => Effort.Of(s, build.Registers.Count)) + (condition is null ? 0 : Effort.Of(condition))
        );
        var rounds = count is { Sign: > 0 } known ? known : BigInteger.Zero;
        if (build.Operations + rounds * each > MostOperations)
        {
            report.Add(
                Id.TooManyOperations,
                repeat.Count.Span,
                ("count", Spoken(repeat.Count, rounds)),
                ("limit", MostOperations),
                ("way", new Term(NamesNumbers(repeat.Count) ? "way.smaller-width" : "way.fewer-rounds"))
            );
            rounds = 0;
        }
        build.Operations += (long)rounds * each;
        return new Segment(++build.Repeats, (int)rounds, condition, bound, LineOf(repeat.Span));
    }

    /// <summary>
    /// Whether every sentence of the step (or of the loop around it) could be read. If not, a "then" or a branch may be among
    /// what was lost, and nothing is said about what only seems to happen at once.
    /// </summary>
    private bool isStepWhole = true;

    private bool IsReadable(Span stretch) =>
        machine.Found.All(d =>
            d.Severity != Severity.Error || d.Span.Start < stretch.Start || d.Span.Start > stretch.End
        );

    private bool inLoopCondition;

    private Step BindStep(StepBlock block, Dictionary<string, int> steps)
    {
        if (block.Name is { Text.Length: > 0 } name && !steps.TryAdd(name.Text, LineOf(name.Span)))
        {
            report.Add(Id.DeclaredTwice, name.Span, ("name", name.Text), ("line", steps[name.Text]));
        }
        step = ++build.Steps;
        isStepWhole = IsReadable(loop?.Span ?? block.Span);
        scopes.Add(new(StringComparer.Ordinal));
        var moments = new List<IReadOnlyList<Act>>();
        foreach (var moment in block.Moments)
        {
            writes = [];
            moments.Add(Statements(moment.Statements));
        }
        writes = [];
        scopes.Clear();
        return new Step(step, block.Name?.Text, block.Phrase, moments, source, LineOf(block.Span))
        {
            Declared = block.Name,
        };
    }

    private void Results()
    {
        inResult = true;
        foreach (var line in Lines.OfType<ResultLine>())
        {
            var value = Evaluate(line.Value, null, Reading.Bare);
            var earlier =
                results.Exists(r => r.Name == line.Name.Text) || operands.Exists(o => o.Name == line.Name.Text);
            if (earlier)
            {
                var first = Lines.First(d =>
                    d is ResultLine r && r.Name.Text == line.Name.Text
                    || d is OperandLine o && o.Name.Text == line.Name.Text
                );
                report.Add(Id.DeclaredTwice, line.Name.Span, ("name", line.Name.Text), ("line", LineOf(first.Span)));
            }
            else
            {
                results.Add(new Result(line.Name.Text, value) { Declared = line.Name });
            }
        }
        inResult = false;
    }
}
