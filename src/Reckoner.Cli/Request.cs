using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>What was asked, word by word, each with its place in the command line for diagnostics.</summary>
internal sealed class Request
{
    private readonly Dictionary<Option, RequestWord> options = [];
    private readonly List<RequestWord> operands = [];
    private readonly List<RequestWord> machines = [];
    private readonly Dictionary<int, RequestWord> slips = [];

    private readonly IReadOnlyList<Verb> verbs;

    private Request(Source line, Span whole, IReadOnlyList<Verb> verbs)
    {
        Line = line;
        Whole = whole;
        this.verbs = verbs;
        Report = new Report(line);
    }

    /// <summary>The command line as one text, or the lesson in which the request stands.</summary>
    public Source Line { get; }

    /// <summary>What is said at the top of a lesson for all its requests; null on the command line.</summary>
    public RequestDefaults? Defaults { get; private init; }

    /// <summary>The folder that files are named from.</summary>
    public string Folder => Defaults?.Folder ?? "";

    /// <summary>What is wrong with it.</summary>
    public Report Report { get; }

    public Verb? Verb { get; private set; }

    public RequestWord? Machine { get; private set; }

    /// <summary>How a figure is to look at its machine.</summary>
    public RequestWord? View { get; private set; }

    public IReadOnlyList<RequestWord> Operands => operands;

    /// <summary>The machines of a verb that takes several; all of them stand before the operands.</summary>
    public IReadOnlyList<RequestWord> Machines => machines;

    /// <summary>The slip that is asked for of a machine: where there are several, the one behind it.</summary>
    public RequestWord? SlipOf(RequestWord machine) =>
        slips.TryGetValue(machine.Span.Start, out var slip) ? slip
        : machine == Machine ? this[Option.Slip]
        : null;

    /// <summary>The whole line, for what is missing.</summary>
    public Span Whole { get; }

    /// <summary>The file that a verb works on.</summary>
    public RequestWord? File { get; private set; }

    /// <summary>What is to be explained.</summary>
    public RequestWord? Topic { get; private set; }

    public bool Has(Option option) => options.ContainsKey(option);

    public RequestWord? this[Option option] => options.TryGetValue(option, out var value) ? value : null;

    public bool IsJson => AskedForm.Of(this) == "json";

    public static Request Read(IReadOnlyList<string> arguments)
    {
        var words = new List<RequestWord>();
        var text = "reckoner";
        foreach (var argument in arguments)
        {
            text += " ";
            words.Add(new RequestWord(argument, new Span(text.Length, text.Length + argument.Length)));
            text += IsOneLine(argument) ? argument : argument.ReplaceLineEndings(" ");
        }
        var line = new Source("", text) { IsRequest = true };
        var request = new Request(line, new Span(0, text.Length), Verb.All);
        request.Read(words);
        return request;
    }

    /// <summary>Whether it certainly is: what looks for every end of a line makes itself ready for longer than a request is read.</summary>
    private static bool IsOneLine(string argument)
    {
        foreach (var letter in argument)
        {
            if (letter is < ' ' or > '~')
            {
                return false;
            }
        }
        return true;
    }

    /// <summary>A request of a lesson: a line of the same words, where what it leaves out is what the lesson says at its top.</summary>
    public static Request Read(Source lesson, Span line, IReadOnlyList<RequestWord> words, RequestDefaults defaults)
    {
        var request = new Request(lesson, line, defaults.Verbs) { Defaults = defaults };
        request.Read([.. words]);
        return request;
    }

    /// <summary>What a lesson asks without words for it: a verb of a machine, the rest as it is said at the top.</summary>
    /// <param name="machine">Null for the lesson's own.</param>
    public static Request Of(string verb, RequestWord? machine, Source lesson, Span place, RequestDefaults defaults)
    {
        var request = new Request(lesson, place, defaults.Verbs)
        {
            Defaults = defaults,
            Verb = defaults.Verbs.First(v => v.Name == verb),
            Machine = machine,
        };
        request.Complete(defaults);
        return request;
    }

