using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Running;

namespace Reckoner.Page.State;

/// <summary>
/// The page without its looks: the sheet, what it gives, the last picture that was right, what can be undone, and which piece of
/// the text stands open. A slip keeps the last good picture, which is then marked as old.
/// </summary>
public sealed class Desk
{
    /// <summary>Changes that follow each other this quickly are undone together.</summary>
    private static readonly TimeSpan Together = TimeSpan.FromSeconds(1);
    private const int MostKept = 500;

    private readonly List<Sheet> earlier = [];
    private readonly List<Sheet> undone = [];
    private TimeSpan lastChange = TimeSpan.MinValue;
    private Reading? standIn;
    private (int Before, int After)? held;

    public Desk(Sheet sheet)
    {
        Sheet = sheet;
        Reading = Reading.Of(sheet);
        Good = Reading.Walk is null ? standIn = StandIn.For(Reading) : Reading;
    }

    public Sheet Sheet { get; private set; }

    public Reading Reading { get; private set; }

    /// <summary>The last reading with a walk, or one that stands in for the first; null where there is none either.</summary>
    public Reading? Good { get; private set; }

    public Walk? Walk => Good?.Walk;

    /// <summary>Whether the picture is of another sheet, since this one is wrong.</summary>
    public bool IsOld => Good is not null && Good != Reading;

    /// <summary>Whether the lines of the picture are those of the text.</summary>
    public bool IsOfText => Good?.Sheet.Text == Sheet.Text;

    /// <summary>What the picture is of, where it is not of this sheet.</summary>
    internal Term? Instead =>
        !IsOld ? null
        : Good == standIn ? StandIn.Said(Good!, Sheet)
        : new Term("page.old");

    /// <summary>A sentence about something that was refused; the sheet is as it was.</summary>
    internal Term? Refused { get; private set; }

    public bool CanUndo => earlier.Count > 0;
    public bool CanRedo => undone.Count > 0;

    /// <summary>The results: the moment after the last cycle. Without a walk there is the load alone.</summary>
    public int LastMoment => Walk is null ? 0 : Walk.Cycles + 1;

    public int Moment => Math.Clamp(Sheet.Moment, 0, LastMoment);

    // ---- the open piece

    /// <summary>Which piece of the text drives a moment: the first the load, the last the results.</summary>
    public int PieceOf(int moment)
    {
        var last = Reading.Cut.Pieces.Count - 1;
        if (moment <= 0 || Walk is null || last == 0)
        {
            return 0;
        }
        return moment > Walk.Cycles ? last : Math.Clamp(Scheduled(Walk.Rows[moment]) + 1, 1, last - 1);
    }

    /// <summary>The declaration that a row comes from, counted through the schedule.</summary>
    private int Scheduled(Row row)
    {
        var declarations = Good!.Cut.Scheduled.ToList();
        var source = Good.Machine.Description.Source;
        if (row.Step!.Source != source)
        {
            return Math.Max(0, declarations.FindIndex(d => d is CoreBlock));
        }
        return declarations.FindLastIndex(d => d is not CoreBlock && source.LineOf(d.Span.Start) <= row.Step.Line);
    }

    /// <summary>The text that stands open. While it is being typed its borders stay, whatever the text means meanwhile.</summary>
    public Piece Open
    {
        get
        {
            var text = Reading.Machine.Description.Source.Text;
            if (held is { } borders && borders.Before + borders.After <= text.Length)
            {
                return new Piece(
                    borders.Before,
                    text.Length - borders.After,
                    Reading.Machine.Description.Source.LineOf(borders.Before)
                );
            }
            return Reading.Cut.Pieces[PieceOf(Moment)];
        }
    }

    /// <summary>The piece is being typed into.</summary>
    public void Hold()
    {
        if (held is null)
        {
            var open = Open;
            held = (open.Start, Reading.Machine.Description.Source.Text.Length - open.End);
        }
    }

    /// <summary>Typing is over: the text is cut anew.</summary>
    public void Release() => held = null;

    /// <summary>Puts other text in the place of the open piece.</summary>
    public void Type(string typed, TimeSpan now)
    {
        typed = typed.ReplaceLineEndings("\n");
        Hold();
        var text = Reading.Machine.Description.Source.Text;
        var open = Open;
        var whole = string.Concat(text.AsSpan(0, open.Start), typed, text.AsSpan(open.End));
        if (whole.Length > Parser.LongestText)
        {
            Refuse(new Term("page.text-too-long", ("length", whole.Length), ("limit", Parser.LongestText)));
            return;
        }
        Change(Sheet with { Text = whole }, now);
    }

    // ---- changes

    internal void Refuse(Term sentence) => Refused = sentence;

    /// <summary>What was refused before is not the matter any more.</summary>
    public void Accept() => Refused = null;

    /// <summary>Another machine in the place of this one.</summary>
    public void Replace(Sheet sheet, TimeSpan now)
    {
        Release();
        lastChange = TimeSpan.MinValue;
        if (Changes(sheet, now))
        {
            Take(sheet, null);
        }
        lastChange = TimeSpan.MinValue;
    }

    public void Change(Sheet sheet, TimeSpan now)
    {
        if (Changes(sheet, now))
        {
            Take(sheet, Good);
        }
    }

    /// <summary>Keeps what is there to be undone; false where the sheet is the same.</summary>
    private bool Changes(Sheet sheet, TimeSpan now)
    {
        Refused = null;
        if (sheet == Sheet)
        {
            return false;
        }
        if (lastChange == TimeSpan.MinValue || now - lastChange > Together)
        {
            earlier.Add(Sheet);
            if (earlier.Count > MostKept)
            {
                earlier.RemoveAt(0);
            }
        }
        lastChange = now;
        undone.Clear();
        return true;
    }

    /// <summary>Looks at another moment, which is no change to undo.</summary>
    public void LookAt(int moment)
    {
        Release();
        Refused = null;
        Sheet = Sheet with { Moment = Math.Clamp(moment, 0, LastMoment) };
    }

    public void Look(string view) => Sheet = Sheet with { View = view };

    public void Undo() => Back(earlier, undone);

    public void Redo() => Back(undone, earlier);

    private void Back(List<Sheet> from, List<Sheet> to)
    {
        if (from.Count == 0)
        {
            return;
        }
        var sheet = from[^1];
        from.RemoveAt(from.Count - 1);
        to.Add(Sheet);
        lastChange = TimeSpan.MinValue;
        Refused = null;
        Release();
        Take(sheet, Good);
    }

    /// <summary>A fault of ours in reading leaves the text as it was typed, and says so; the next change is read as any other.</summary>
    private Reading Read(Sheet sheet)
    {
        try
        {
            return Reading.Of(sheet);
        }
#pragma warning disable CA1031 // Whatever went wrong is our fault, and what was typed must not be lost with it.
        catch (Exception e)
#pragma warning restore CA1031
        {
            Refused = new Term("page.fault-part", ("reason", e.Message));
            return Reading.Unread(sheet);
        }
    }

    /// <param name="picture">What is seen meanwhile if the sheet is wrong; null for what stands in for it.</param>
    private void Take(Sheet sheet, Reading? picture)
    {
        Sheet = sheet;
        Reading = Read(sheet);
        Good = Reading.Walk is null ? picture ?? (standIn = StandIn.For(Reading)) : Reading;
    }
}
