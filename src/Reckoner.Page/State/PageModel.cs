using Reckoner.Diagnostics;
using Reckoner.Drawing;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Page.State;

/// <summary>Where a sheet and the looks are kept between visits.</summary>
public interface IKeeper
{
    void Keep(string fragment);

    void KeepLooks(string looks);
}

/// <summary>All that the page's components share: the desk, the looks, the verdict, what is folded out, and what may be done.</summary>
public sealed class PageModel : IDisposable
{
    /// <summary>So long after the last key all operands are asked.</summary>
    internal static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(250);

    private readonly IKeeper keeper;
    private readonly Func<TimeSpan> clock;
    private CancellationTokenSource judging = new();

    public PageModel(IKeeper keeper, ICheckRunner runner, Func<TimeSpan> clock, Sheet start, Looks looks)
    {
        (this.keeper, this.clock, Looks) = (keeper, clock, looks);
        Means = new Means(runner, clock);
        Desk = new Desk(start);
        Judgement = new Judgement(runner, clock);
        Shown = looks.Predicts ? 0 : Desk.LastMoment;
        Style = StyleOf(looks);
    }

    public event Action? Changed;

    /// <summary>What questions are answered with here.</summary>
    public Means Means { get; }

    public Desk Desk { get; }
    public Judgement Judgement { get; }
    public Looks Looks { get; private set; }
    public bool SystemIsDark { get; set; }

    /// <summary>Paper is light whatever the screen is.</summary>
    public bool IsOnPaper { get; set; }

    /// <summary>The house style of tables and of sums by hand.</summary>
    public HouseStyle Style { get; private set; }

    public Vocabulary Words => Looks.Words;
    public Palette Palette =>
        Looks.PaletteFor(SystemIsDark) is var palette && IsOnPaper && palette == Palette.Dark ? Palette.Light : palette;

    /// <summary>The drawer that is folded out; empty for none.</summary>
    public string Drawer { get; private set; } = "";

    /// <summary>Whether the page is being shown to a room: letters are keys then.</summary>
    public bool IsPresenting { get; private set; }

    /// <summary>Before the values are asked for, the last moment whose values are seen.</summary>
    public int Shown { get; private set; }

    /// <summary>A line of the description that was picked: the caret stands in it, or what it makes was pressed; 0 for none.</summary>
    public int Line { get; private set; }

    /// <summary>Whether a line of this moment was picked, or wrote the bit that was.</summary>
    public bool IsPicked(LineNote note) =>
        note.Line == Line || (Bit is { } bit && note.Writes.Any(w => w.Has(bit.Register, bit.Bit)));

    /// <summary>A register's bit that was picked.</summary>
    public (string Register, int Bit)? Bit { get; private set; }

    public string Fragment => State.Fragment.Of(Desk.Sheet);

    /// <summary>The values of the moment that is looked at are still covered.</summary>
    public bool IsCovered => Looks.Predicts && Shown < Desk.Moment;

    private void Tell() => Changed?.Invoke();

    private void Keep() => keeper.Keep(Fragment);

    // ---- what is on the sheet

    public void Type(string text) => Do(() => Desk.Type(text, clock()));

    public void SetOperand(int index, string typed) => Fill(Desk.Sheet.WithOperand(index, typed), judge: false);

    public void SetOperands(IEnumerable<string> typed) =>
        Do(() => Desk.Change(Desk.Sheet with { Operands = [.. typed] }, clock()), judge: false);

    public void SetWidth(string name, string typed) => Fill(Desk.Sheet.WithWidth(name, typed), judge: true);

    /// <summary>A book pasted into a field is refused: what no link holds would be lost at a reload.</summary>
    private void Fill(Sheet sheet, bool judge)
    {
        if (State.Fragment.Holds(sheet))
        {
            Do(() => Desk.Change(sheet, clock()), judge);
        }
        else
        {
            Refuse("page.field-too-long", ("limit", State.Fragment.LongestValue));
        }
    }

    public void Begin(Sheet sheet) => Do(() => Desk.Replace(sheet, clock()));

    public void PutBeside(string name) =>
        Do(() => Desk.Change(Desk.Sheet with { Beside = name }, clock()), judge: false, sums: true);

    /// <summary>Not while a task is done: nothing is changed then, and its code would be lost.</summary>
    public void Undo()
    {
        if (task is null)
        {
            Do(Desk.Undo);
        }
    }

    /// <inheritdoc cref="Undo"/>
    public void Redo()
    {
        if (task is null)
        {
            Do(Desk.Redo);
        }
    }

    /// <summary>A link or a file that cannot be used.</summary>
    public void Refuse(string key, params Fact[] facts)
    {
        Desk.Refuse(new Term(key, facts));
        Tell();
    }

