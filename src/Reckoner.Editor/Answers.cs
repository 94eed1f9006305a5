using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Diagnostics;
using Reckoner.Editing;
using Reckoner.Notation;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Editor;

/// <summary>What an editor is answered about one document. Pure but for what a document reads when it is first looked at.</summary>
internal static class Answers
{
    /// <summary>So many bits of operands are tried while somebody waits for a word about a law.</summary>
    private const int MostTriedBits = 18;

    public static IReadOnlyList<Note> Notes(OpenDocument document, Vocabulary words) =>
        [.. document.Found.Where(d => d.Severity != Severity.Hint).Select(d => NoteOf(d, document, words)).Distinct()];

    private static Note NoteOf(Diagnostic diagnostic, OpenDocument document, Vocabulary words)
    {
        var message = HiddenCharacters.Dotted(string.Join(' ', DiagnosticText.Sentences(diagnostic, words)));
        var severity = diagnostic.Severity switch
        {
            Severity.Error => NoteSeverity.Error,
            Severity.Remark => NoteSeverity.Warning,
            Severity.Hint => NoteSeverity.Hint,
        };
        // What is wrong in a machine that it is built around stands where that is named.
        var isHere = diagnostic.Source == document.Source;
        var core =
            document.Machine.Description.Declarations.OfType<CoreBlock>().FirstOrDefault()?.Machine.Span ?? default;
        var place = Places.Of(document.Source, isHere ? diagnostic.Span : core);
        var where = isHere
            ? ""
            : words.Say("place.line", ("line", diagnostic.Line), ("source", diagnostic.Source?.Name ?? "")) + ": ";
        return new Note(place, severity, diagnostic.Id.Name, "reckoner", where + message);
    }

    public static IReadOnlyList<CodeAction> Cures(OpenDocument document, TextRange range, Desk desk)
    {
        var words = desk.Words;
        var source = document.Source;
        var (start, end) = (Places.At(source, range.Start), Places.At(source, range.End));
        return
        [
            .. from diagnostic in document.Found
            where diagnostic.Source == source && diagnostic.Span.Start <= end && start <= diagnostic.Span.End
            let cure = Cure.Of(diagnostic)
            where cure is not null
            let title = cure.Text.Length > 0
                ? words.Say("editor.cure", ("text", cure.Text))
                : words.Say("editor.cure-nothing")
            let edit = new TextEdit(Places.Of(source, cure.Place), cure.Text)
            select new CodeAction(
                title,
                "quickfix",
                [NoteOf(diagnostic, document, words)],
                desk.Edit([(document, [edit])]),
                true
            ),
        ];
    }

    public static async Task<Hover?> Hover(
        OpenDocument document,
        Position place,
        Vocabulary words,
        CancellationToken stop
    )
    {
        var position = Places.At(document.Source, place);
        var said = Explanation.At(document.Mentions, position, document.Datapath, words).ToList();
        if (said.Count == 0 && await Laws(document, position, words, stop) is { } verdict)
        {
            said.Add(verdict);
        }
        return said.Count == 0
            ? null
            : new Hover(new Markup("plaintext", HiddenCharacters.Dotted(string.Join("\n", said))));
    }

    /// <summary>Of a claim how many operands there are, and for how many the claims of its kind fail.</summary>
    private static async Task<string?> Laws(
        OpenDocument document,
        int position,
        Vocabulary words,
        CancellationToken stop
    )
    {
        var claim = document
            .Machine.Description.Declarations.OfType<ClaimLine>()
            .FirstOrDefault(c => c.Span.Start <= position && position <= c.Span.End);
        if (claim is null || document.Datapath is not { } datapath)
        {
            return null;
        }
        var widths = string.Join(", ", datapath.Widths.Select(w => $"{w.Name} = {w.Value}"));
        if (datapath.Operands.Sum(o => o.Width) > MostTriedBits)
        {
            return words.Say("editor.laws-too-many", ("widths", widths));
        }
        var clock = System.Diagnostics.Stopwatch.StartNew();
        var means = new Means(new InterpretedRunner(), () => clock.Elapsed) { Stop = stop };
        var answer = await new CheckQuestion(new AskedMachine(datapath)) { Averages = AveragesWish.WhereCheap }.Ask(
            means
        );
        stop.ThrowIfCancellationRequested();
        var wanted = claim.IsOutside ? CheckSection.Outside : CheckSection.Laws;
        return answer.Data?.Checks[0].Result.Sections.FirstOrDefault(s => s.Count.Section == wanted) is { } section
            ? words.Say(
                claim.IsOutside ? "editor.outside" : "editor.laws",
                ("widths", widths),
                ("cases", section.Count.Cases),
                ("failures", section.Count.Failures)
            )
            : null;
    }

