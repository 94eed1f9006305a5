using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Words;

namespace Reckoner.Refining;

/// <summary>Reasons, titles and notes of versions in words; registers are called what the first version calls them.</summary>
internal static class ReasonWords
{
    /// <summary>
    /// The language that a machine's text is in: English where it says its title in the language asked for besides its own, else that.
    /// </summary>
    public static Vocabulary Own(IMachine machine, Vocabulary words) =>
        machine.Title?.Others.Any(o => o.Language == words.Language) == true ? Vocabulary.English : words;

    /// <summary>The other languages that it speaks and we do.</summary>
    private static IReadOnlyList<Vocabulary> Others(IMachine machine, Vocabulary own) =>
        [
            .. (machine.Title?.Others ?? [])
                .Where(o => o.Language != own.Language)
                .Select(o => Vocabulary.Of(o.Language))
                .OfType<Vocabulary>(),
        ];

    public static NewNames Names(IMachine machine, Vocabulary words)
    {
        var own = Own(machine, words);
        var others = Others(machine, own);
        return new(
            Name(w => w.Say("refine.name-sum")),
            Name(w => w.Say("refine.name-difference")),
            Name(w => w.Say("refine.name-carry")),
            Name(w => w.Say("refine.name-borrow")),
            Name(w => w.Say("refine.name-row")),
            Name(w => w.Say("refine.name-value")),
            Name(w => w.Say("refine.name-upper")),
            Name(w => w.Say("refine.name-lower")),
            Name(w => w.Say("refine.name-inner"))
        );

        Declared Name(Func<Vocabulary, string> said) =>
            Make.Declared(said(own)) with
            {
                Others = [.. others.Select(o => (o.Language, said(o)))],
            };
    }

    public static Content Of(Reason reason, Description first, Vocabulary words) =>
        words.Spell(Key(reason), [.. reason.Facts.Select(f => new Fact(f.Name, Fact(f.Value, first, words)))]);

    private static string Key(Reason reason) =>
        reason.Kind switch
        {
            ReasonKind.Reframed => "refine.reframed",
            ReasonKind.ReframedButLast => "refine.reframed-but-last",
            ReasonKind.BitsZero => "refine.bits-zero",
            ReasonKind.Wider => "refine.wider",
            ReasonKind.RegisterZero => "refine.register-zero",
            ReasonKind.SignsRepeated => "refine.signs-repeated",
            ReasonKind.StepsMerged => "refine.steps-merged",
            ReasonKind.Shared => "refine.shared",
            ReasonKind.SharedButLast => "refine.shared-but-last",
            ReasonKind.Rotated => "refine.rotated",
            ReasonKind.FirstKnown => "refine.first-known",
            ReasonKind.RoundLess => "refine.round-less",
            ReasonKind.Repeated => "refine.repeated",
            ReasonKind.FirstWired => "refine.first-wired",
            ReasonKind.LastWired => "refine.last-wired",
            ReasonKind.ZeroAtBegin => Ends(reason) switch
            {
                (true, false) => "refine.zero-at-begin-upper",
                (false, true) => "refine.zero-at-begin-lower",
                _ => "refine.zero-at-begin-both",
            },
            ReasonKind.BitUnused => reason.Facts.Any(f => f.Value is "upper")
                ? "refine.bit-unused-upper"
                : "refine.bit-unused-lower",
            ReasonKind.RegisterUnused => "refine.register-unused",
            ReasonKind.StopsEarly => "refine.stops-early",
        };

    /// <summary>At which ends of a register there are such bits.</summary>
    private static (bool Upper, bool Lower) Ends(Reason reason)
    {
        return (Is("upper"), Is("lower"));

        bool Is(string end) => reason.Facts.Any(f => f.Name == end && f.Value is Length length && length != 0);
    }

    private static object Fact(object fact, Description first, Vocabulary words) =>
        fact switch
        {
            RegisterNames names => (IReadOnlyList<string>)[.. names.Names.Select(n => Called(n, first, words))],
            Length length => Words.Run.Formula(length.ToString()),
            _ => fact,
        };