    private void Read(List<RequestWord> words)
    {
        var at = ReadVerb(words);
        // Files to add up, and codes, may stand on both sides of what says that they are some.
        var isList = words.Exists(w => w.Text == Option.AddUp.Name || w.Text == Option.Task.Name);
        while (at < words.Count)
        {
            var word = words[at++];
            if (word.Text == "--")
            {
                continue;
            }
            if (Verb is { TakesTopic: true } && Topic is null && at == words.Count && IsExplained(word.Text))
            {
                Topic = word;
            }
            else if (IsOption(word.Text))
            {
                ReadOption(word, words, ref at);
            }
            else if (Verb is { TakesTopic: true } && Topic is null)
            {
                Topic = word;
            }
            else if (isList && Verb is { MayLackMachine: true })
            {
                operands.Add(word);
            }
            else if (Verb is { TakesFile: true } && File is null)
            {
                File = word;
            }
            else if (Verb is { TakesMachine: true } && Machine is null && !MayBeLeftOutFor(word))
            {
                Machine = word;
                machines.Add(word);
            }
            else if (Verb is { TakesMachines: true } && operands.Count == 0 && !IsOperand(word.Text))
            {
                machines.Add(word);
            }
            else if (Verb is { TakesOperands: true } || isList)
            {
                operands.Add(word);
            }
            else if (Verb is not null)
            {
                Report.Add(
                    Id.WordTooMany,
                    word.Span,
                    ("word", word.Text),
                    ("usage", Defaults is null ? Usage(Verb) : Words(Verb))
                );
            }
        }
        if (Verb is { TakesView: true })
        {
            TakeView();
        }
        // The bare command asks for help.
        if (Report.Count > 0 || Has(Option.Help) || Has(Option.Version) || (words.Count == 0 && Defaults is null))
        {
            return;
        }
        Complete(Defaults);
        foreach (var word in operands.Concat(machines.Where(m => !MachineFiles.IsFile(m.Text))))
        {
            Report.AddHidden(Line.Text, word.Span);
        }
    }

    /// <summary>Whether it is an option that help is asked about, and not one for help itself.</summary>
    private static bool IsExplained(string word) =>
        word != Option.Help.Name && Verb.All.SelectMany(v => v.Options).Any(o => o.Name == word || o.Short == word);

    /// <summary>Fills in what the request leaves out, and says what is missing then.</summary>
    private void Complete(RequestDefaults? defaults)
    {
        if (defaults is not null)
        {
            FillIn(defaults);
        }
        if (Verb is null)
        {
            Report.Add(Id.VerbMissing, Whole, ("verbs", VerbNames));
        }
        else if (
            Verb is { TakesMachine: true, MayLackMachine: false }
            && string.IsNullOrEmpty(Machine?.Text)
            && !Has(Option.AddUp)
        )
        {
            Report.Add(Id.MachineMissing, Whole, ("verb", Verb.Name));
        }
        else if (Verb is { TakesFile: true, TakesMachine: false } && string.IsNullOrEmpty(File?.Text))
        {
            Report.Add(Id.LessonMissing, Whole);
        }
    }

    /// <summary>
    /// The last word in front of the operands is the view, or the first where that alone is one; a slip behind it is the last machine's.
    /// </summary>
    private void TakeView()
    {
        if (machines.Count < (Defaults is null ? 2 : 1))
        {
            return;
        }
        var place = !IsView(machines[^1]) && IsView(machines[0]) ? 0 : machines.Count - 1;
        var view = machines[place];
        View = view;
        machines.RemoveAt(place);
        Machine = machines.Count > 0 ? machines[0] : null;
        if (!slips.Remove(view.Span.Start, out var slip))
        {
            return;
        }
        var isNew =
            machines.Count > 0 ? slips.TryAdd(machines[^1].Span.Start, slip) : options.TryAdd(Option.Slip, slip);
        if (!isNew)
        {
            Report.Add(Id.OptionTwice, slip.Span, ("option", Option.Slip.Name));
        }
    }

    private static bool IsView(RequestWord word) => Drawing.View.All.Any(v => v.Name == word.Text);

    /// <summary>Where a machine may be left out, a number or name=value in its place is an operand already.</summary>
    private bool MayBeLeftOutFor(RequestWord word) =>
        Defaults is not null
        && (OperandReader.Number(word.Text) is not null || word.Text.IndexOf('=', StringComparison.Ordinal) > 0);