    private void Do(Action change, bool judge = true, bool sums = false)
    {
        var walk = Desk.Walk;
        Parts = null;
        (Practice, task) = (null, null);
        change();
        if (Desk.Walk != walk)
        {
            Shown = Looks.Predicts ? 0 : Desk.LastMoment;
        }
        Keep();
        Tell();
        if (judge)
        {
            Judge();
        }
        if (judge || sums)
        {
            _ = CountSums(Pause);
        }
    }

    /// <summary>What the text costs as it stands, and what the versions cost that it is held against.</summary>
    public VersionSums Sums { get; } = new();

    private CancellationTokenSource counting = new();

    /// <summary>Counts once nothing was changed for a while.</summary>
    public async Task CountSums(TimeSpan pause)
    {
        await counting.CancelAsync();
        counting.Dispose();
        counting = new CancellationTokenSource();
        var stop = counting.Token;
        Sums.Age();
        try
        {
            await Task.Delay(pause, stop);
            if (Desk.Reading is { Datapath: { } own } reading)
            {
                await Sums.Run(
                    [own, .. reading.AtItsWidths(Machines.Versions(Desk.Sheet, reading.Machine))],
                    Tell,
                    stop
                );
            }
        }
        catch (OperationCanceledException) { }
    }

    /// <summary>Where the walk parts from the right one beside it, after the smallest was asked for; null once anything changed.</summary>
    internal Term? Parts { get; private set; }

    /// <summary>
    /// Walks the smallest operands that fail at the narrowest width at which any do, beside the right machine where there is one,
    /// and looks at the first row in which they part.
    /// </summary>
    public void WalkSmallest()
    {
        if (Judgement.Verdict is not { Smallest: { } smallest } verdict)
        {
            return;
        }
        var (datapath, operands) = Parting.Narrowest(Desk.Reading) ?? (verdict.Datapath, smallest.Operands);
        var sheet = Desk.Sheet with { Operands = [.. datapath.Operands.Zip(operands, (o, b) => $"{o.Number(b)}")] };
        foreach (var (name, value) in datapath.Widths)
        {
            sheet = sheet.WithWidth(name, $"{value}");
        }
        Do(() => Desk.Replace(sheet, clock()), judge: false);
        if (Machines.Before(sheet, Desk.Reading.Machine) is { } before && Desk.Walk is { } own)
        {
            Stand(before, own);
        }
    }

    /// <summary>Puts a machine beside that keeps the laws, and looks where the walks part.</summary>
    private void Stand(Datapaths.IMachine machine, Running.Walk own)
    {
        if (
            Catalogue.MachineCatalogue.Find(machine.Name) is null
            || Reading.Of(Desk.Sheet, machine).Walk is not { Holds: true } right
        )
        {
            return;
        }
        var (moment, said) = Parting.Of(own, right);
        Do(() => Desk.Change(Desk.Sheet with { Beside = machine.Name, Moment = moment }, clock()), judge: false);
        Parts = said;
        Tell();
    }

    // ---- where one looks

    public void LookAt(int moment)
    {
        Desk.LookAt(moment);
        if (!Looks.Predicts)
        {
            Shown = Desk.LastMoment;
        }
        Line = 0;
        Keep();
        Tell();
    }

    public void Step(int by) => LookAt(Desk.Moment + by);

    /// <summary>Where values are to be predicted, as a presenter's one key does it: shows them, then goes on.</summary>
    public void GoOn()
    {
        if (Looks.Predicts)
        {
            Reveal();
        }
        else
        {
            Step(1);
        }
    }

    /// <summary>Shows the covered values; where none are covered, goes on to the next moment.</summary>
    public void Reveal()
    {
        if (!IsCovered)
        {
            Step(1);
            return;
        }
        Shown = Desk.Moment;
        Tell();
    }

    public void Pick(string register, int bit)
    {
        Bit = Bit == (register, bit) ? null : (register, bit);
        Tell();
    }

    public void PickLine(int line)
    {
        if (Line != line)
        {
            Line = line;
            Tell();
        }
    }

    /// <summary>Reads the walk as another kind of figure; where there is none such of it, a sentence says what that needs.</summary>
    public void Look(View view)
    {
        if (Desk.Walk is { } walk && !view.Suits(walk))
        {
            Refuse("page.read-not", ("view", Views.Spoken(view, Words)));
            return;
        }
        Desk.Accept();
        Desk.Look(view.Name);
        Keep();
        Tell();
    }

    /// <summary>The next of the kinds of figures that there are of the walk.</summary>
    public void LookOn()
    {
        if (Desk.Walk is { } walk)
        {
            Look(Views.After(Views.Of(Desk.Sheet.View, walk), walk));
        }
    }

    public void Fold(string drawer)
    {
        Drawer = Drawer == drawer ? "" : drawer;
        Tell();
    }

    public void Look(Looks looks)
    {
        if (looks.Predicts != Looks.Predicts)
        {
            Shown = looks.Predicts ? Desk.Moment : Desk.LastMoment;
        }
        Looks = looks;
        Style = StyleOf(looks);
        keeper.KeepLooks(looks.Kept());
        Tell();
    }

