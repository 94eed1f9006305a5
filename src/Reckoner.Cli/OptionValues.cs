using Reckoner.Choosing;
using Reckoner.Costing;
using Reckoner.Drawing;
using Reckoner.Hdl;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Slips;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>What may stand behind an option: of those that take one of a few words, or a piece of the machine.</summary>
internal static class OptionValues
{
    /// <summary>Nothing for those that take a number, a formula or a file.</summary>
    public static IEnumerable<Candidate> Of(Option option, Verb verb, Request asked, Vocabulary words) =>
        option == Option.Format ? Plain(verb.Formats)
        : option == Option.Slip ? Slips(asked, words)
        : option == Option.Exposing ? Slips(asked, words).Prepend(new Candidate(OperandsQuestion.EverySlip, ""))
        : option == Option.LeaveOut ? Pieces(asked)
        : option == Option.Style ? Plain([StyleFile.Without])
        : Plain(Closed(option));

    private static IEnumerable<string> Closed(Option option) =>
        option == Option.Language ? Vocabulary.Languages
        : option == Option.Adder ? Adders.All.Select(Adders.Name)
        : option == Option.Allow ? Shortcuts.All.Select(Shortcuts.Name)
        : option == Option.Scheme ? MarkFolder.SchemeNames
        : option == Option.Quiz ? QuizBuild.FormNames
        : option == Option.On ? CheckVerb.Processors
        : option == Option.Dump ? ShowVerb.Stages
        : option == Option.Ground ? Palette.All.Select(p => p.Name)
        : option == Option.Text ? Enum.GetNames<TextForm>().Select(f => f.ToLowerInvariant())
        : option == Option.Reasons ? Enum.GetNames<ReasonForm>().Select(f => f.ToLowerInvariant())
        : option == Option.Layout ? Enum.GetNames<HandLayout>().Select(l => l.ToLowerInvariant())
        : option == Option.Base ? Digits.Bases.Select(b => $"{b}")
        : option == Option.Size ? FigureTarget.Known
        : [];

    private static IEnumerable<Candidate> Plain(IEnumerable<string> texts) => texts.Select(t => new Candidate(t, ""));

    private static IEnumerable<Candidate> Slips(Request asked, Vocabulary words)
    {
        var last = asked.Machines.Count > 0 ? asked.Machines[^1] : asked.Machine;
        return last is { } word && Completing.MayRead(word) && Asking.Machine(asked, word)?.Bind().Data is { } datapath
            ? SlipStudy.Built(datapath).Select(b => new Candidate(b.Slip.Name, SlipText.Sentence(b.Slip, words)))
            : [];
    }

    private static IEnumerable<Candidate> Pieces(Request asked) =>
        asked.Machine is { } word && Completing.MayRead(word) && Asking.Machine(asked)?.Bind().Data is { } datapath
            ? Plain(HdlGap.Of(datapath).Select(g => g.Name))
            : [];
}