    private void FillIn(RequestDefaults defaults)
    {
        Machine ??= defaults.Machine;
        if (defaults.Width is { } width && Verb?.Options.Contains(Option.Width) == true)
        {
            options.TryAdd(Option.Width, width);
        }
        if (Verb is { TakesMachine: true, TakesOperands: true } && operands.Count == 0)
        {
            operands.AddRange(defaults.Operands);
        }
    }

    public static string Usage(Verb verb) => $"reckoner {Words(verb)}";

    /// <summary>As in a lesson, which does not name the program.</summary>
    private static string Words(Verb verb) => $"{verb.Name} {verb.Usage}".TrimEnd();

    /// <summary>A number, or a name, an equals sign and a value.</summary>
    private static bool IsOperand(string word) =>
        OperandReader.Number(word) is not null || word.IndexOf('=', StringComparison.Ordinal) > 0;

    /// <summary>A sign before a digit begins a number, or what was to be one, not an option.</summary>
    private static bool IsOption(string word) => word.StartsWith('-') && word.Length > 1 && !char.IsAsciiDigit(word[1]);

    private List<string> VerbNames => [.. verbs.Select(v => v.Name)];

    private int ReadVerb(List<RequestWord> words)
    {
        if (words.Count == 0 || IsOption(words[0].Text))
        {
            return 0;
        }
        Verb = verbs.FirstOrDefault(v => v.Name == words[0].Text);
        if (Verb is null)
        {
            Report.Add(
                Defaults is null ? Id.UnknownVerb : Id.LessonRequest,
                words[0].Span,
                ("word", words[0].Text),
                ("verbs", VerbNames),
                ("near", NearNames.Of(words[0].Text, VerbNames))
            );
        }
        return 1;
    }

    private void ReadOption(RequestWord word, List<RequestWord> words, ref int at)
    {
        // --width=8 says the same as --width 8.
        var equals = word.Text.StartsWith("--", StringComparison.Ordinal)
            ? word.Text.IndexOf('=', StringComparison.Ordinal)
            : -1;
        var name = equals > 0 ? word.Text[..equals] : word.Text;
        var known = Verb is null ? verbs.SelectMany(v => v.Options).Distinct().ToList() : [.. Verb.Options];
        var option = known.Find(o => o.Name == name || o.Short == name);
        if (option is null)
        {
            ReportUnknown(word, name, known);
            if (equals < 0 && at < words.Count && !IsOption(words[at].Text))
            {
                // Probably its value, and no slip of its own.
                at++;
            }
            return;
        }
        if (equals > 0 && !option.TakesValue)
        {
            var extra = new Span(word.Span.Start + equals, word.Span.End);
            Report.Add(Id.WordTooMany, extra, ("word", word.Text[equals..]), ("usage", name));
            return;
        }
        var value = word;
        if (equals > 0)
        {
            value = new RequestWord(word.Text[(equals + 1)..], new Span(word.Span.Start + equals + 1, word.Span.End));
        }
        else if (option.TakesValue)
        {
            // A formula may begin with a sign; no option has blanks in it.
            if (
                at >= words.Count
                || (IsOption(words[at].Text) && !words[at].Text.Contains(' ', StringComparison.Ordinal))
            )
            {
                Report.Add(Id.OptionValueMissing, word.Span, ("option", name), ("example", option.Example!));
                return;
            }
            value = words[at++];
        }
        if (option.TakesValue && value.Text.Length == 0)
        {
            Report.Add(Id.OptionValueMissing, word.Span, ("option", name), ("example", option.Example!));
            return;
        }
        var isNew =
            option == Option.Slip && Verb is { TakesMachines: true } && machines.Count > 0
                ? slips.TryAdd(machines[^1].Span.Start, value)
                : options.TryAdd(option, value);
        if (!isNew)
        {
            Report.Add(Id.OptionTwice, word.Span, ("option", name));
        }
    }

    private void ReportUnknown(RequestWord word, string name, List<Option> known)
    {
        if (Verb is null && Report.Count > 0)
        {
            return;
        }
        var names = known.Select(o => o.Name).ToList();
        var elsewhere = Verb.All.Any(v => v.Options.Any(o => o.Name == name));
        Report.Add(
            elsewhere ? Id.OptionElsewhere : Id.UnknownOption,
            word.Span,
            ("option", name),
            ("verb", Verb?.Name ?? "reckoner"),
            ("options", names),
            ("near", NearNames.Of(name, names))
        );
    }
}