    /// <summary>What is drawn of the moment that is looked at, and what the house style asks for that the machine has not: then it is drawn without.</summary>
    public (View View, Figure Figure, IReadOnlyList<Diagnostic> Lacks) Drawn(Running.Walk walk)
    {
        var view = Views.Of(Desk.Sheet.View, walk);
        var figure = Views.Figure(view, walk, Desk.Moment, Looks, Style, Shown);
        var lacks = view.Lacks(figure);
        return (view, lacks.Count == 0 ? figure : figure with { Style = HouseStyle.None }, lacks);
    }

    private static HouseStyle StyleOf(Looks looks) =>
        looks.StyleText.Length > 0
            ? StyleReader.Read(new Source("house.style", looks.StyleText)).Style ?? HouseStyle.None
            : HouseStyle.None;

    /// <summary>A house style from a file; a wrong one is refused with the first thing that is wrong in it.</summary>
    public void UseStyle(string file, string text)
    {
        if (text.Length > Looks.LongestStyle)
        {
            Refuse("page.style-too-long", ("file", file), ("limit", Looks.LongestStyle));
            return;
        }
        var (style, found) = StyleReader.Read(new Source(file, text));
        if (style is null)
        {
            var said = string.Join(' ', DiagnosticText.Sentences(found[0], Words));
            Refuse("page.style-wrong", ("file", file), ("line", found[0].Line), ("said", said));
            return;
        }
        Desk.Accept();
        Look(Looks with { StyleText = text, Language = style.Language ?? Looks.Language });
    }

    public void Present(bool on)
    {
        IsPresenting = on;
        Drawer = on ? "" : Drawer;
        Tell();
    }

    // ---- worked out by the visitor

    /// <summary>The walk that the visitor works out; null while the page shows it.</summary>
    internal Practice? Practice { get; private set; }

    /// <summary>Puts the cycles behind a moment to the visitor.</summary>
    public void Work(int from)
    {
        if (Desk.Walk is { } walk)
        {
            Drawer = "";
            Practice = new Practice(walk, Classroom.SittingRules.Usual, Math.Min(from, walk.Cycles - 1));
            Tell();
        }
    }

    private TaskDesk? task;

    /// <summary>The task that the sheet sets; null where it sets none, or its machine is wrong.</summary>
    internal TaskDesk? Assigned =>
        Desk.Sheet.Task is { } set && Desk.Reading.Datapath is { } datapath
            ? task ??= new TaskDesk(new Classroom.AssignedSums(datapath, set))
            : null;

    /// <summary>Begins the first sum; else the key of what is wrong with the number.</summary>
    internal string? BeginTask(string number)
    {
        var wrong = Assigned?.Begin(number);
        if (wrong is null)
        {
            Practice = Assigned?.Put();
            Tell();
        }
        return wrong;
    }

    /// <summary>Takes down the sum that is done, and puts the next; after the last there is the code.</summary>
    internal void NextSum()
    {
        if (Assigned is { } begun && Practice?.Report is { } report)
        {
            begun.Finish(report, Practice.Sitting.Walk.Cycles);
            Practice = begun.Code is null ? begun.Put() : null;
            Tell();
        }
    }

    /// <summary>The machine of the task, as any other.</summary>
    public void LeaveTask() => Begin(Desk.Sheet with { Task = null });

    internal void Practise(Action<Practice> act)
    {
        if (Practice is { } practice)
        {
            act(practice);
            Tell();
        }
    }

    public void LeaveWork()
    {
        Practice = null;
        Tell();
    }

    // ---- the verdict

    public void Judge() => _ = Judge(Pause);

    /// <summary>Asks all operands once nothing was changed for a while.</summary>
    public async Task Judge(TimeSpan pause)
    {
        var stop = Restart();
        Judgement.Age();
        try
        {
            await Task.Delay(pause, stop);
            if (Desk.Reading is { Datapath: not null } reading)
            {
                await Judgement.Run(reading, Machines.Before(Desk.Sheet, reading.Machine), Tell, stop);
            }
        }
        catch (OperationCanceledException) { }
    }

    /// <summary>Every operand at the width on the screen.</summary>
    public async Task JudgeAll()
    {
        if (Desk.Reading is { Datapath: { } datapath } reading)
        {
            var before = Machines.Before(Desk.Sheet, reading.Machine);
            foreach (var finding in await Judgement.RunAll(datapath, before, Tell, Restart()))
            {
                Refuse($"diagnostic.{finding.Diagnostic.Id}", [.. finding.Diagnostic.Facts]);
            }
        }
    }

    public void StopJudging() => Restart();

    private CancellationToken Restart()
    {
        judging.Cancel();
        judging.Dispose();
        judging = new CancellationTokenSource();
        return judging.Token;
    }

    public void Dispose()
    {
        judging.Cancel();
        judging.Dispose();
        counting.Cancel();
        counting.Dispose();
    }
}
