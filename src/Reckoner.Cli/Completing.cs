using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Drawing;
using Reckoner.Notation;
using Reckoner.Running;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>A word with which a line may go on, and what it is; nothing is said of what explains itself.</summary>
internal readonly record struct Candidate(string Text, string Said);

/// <summary>
/// How the last word of a line may go on, from the tables of verbs, options, machines, slips and views. Where a file may stand none
/// is given: shells find those themselves.
/// </summary>
internal static class Completing
{
    /// <param name="line">What is typed up to the cursor, the program's name in front.</param>
    public static IReadOnlyList<Candidate> Of(string line, Vocabulary words)
    {
        var typed = ShellWords.Of(line).Skip(1).ToList();
        if (typed.Count == 0)
        {
            return [];
        }
        var begun = typed[^1];
        typed.RemoveAt(typed.Count - 1);
        return
        [
            .. All(typed, begun, words)
                .Where(c => c.Text.StartsWith(begun, StringComparison.Ordinal) && c.Text.All(IsPlain)),
        ];
    }

    /// <summary>Shells put what is offered into the line as it is, so nothing is that means something to one of them.</summary>
    private static bool IsPlain(char c) => char.IsLetterOrDigit(c) || "-_=:.,+/".Contains(c, StringComparison.Ordinal);

    /// <summary>Whoever presses a key waits for no pipe and no device: of files only those that end are read.</summary>
    public static bool MayRead(RequestWord machine) =>
        !MachineFiles.IsFile(machine.Text) || PlainFile.HasLength(machine.Text);

    private static IEnumerable<Candidate> All(List<string> typed, string begun, Vocabulary words)
    {
        if (typed.Count == 0)
        {
            return begun.StartsWith('-')
                ? Options([Option.Help, Option.Version], words)
                : Verb.All.Select(v => new Candidate(v.Name, words.Say($"help.{v.Name}.short")));
        }
        if (Verb.All.FirstOrDefault(v => v.Name == typed[0]) is not { } verb)
        {
            return [];
        }
        var asked = Request.Read(typed);
        var equals = begun.StartsWith("--", StringComparison.Ordinal)
            ? begun.IndexOf('=', StringComparison.Ordinal)
            : -1;
        if (equals > 0)
        {
            var named = begun[..equals];
            return verb.Options.FirstOrDefault(o => o.Name == named) is { } option
                ? OptionValues.Of(option, verb, asked, words).Select(c => c with { Text = $"{named}={c.Text}" })
                : [];
        }
        if (
            verb.Options.FirstOrDefault(o => o.TakesValue && (o.Name == typed[^1] || o.Short == typed[^1])) is
            { } before
        )
        {
            return OptionValues.Of(before, verb, asked, words);
        }
        return begun.StartsWith('-')
            ? Options(verb.Options.Where(o => !asked.Has(o)), words)
            : Subjects(verb, asked, words);
    }

    private static IEnumerable<Candidate> Options(IEnumerable<Option> options, Vocabulary words) =>
        options.Select(o => new Candidate(o.Name, words.Say($"help.option.{o.Word}")));

    /// <summary>What stands behind a verb that is no option.</summary>
    private static IEnumerable<Candidate> Subjects(Verb verb, Request asked, Vocabulary words)
    {
        if (verb.TakesTopic && asked.Topic is null)
        {
            return verb.Own.Contains(Option.Line)
                ? ShellScript.All.Select(s => new Candidate(s.Name, ""))
                : HelpTopic.Words.Select(w => new Candidate(w, ""));
        }
        // The first word of these is a file.
        if (!verb.TakesMachine || (verb.TakesFile && asked.File is null))
        {
            return [];
        }
        var isFirst = asked.Machine is null;
        var machines = isFirst || (verb.TakesMachines && asked.Operands.Count == 0) ? Machines(words) : [];
        var views =
            verb.TakesView && !isFirst && asked.View is null ? View.All.Select(v => new Candidate(v.Name, "")) : [];
        var operands = verb.TakesOperands && !isFirst ? Operands(asked, words) : [];
        return machines.Concat(views).Concat(operands);
    }

    private static IEnumerable<Candidate> Machines(Vocabulary words) =>
        MachineCatalogue
            .Entries.Select(e => Parser.Read(e.Source).Description)
            .Select(d => new Candidate(
                d.Name,
                d.Declarations.OfType<TitleLine>().FirstOrDefault()?.Title.In(words.Language) ?? ""
            ));

    private static IEnumerable<Candidate> Operands(Request asked, Vocabulary words)
    {
        var word = asked.Machine!;
        if (!MayRead(word) || MachineFiles.Read(asked, word) is not { } machine)
        {
            return [];
        }
        var given = asked.Operands.Select(o => o.Text.Split('=')[0]).ToHashSet();
        return OperandLines(machine)
            .Where(o => !given.Contains(o.Name.Text))
            .Select(o => new Candidate($"{o.Name.Text}=", o.Phrase?.In(words.Language) ?? ""));
    }

    private static IEnumerable<OperandLine> OperandLines(Machine machine) =>
        machine.Description.Declarations.OfType<OperandLine>();
}