    private static string Called(string register, Description first, Vocabulary words) =>
        first.Declarations.OfType<RegisterLine>().FirstOrDefault(r => r.Name.Text == register)?.Phrase is { } phrase
            ? words.Say("refine.register", ("phrase", phrase.In(words.Language)), ("name", register))
            : register;

    public static string Move(MoveKind move, Vocabulary words) =>
        move switch
        {
            MoveKind.Reframe => words.Say("refine.move-reframe"),
            MoveKind.Narrow => words.Say("refine.move-narrow"),
            MoveKind.Merge => words.Say("refine.move-merge"),
            MoveKind.Share => words.Say("refine.move-share"),
            MoveKind.Drop => words.Say("refine.move-drop"),
            MoveKind.Cut => words.Say("refine.move-cut"),
            MoveKind.Skip => words.Say("refine.move-skip"),
        };

    /// <summary>The name of the moves in the JSON and in the names of versions.</summary>
    public static string Name(MoveKind move) => move.ToString().ToLowerInvariant();

    /// <summary>
    /// A version as a description of its own that follows the first one: titled and noted in the language of that one's text, and in
    /// the others that it speaks.
    /// </summary>
    /// <param name="notes">Besides its reasons.</param>
    public static Description Described(
        Version version,
        IMachine first,
        int number,
        IReadOnlyList<Func<Vocabulary, string>> notes,
        Vocabulary words
    )
    {
        var (draft, steps) = (version.Draft, version.Steps);
        var own = Own(first, words);
        var others = Others(first, own);
        var lines = new List<Declaration>
        {
            new TitleLine(default, Comments.None, Phrased(w => Titled(first, steps, w))),
        };
        if (first.Slip is null)
        {
            // With a slip it is another machine under the same name, which nobody would find.
            lines.Add(new FollowsLine(default, Comments.None, Make.Declared(first.Name)));
        }
        foreach (var step in steps.Where(s => s.Reasons.Count > 0))
        {
            lines.Add(
                new NoteLine(
                    default,
                    Comments.None,
                    Phrased(w => string.Join(' ', step.Reasons.Select(r => Of(r, first.Description, w).ToString())))
                )
            );
        }
        lines.AddRange(notes.Select(n => new NoteLine(default, Comments.None, Phrased(n))));
        return draft.Described(new MachineLine(default, Comments.None, Make.Declared($"{first.Name}-{number}")), lines);

        Phrase Phrased(Func<Vocabulary, string> said) =>
            new(default, Quoted(said(own)), [.. others.Select(o => (o.Language, Quoted(said(o))))]);
    }

    /// <summary>What is known of the widths at which not every operand was run.</summary>
    public enum Rest
    {
        /// <summary>There are none.</summary>
        None,
        Open,

        /// <summary>The laws are proved there too.</summary>
        Proved,
    }

    /// <summary>Where every operand was run of what is made of a machine.</summary>
    public static string Run(
        IMachine first,
        IReadOnlyList<IReadOnlyList<(string Name, BigInteger Value)>> run,
        Rest rest,
        Vocabulary words
    ) =>
        words.Say(
            "refine.run-note",
            ("widths", Exhausted.Text(run)),
            ("machine", first.Slip is { } slip ? $"{first.Name} ({slip})" : first.Name)
        )
        + rest switch
        {
            Rest.None => "",
            Rest.Open => $" {words.Say("refine.no-proof")}",
            Rest.Proved => $" {words.Say("refine.proof")}",
        };

    private static string Quoted(string text) => text.Replace('"', '\'');

    /// <summary>What the first version is about, and what is otherwise in this one.</summary>
    private static string Titled(IMachine first, IReadOnlyList<RefiningStep> steps, Vocabulary words)
    {
        var title = first.Title?.In(words.Language) ?? first.Name;
        return words.Say(
            "refine.title",
            ("title", title.Split(':')[0]),
            ("moves", string.Join(", ", steps.Select(s => Move(s.Move, words)).Distinct()))
        );
    }
}
