using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Documents.Lessons;
using Reckoner.Questions;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>
/// Operands that a lesson works out or asks of everybody: whoever was drawn them would find there what belongs on the sheet. They are
/// known by their names, since another machine, or another width, gives the same results.
/// </summary>
internal static class ShownOperands
{
    public static IEnumerable<IReadOnlyList<(string Name, BigInteger Number)>> Of(
        Lesson lesson,
        RequestDefaults defaults
    ) =>
        Requests(lesson, defaults)
            .Where(r => !r.Report.HasErrors && r.Verb!.TakesOperands && r.Operands.Count > 0)
            .SelectMany(Walked);

    /// <summary>Those that mean something for a datapath, as its bits.</summary>
    public static IEnumerable<IReadOnlyList<BigInteger>> In(
        Datapath datapath,
        IEnumerable<IReadOnlyList<(string Name, BigInteger Number)>> operands
    )
    {
        foreach (var one in operands.Where(o => o.Count == datapath.Operands.Count))
        {
            var numbers = datapath.Operands.Select(o => one.FirstOrDefault(n => n.Name == o.Name)).ToList();
            if (numbers.TrueForAll(n => n.Name is not null))
            {
                List<BigInteger> bits =
                [
                    .. datapath.Operands.Zip(numbers, (o, n) => Numbers.Bits.Wrap(n.Number, o.Width)),
                ];
                if (datapath.Operands.Zip(numbers).All(p => p.First.Number(bits[p.First.Index]) == p.Second.Number))
                {
                    yield return bits;
                }
            }
        }
    }

    public static IReadOnlyList<(string Name, BigInteger Number)> Named(
        Datapath datapath,
        IReadOnlyList<BigInteger> bits
    ) => [.. datapath.Operands.Select(o => (o.Name, o.Number(bits[o.Index])))];

    /// <summary>The machines that a request is about: those it names, or that of the lesson.</summary>
    public static IReadOnlyList<RequestWord> Machines(Request request) =>
        request.Machines.Count > 0 ? request.Machines
        : request.Machine is { } own ? [own]
        : [];

    private static IEnumerable<Request> Requests(Lesson lesson, RequestDefaults defaults)
    {
        foreach (var line in lesson.Blocks.SelectMany(b => b.Lines))
        {
            var words = HeaderReader.Words(new RequestWord(lesson.Source[line], line));
            yield return Request.Read(lesson.Source, line, words, defaults);
        }
        foreach (var question in lesson.Questions.Where(q => q.Drawn is null))
        {
            yield return Request.Read(lesson.Source, question.Line, question.Request, defaults);
        }
        foreach (var name in lesson.Values.Select(v => v.Name).DistinctBy(n => LessonValue.Split(n.Text).Machine))
        {
            var machine = LessonValue.Split(name.Text).Machine is { } named
                ? new RequestWord(named, name.Span)
                : (RequestWord?)null;
            yield return Request.Of("walk", machine, lesson.Source, name.Span, defaults);
        }
    }

    /// <summary>Of each of its machines; what cannot be walked has been said where it is asked.</summary>
    private static IEnumerable<IReadOnlyList<(string, BigInteger)>> Walked(Request request)
    {
        foreach (var word in Machines(request))
        {
            if (Asking.Machine(request, word) is not { } machine)
            {
                continue;
            }
            var operands = request.Operands.Select(o => AskedOperand.Read(o.Text)).ToList();
            if (
                new WalkQuestion(machine) { Operands = operands, Anyway = true }
                    .Ask()
                    .Data is
                { } walk
            )
            {
                yield return Named(walk.Datapath, walk.Operands);
            }
        }
    }
}
