using System.Diagnostics;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.JSInterop;
using Reckoner.Page.State;
using Reckoner.Words;

namespace Reckoner.Page;

/// <summary>Joins the page to the browser: what it finds when it opens, keys, links, files.</summary>
public sealed partial class App : IDisposable
{
    private readonly Stopwatch clock = Stopwatch.StartNew();
    private DotNetObjectReference<App>? self;
    private PageModel? model;
    private ErrorBoundary? boundary;

    protected override async Task OnInitializedAsync()
    {
        self = DotNetObjectReference.Create(this);
        var found = Browser.Open(self);
        var linked = Fragment.Read(found.Fragment);
        var start = Fragment.Read(Vocabulary.English.Say("page.start"))!;
        model = new PageModel(
            Browser,
            Browser,
            () => clock.Elapsed,
            linked ?? Fragment.Read(found.Kept) ?? start,
            Looks.Read(found.Looks)
        )
        {
            SystemIsDark = found.IsDark,
        };
        if (linked is null && found.Fragment.Length > 0)
        {
            model.Refuse("page.link-unreadable");
        }
        model.Changed += Dress;
        Dress();
        await Browser.LoadFonts();
        // All operands after the first picture: who opens the page steps as soon as there is something to step through.
        model.Judge();
        _ = model.CountSums(PageModel.Pause);
    }

    private void Dress() =>
        Browser.Dress(model!.Palette.Name, model.Looks.IsLarge, model.IsPresenting, model.Words.Language);

    private void Recover()
    {
        model!.Undo();
        boundary?.Recover();
    }

    [JSInvokable]
    public void SystemGround(bool isDark)
    {
        model!.SystemIsDark = isDark;
        model.Look(model.Looks);
    }

    /// <summary>What is on the screen is being printed, or no more.</summary>
    [JSInvokable]
    public void OnPaper(bool isOnPaper)
    {
        model!.IsOnPaper = isOnPaper;
        model.Look(model.Looks);
    }

    /// <summary>Another link was opened in the same page.</summary>
    [JSInvokable]
    public void Linked(string fragment)
    {
        if (Fragment.Read(fragment) is { } sheet)
        {
            model!.Begin(sheet);
        }
        else
        {
            model!.Refuse("page.link-unreadable");
            Browser.Keep(model.Fragment);
        }
    }

    /// <summary>A file was chosen or dropped.</summary>
    [JSInvokable]
    public void Opened(string name, double size, byte[] bytes)
    {
        if (size > bytes.Length)
        {
            model!.Refuse("page.file-too-long", ("file", name), ("limit", bytes.Length));
        }
        else if (TextBytes.Decoded(bytes) is not { } text)
        {
            model!.Refuse("page.file-no-text", ("file", name));
        }
        else if (name.EndsWith(".style", StringComparison.OrdinalIgnoreCase))
        {
            model!.UseStyle(name, text);
        }
        else
        {
            model!.Begin(Sheet.Empty with { Text = text });
        }
    }

    [JSInvokable]
    public void Picked(int cycle, string register, int bit)
    {
        model!.LookAt(cycle);
        if (bit >= 0)
        {
            model.Pick(register, bit);
        }
    }

    /// <summary>A line of the description was picked in a figure.</summary>
    [JSInvokable]
    public void PickedLine(int line) => model!.PickLine(line);

    /// <summary>The caret stands in a line of the open text.</summary>
    /// <param name="row">Counted from 0 in what is open.</param>
    [JSInvokable]
    public void CaretAt(int row) => model!.PickLine(model.Desk.Open.FirstLine + row);

    [JSInvokable]
    public void FullChanged(bool isFull)
    {
        if (!isFull && model!.IsPresenting)
        {
            model.Present(false);
        }
    }

    /// <summary>A key that is the page's, not a field's; tells whether it was taken.</summary>
    [JSInvokable]
    public bool Key(string key)
    {
        var looks = model!.Looks;
        if (model.Practice is { } practice)
        {
            return Worked(key, practice);
        }
        Action? action = key switch
        {
            "later" => () => model.Step(1),
            "on" => model.GoOn,
            "earlier" => () => model.Step(-1),
            "first" => () => model.LookAt(0),
            "last" => () => model.LookAt(model.Desk.LastMoment),
            "reveal" => model.Reveal,
            "undo" => model.Undo,
            "redo" => model.Redo,
            "escape" when model.IsPresenting => () => model.Present(false),
            "escape" when model.Drawer.Length > 0 => () => model.Fold(model.Drawer),
            "p" => () => model.Look(looks with { Predicts = !looks.Predicts }),
            "l" => () => model.Look(looks with { IsLarge = !looks.IsLarge }),
            "g" => () => model.Look(looks with { Ground = model.Palette == Drawing.Palette.Dark ? "light" : "dark" }),
            "v" => model.LookOn,
            "f" => () => Browser.Full(true),
            _ => null,
        };
        action?.Invoke();
        return action is not null;
    }

    /// <summary>While the walk is worked out, keys write, decide and go on.</summary>
    private bool Worked(string key, Practice practice)
    {
        if (key == "escape" && model!.Assigned is null)
        {
            model.LeaveWork();
            return true;
        }
        var isTaken = false;
        model!.Practise(_ => isTaken = practice.Key(key, model.Words));
        return isTaken;
    }

    public void Dispose()
    {
        model?.Dispose();
        self?.Dispose();
    }
}
