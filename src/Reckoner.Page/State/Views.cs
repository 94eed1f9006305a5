using System.Collections.Concurrent;
using Reckoner.Drawing;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Page.State;

/// <summary>The kinds of figures as the page shows them.</summary>
public static class Views
{
    /// <summary>The rows of the first example, the text that stands open between them and all around it fill a screen of 800.</summary>
    private const double RowWithText = 34;

    private static readonly ConcurrentDictionary<string, bool> Turned = new();

    /// <summary>The kinds of figures that a walk can be read as here; one that is laid out for a screen of its own is none.</summary>
    public static IReadOnlyList<View> All { get; } = [.. View.All.Where(v => !v.HasOwnScreen)];

    /// <summary>The one that parts to let the text stand in it; every walk has it.</summary>
    public static View Parted => All[0];

    /// <summary>The one that is asked for, or the first where there is none such of this walk.</summary>
    public static View Of(string name, Walk walk) => All.FirstOrDefault(v => v.Name == name && v.Suits(walk)) ?? Parted;

    /// <summary>What a kind of figure is called on the page.</summary>
    public static string Spoken(View view, Vocabulary words) => words.Say($"page.read-{view.Name}");

    /// <summary>The kind of figure that follows in the list, among those that there are of a walk.</summary>
    public static View After(View view, Walk walk)
    {
        var at = All.TakeWhile(v => v != view).Count();
        return All.Concat(All).Skip(at + 1).First(v => v.Suits(walk));
    }

    /// <summary>What is drawn of a walk in a moment. A figure with a page for each cycle shows that of the moment alone.</summary>
    /// <param name="shown">The last moment whose values are to be seen; the parted figure stands whole, and its rows are covered where they stand.</param>
    public static Figure Figure(View view, Walk walk, int moment, Looks looks, HouseStyle style, int shown)
    {
        var all = Drawing.Figure.Of(walk, looks.Words) with { Style = style, Base = looks.Base };
        if (HasPages(view, all))
        {
            var cycle = Math.Clamp(moment, 0, walk.Cycles);
            return all with { From = cycle, To = cycle, Until = cycle, IsBlank = shown < moment };
        }
        var stretch = Stretch.Of(walk, moment);
        var until = view == Parted ? stretch.To : Math.Clamp(shown, stretch.From, stretch.To);
        return all with
        {
            From = stretch.From,
            To = stretch.To,
            Until = until,
            LargestRow = view == Parted ? RowWithText : null,
        };
    }

    /// <summary>Found by drawing two cycles once.</summary>
    private static bool HasPages(View view, Figure all) =>
        all.Walk.Cycles > 0
        && Turned.GetOrAdd(view.Name, _ => view.Draws(all with { From = 0, To = 1, Until = 1 }).Count > 1);
}