    public static IReadOnlyList<CompletionItem> Completions(
        OpenDocument document,
        Position place,
        IEnumerable<string> beside,
        Vocabulary words
    )
    {
        var machines = beside.Concat(MachineCatalogue.Names).Where(m => m != document.Machine.Name).Distinct();
        return
        [
            .. Offers
                .At(document.Mentions, Places.At(document.Source, place), machines)
                .Select(o => new CompletionItem(o.Text, Kind(o), o.Named is { } n ? Detail(n, words) : null)),
        ];
    }

    private static CompletionKind Kind(Offer offer) =>
        offer.IsFunction ? CompletionKind.Function
        : offer.Named is null
            ? Keywords.All.Contains(offer.Text) ? CompletionKind.Keyword
                : CompletionKind.Module
        : offer.Named.Kind switch
        {
            NamedKind.Machine => CompletionKind.Module,
            NamedKind.Width or NamedKind.Parameter or NamedKind.Constant => CompletionKind.Constant,
            NamedKind.Register or NamedKind.Part => CompletionKind.Field,
            NamedKind.Unit => CompletionKind.Unit,
            NamedKind.Table or NamedKind.Formula => CompletionKind.Function,
            NamedKind.Operand
            or NamedKind.Meaning
            or NamedKind.Index
            or NamedKind.Step
            or NamedKind.Result
            or NamedKind.Wire => CompletionKind.Variable,
        };

    private static string Detail(Named named, Vocabulary words) =>
        named.Phrase is { } phrase ? $"{words.Say(named.Word)}, {phrase.In(words.Language)}" : words.Say(named.Word);

    /// <summary>The canonical layout; nothing where the text cannot be read or is laid out so already.</summary>
    public static IReadOnlyList<TextEdit> Formatted(OpenDocument document)
    {
        if (document.Machine.Found.Any(d => d.Source == document.Source && d.Severity == Severity.Error))
        {
            return [];
        }
        var text = Printer.Text(document.Machine.Description);
        return text == document.Source.Text ? [] : [new TextEdit(Places.Whole(document.Source), text)];
    }

    public static IReadOnlyList<DocumentSymbol> Symbols(OpenDocument document, Vocabulary words)
    {
        return [.. OutlineItem.Of(document.Mentions, words.Language).Select(Symbol)];

        DocumentSymbol Symbol(OutlineItem item) =>
            new(
                item.Named.Name,
                item.Said.Length > 0 ? item.Said : words.Say(item.Named.Word),
                SymbolOf(item.Named.Kind),
                Places.Of(document.Source, item.Whole),
                Places.Of(document.Source, item.Named.Place),
                [.. item.Inside.Select(Symbol)]
            );
    }

    private static SymbolKind SymbolOf(NamedKind kind) =>
        kind switch
        {
            NamedKind.Machine => SymbolKind.Module,
            NamedKind.Width or NamedKind.Parameter or NamedKind.Constant => SymbolKind.Constant,
            NamedKind.Operand or NamedKind.Index => SymbolKind.Parameter,
            NamedKind.Register => SymbolKind.Field,
            NamedKind.Part or NamedKind.Meaning => SymbolKind.Property,
            NamedKind.Unit or NamedKind.Formula => SymbolKind.Function,
            NamedKind.Table => SymbolKind.Array,
            NamedKind.Step => SymbolKind.Method,
            NamedKind.Result => SymbolKind.Event,
            NamedKind.Wire => SymbolKind.Variable,
        };

    public static IReadOnlyList<FoldingRange> Folding(OpenDocument document) =>
        [.. Folds.Of(document.Machine.Description).Select(f => new FoldingRange(f.First - 1, f.Last - 1))];
}
