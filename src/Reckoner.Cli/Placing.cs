using System.Globalization;
using Reckoner.Diagnostics;
using Reckoner.Questions;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>What was found about a question, in the words and at the place of the request that it was built from.</summary>
internal static class Placing
{
    /// <summary>Where a part of the question stands in the request; where it does not stand there, the whole line is marked.</summary>
    private static Span Place(Finding finding, Request request) =>
        finding.Part switch
        {
            AskedPart.Whole or AskedPart.Description or AskedPart.Style => request.Whole,
            AskedPart.Machine => Machine(finding.Index, request)?.Span ?? request.Whole,
            AskedPart.Slip => (Machine(finding.Index, request) is { } machine ? request.SlipOf(machine) : null)?.Span
                ?? request.Whole,
            AskedPart.Widths => request[Option.Width]?.Span ?? request.Whole,
            AskedPart.Operands => request.Operands.Count == 0
                ? request.Whole
                : Span.Covering(request.Operands[0].Span, request.Operands[^1].Span),
            AskedPart.Operand => request.Operands[finding.Index].Span,
            AskedPart.Part => request[Option.Part]?.Span ?? request.Whole,
            AskedPart.Resume => request[Option.Resume]?.Span ?? request.Whole,
            AskedPart.LeftOut => request[Option.LeaveOut]?.Span ?? request.Whole,
            AskedPart.Only => Within(finding.Diagnostic.Span, request[Option.Only]) ?? request.Whole,
            AskedPart.Showing => Within(finding.Diagnostic.Span, request[Option.Showing]) ?? request.Whole,
            AskedPart.Invariant => Within(finding.Diagnostic.Span, request[Option.Proposed])
                ?? request[Option.Invariant]?.Span
                ?? request.Whole,
            AskedPart.Exposing => request[Option.Exposing]?.Span ?? request.Whole,
            AskedPart.Got => request[Option.Got]?.Span ?? request.Whole,
            AskedPart.Table => request[Option.Table]?.Span ?? request.Whole,
            AskedPart.Adders => request[Option.Adder]?.Span ?? request.Whole,
            AskedPart.Clock => request[Option.Clock]?.Span ?? request.Whole,
            AskedPart.View => request.View?.Span ?? request.Whole,
            AskedPart.Cycle => request[Option.Cycle]?.Span ?? request.Whole,
            AskedPart.From => request[Option.From]?.Span ?? request.Whole,
            AskedPart.To => request[Option.To]?.Span ?? request.Whole,
        };

    /// <summary>A place in the text of an option's value, as one in the request.</summary>
    private static Span? Within(Span place, RequestWord? word) =>
        word is { Span.Start: var start } ? new Span(start + place.Start, start + place.End) : null;

    /// <summary>The word that names one of the question's machines.</summary>
    public static RequestWord? Machine(int index, Request request) =>
        index < request.Machines.Count ? request.Machines[index] : request.Machine;

    /// <summary>Whether it is about a text of its own, of which everything that is wrong is said.</summary>
    public static bool HasText(Finding finding) => finding.Part is AskedPart.Description or AskedPart.Style;

    /// <summary>A description's faults keep their place in its text.</summary>
    public static Diagnostic Placed(Finding finding, Request request)
    {
        var worded = finding.Diagnostic with
        {
            Facts = [.. finding.Diagnostic.Facts.Select(f => new Fact(f.Name, Worded(f.Value, request)))],
        };
        return HasText(finding) ? worded : worded with { Source = request.Line, Span = Place(finding, request) };
    }

    /// <summary>Puts what is wrong with the question into the request's report.</summary>
    public static void Report(IEnumerable<Finding> findings, Request request) =>
        request.Report.AddRange(findings.Select(f => Placed(f, request)));

    private static object Worded(object fact, Request request) =>
        fact switch
        {
            Advice advice => Worded(advice, request),
            // Parts are added up from files, which lessons have none of.
            IReadOnlyList<Advice> several => (IReadOnlyList<Term>)
                [
                    .. several
                        .Where(a => a.Kind != AdviceKind.Parts || request.Defaults is null)
                        .Select(a => Worded(a, request)),
                ],
            AskedWord word => Named(word),
            Term term => new Term(term.Key, [.. term.Facts.Select(f => new Fact(f.Name, Worded(f.Value, request)))]),
            _ => fact,
        };

    private static string Named(AskedWord word) =>
        word switch
        {
            AskedWord.Width => Option.Width.Name,
            AskedWord.From => Option.From.Name,
            AskedWord.To => Option.To.Name,
            AskedWord.Anyway => Option.Anyway.Name,
            AskedWord.Check => "\"reckoner check\"",
            AskedWord.Prove => "\"reckoner prove\"",
        };

    /// <summary>As options of ours.</summary>
    private static Term Worded(Advice advice, Request request) =>
        advice.Kind switch
        {
            AdviceKind.Widths => new Term("advice.option-width", ("width", $"{advice.Widths[0].Value}")),
            AdviceKind.OtherMachine => new Term("advice.other-machine"),
            AdviceKind.Narrower => new Term("advice.option-narrower"),
            AdviceKind.Sample => new Term("advice.option-sample", ("count", Plain(advice.Count))),
            AdviceKind.Prove => new Term("advice.option-prove", ("machine", Proved(request))),
            AdviceKind.Parts => new Term("advice.option-parts", ("of", Plain(advice.Count))),
            AdviceKind.NameOperands => new Term(
                "advice.option-operands",
                ("asked", Asked(request, advice.Operands.Machine)),
                ("operands", string.Join(' ', advice.Operands.Names.Select(n => n + "=…")))
            ),
        };

    /// <summary>The first machine, with its slip: as it is to be typed.</summary>
    private static string Proved(Request request) =>
        Machine(0, request) is not { } machine ? ""
        : request.SlipOf(machine) is { } slip ? $"{Typed(machine.Text)} {Option.Slip.Name} {Typed(slip.Text)}"
        : Typed(machine.Text);

    /// <summary>A word as a shell takes it for one: in quotes where it has a blank, or what means something to a shell.</summary>
    private static string Typed(string word) =>
        word.All(c => char.IsLetterOrDigit(c) || "._-/\\:+,=@%".Contains(c, StringComparison.Ordinal)) ? word
        : word.AsSpan().ContainsAny("\"$`!") ? $"'{word}'"
        : $"\"{word}\"";

    /// <summary>The request up to its operands: of a verb that takes several words before them, these as they were typed.</summary>
    private static string Asked(Request request, string machine) =>
        request is { Verb: { TakesMachines: true, Name: var verb }, Defaults: null }
            ? string.Join(
                ' ',
                request.Machines.Select(m => m.Text).Prepend(verb).Prepend("reckoner").Concat([.. View(request)])
            )
            : $"reckoner {request.Verb?.Name ?? "walk"} {machine}";

    private static IEnumerable<string> View(Request request) => request.View is { } view ? [view.Text] : [];

    /// <summary>As it is typed, without groups.</summary>
    private static string Plain(int number) => number.ToString(CultureInfo.InvariantCulture);
}
